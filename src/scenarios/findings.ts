import type { Issue } from './issue.ts';

/** As many errors of one file are listed; a reader that has found them stops. */
const MOST_ERRORS = 100;

/** Where in the file; lines and columns count from 1, a column of a table is its cell. */
export interface Spot {
  line?: number;
  column?: number;
}

/** Problems and doubts of one file, in the order in which they were found. */
export class Findings {
  readonly issues: Issue[] = [];
  private errors = 0;

  constructor(private readonly file: string) {}

  get hasErrors(): boolean {
    return this.errors > 0;
  }

  /** So many errors that reading on makes no sense. */
  get isFull(): boolean {
    return this.errors >= MOST_ERRORS;
  }

  error(code: string, path: string, got: string, want: string, spot: Spot = {}): void {
    if (this.isFull) return;
    this.errors++;
    this.issues.push({ severity: 'error', code, path, got, want, at: { file: this.file, ...spot } });
    if (this.isFull) this.doubt('more', 'file', `${MOST_ERRORS} errors`, 'fewer; not read beyond here', spot);
  }

  doubt(code: string, path: string, got: string, want: string, spot: Spot = {}): void {
    this.issues.push({ severity: 'doubt', code, path, got, want, at: { file: this.file, ...spot } });
  }

  /** Takes over what was found elsewhere. */
  add(issues: readonly Issue[]): void {
    this.errors += issues.filter(({ severity }) => severity === 'error').length;
    for (const issue of issues) this.issues.push(issue);
  }
}

/** A piece of a user's file fit for a sentence: short, in quotes, without control characters. */
export function quoted(text: string): string {
  const short = text.length > 40 ? `${text.slice(0, 39)}…` : text;
  return `'${Array.from(short, (letter) => (letter < ' ' || letter === '\x7f' ? '?' : letter)).join('')}'`;
}

/** The first few of some names. */
export function someOf(names: readonly string[]): string {
  const shown = names.slice(0, 5).join(', ');
  return names.length > 5 ? `${shown} and ${names.length - 5} more` : shown;
}
