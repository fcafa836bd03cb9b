import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import pc from 'picocolors';
import { type Issue, issueSentence } from '../../scenarios/issue.ts';
import type { ReadFile } from '../../scenarios/load-files.ts';
import type { Terminal } from './work.ts';

/** Reads files named in a site file, by their path beside it. */
export function besideSite(sitePath: string): ReadFile {
  return (path) => readFileSync(resolve(dirname(sitePath), path));
}

/** Reads as another does, and keeps every file that was read, by its path. */
export function rememberReads(read: ReadFile): { files: Record<string, Uint8Array>; readFile: ReadFile } {
  const files: Record<string, Uint8Array> = {};
  const readFile: ReadFile = (path) => {
    files[path] ??= read(path);
    return files[path];
  };
  return { files, readFile };
}

/** A sentence on standard error. */
export function note(sentence: string): void {
  process.stderr.write(`${sentence}\n`);
}

/** As `note`, also while a line of progress stands there, which is written anew after it. */
export function noteBesideProgress({ showsProgress }: Pick<Terminal, 'showsProgress'>) {
  return (sentence: string) => note(`${showsProgress ? '\r\x1b[K' : ''}${sentence}`);
}

/** The text of a site file; null, with a sentence on standard error and exit code 1, where there is none. */
export function readSiteText(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    process.stderr.write(`${path}: no such file; expected a site file (YAML or JSON)\n`);
    process.exitCode = 1;
    return null;
  }
}

/** Writes to a temporary name and moves it into place, so that a stopped run leaves the old file whole. */
export function writeInPlace(path: string, content: string | Uint8Array): void {
  mkdirSync(dirname(path), { recursive: true });
  const unfinished = `${path}.${process.pid}.tmp`;
  writeFileSync(unfinished, content);
  renameSync(unfinished, path);
}

/** Lists issues on standard error: errors first, then doubts. */
export function printIssues(issues: readonly Issue[]): void {
  const errors = issues.filter((issue) => issue.severity === 'error');
  const doubts = issues.filter((issue) => issue.severity === 'doubt');
  for (const issue of errors) process.stderr.write(`${pc.red('problem')} ${issueSentence(issue)}\n`);
  for (const issue of doubts) process.stderr.write(`${pc.yellow('doubt')} ${issueSentence(issue)}\n`);
}
