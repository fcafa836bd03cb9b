import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describeSheet } from '../../scenarios/data-sheet.ts';
import { isUsable } from '../../scenarios/issue.ts';
import { type AnyOptions, readAny } from '../../scenarios/read-any.ts';
import { type LookedAt, lookPage } from '../look/page.ts';
import { printIssues, writeInPlace } from './files.ts';

export interface LookOptions extends AnyOptions {
  out: string;
}

/** `darkweek look FILE...`: data sheet and doubts in the terminal, one page with pictures in a folder. */
export function lookCommand(files: readonly string[], options: LookOptions): void {
  const looked: LookedAt[] = [];
  for (const file of files) {
    let bytes: Uint8Array;
    try {
      bytes = readFileSync(file);
    } catch {
      process.stderr.write(`${file}: no such file\n`);
      process.exitCode = 1;
      return;
    }
    const result = readAny(bytes, file, options);
    if (result.sheet) process.stdout.write(`${describeSheet(result.sheet).join('\n')}\n`);
    printIssues(result.issues);
    looked.push({
      file,
      result,
      zone: zoneOf(result.location?.utcOffsetH, options.timeZone, result.sheet?.reader),
    });
  }
  if (looked.some(({ result }) => !isUsable(result.issues))) process.exitCode = 1;
  const page = join(options.out, 'look.html');
  writeInPlace(page, lookPage(looked));
  process.stdout.write(`Page: ${page}\n`);
}

/** The clock for the hours of the day: asked for, or the file's own. */
function zoneOf(offsetH: number | undefined, asked: string | undefined, reader: string | undefined): string {
  if (asked) return asked;
  if (reader === 'nem12') return '+10:00';
  if (offsetH === undefined) return 'UTC';
  const minutes = Math.round(Math.abs(offsetH) * 60);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${offsetH < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
