/** Commands that go on while a test looks at them. */
import { type ChildProcess, spawn } from 'node:child_process';
import { CLI, inFolder } from '../built-cli.ts';

const running = new Set<ChildProcess>();

export interface Running {
  child: ChildProcess;
  /** both outputs so far */
  said: () => string;
  ended: Promise<number | null>;
}

export function startIn(folder: string, ...args: string[]): Running {
  const child = spawn(process.execPath, [CLI, ...args], { ...inFolder(folder), stdio: 'pipe' });
  running.add(child);
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (text) => {
      said += text;
    });
  const ended = new Promise<number | null>((done) => {
    child.on('exit', (code) => {
      running.delete(child);
      done(code);
    });
  });
  return { child, said: () => said, ended };
}

/** Whatever a test has left running. */
export function endAll(): void {
  for (const child of running) child.kill('SIGKILL');
}
