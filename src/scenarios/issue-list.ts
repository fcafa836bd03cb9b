import type { Issue } from './issue.ts';

/** Most errors that are listed of one file; after that a reader stops. */
const MOST_ERRORS = 100;

/** Where in a file something is; both may be unknown. */
export interface Spot {
  line?: number;
  column?: number;
}

/** Collects what is wrong or doubtful in one file, the errors up to a bound so that a broken file ends. */
export class IssueList {
  readonly issues: Issue[] = [];
  private errors = 0;

  constructor(private readonly file: string) {}

  /** True when there are so many errors that reading on makes no sense. */
  get isFull(): boolean {
    return this.errors >= MOST_ERRORS;
  }

  get hasErrors(): boolean {
    return this.errors > 0;
  }

  error(code: string, path: string, got: string, want: string, spot: Spot = {}): void {
    if (this.isFull) return;
    this.errors++;
    this.push('error', code, path, got, want, spot);
    if (this.isFull)
      this.push('doubt', 'more', 'file', `${MOST_ERRORS} errors`, 'fewer; not read beyond here', spot);
  }

  doubt(code: string, path: string, got: string, want: string, spot: Spot = {}): void {
    this.push('doubt', code, path, got, want, spot);
  }

  /** Takes over issues found elsewhere. */
  add(issues: readonly Issue[]): void {
    for (const issue of issues) {
      if (issue.severity === 'error') this.errors++;
      this.issues.push(issue);
    }
  }

  private push(
    severity: Issue['severity'],
    code: string,
    path: string,
    got: string,
    want: string,
    { line, column }: Spot,
  ): void {
    this.issues.push({ severity, code, path, got, want, at: { file: this.file, line, column } });
  }
}

/** A piece of a user's file fit for a sentence: short, in quotes, without control characters. */
export function quoted(text: string): string {
  const plain = Array.from(text.slice(0, 25), (letter) => (letter < ' ' || letter === '\x7f' ? '?' : letter));
  return text.length > 24 ? `'${plain.slice(0, 24).join('')}...'` : `'${plain.join('')}'`;
}

/** The first few of some names. */
export function someOf(names: readonly string[]): string {
  const shown = names.slice(0, 5).join(', ');
  return names.length > 5 ? `${shown} and ${names.length - 5} more` : shown;
}
