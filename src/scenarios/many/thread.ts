import type { SiteChanges } from '../apply-changes.ts';
import type { Attempt } from './evaluate.ts';
import { Filed, type SharedSeries } from './ground.ts';
import { Runner } from './runner.ts';

/** The site at a step, with its series. */
export interface OpenMessage {
  kind: 'open';
  text: string;
  file: string;
  /** another step than the site file's [min]; null: that */
  stepMin: number | null;
  series: SharedSeries;
}

/** What a thread is told: of a site, of files that variants may name, and then of variants to run. */
export type ToThread =
  | OpenMessage
  | { kind: 'files'; files: ReadonlyMap<string, Uint8Array> }
  | { kind: 'run'; stepMin: number | null; variants: readonly SiteChanges[] };

/** What a thread answers to variants. */
export interface FromThread {
  attempts: Attempt[];
}

/** A thread that runs variants, as the pool sees it: a worker of Node, or of a browser. */
export interface Thread {
  send(message: ToThread): void;
  onAnswer(listener: (answer: FromThread) => void): void;
  /** told once, when the thread has ended for whatever reason */
  onEnd(listener: (why: string) => void): void;
  stop(): void;
}

/** Starts a thread. */
export type StartThread = () => Thread;

/**
 * The thread's side.
 * @returns takes a message, and gives the answer to it if there is to be one
 */
export function makeThreadWork(): (message: ToThread) => FromThread | null {
  const runners = new Map<number | null, Runner>();
  let files: ReadonlyMap<string, Uint8Array> = new Map();
  const readFile = (path: string) => {
    const bytes = files.get(path);
    if (!bytes) throw new Error(`no file ${path}`);
    return bytes;
  };
  return (message) => {
    if (message.kind === 'files') {
      files = message.files;
      return null;
    }
    const { stepMin } = message;
    if (message.kind === 'open') {
      const filed = new Filed(message.text, message.file);
      runners.set(stepMin, new Runner(filed, message.series, readFile, stepMin));
      return null;
    }
    const runner = runners.get(stepMin);
    if (!runner) throw new Error(`variants at a step of ${stepMin} min before the site`);
    return { attempts: message.variants.map((changes) => runner.run(changes)) };
  };
}
