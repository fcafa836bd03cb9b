/** Where in a user's file something was found. Lines and columns count from 1. */
export interface Place {
  file: string;
  line?: number;
  column?: number;
}

/**
 * Something wrong ('error') or doubtful ('doubt') in what a user gave us, as data.
 * `got` and `want` are short phrases; `issueSentence` makes the sentence.
 */
export interface Issue {
  severity: 'error' | 'doubt';
  /** short fixed word for the kind of problem, such as 'unknown-key' or 'gap' */
  code: string;
  /** what it is about: a path in a site file ('battery.modules') or a column ('load kW') */
  path: string;
  /** what was found */
  got: string;
  /** what would be right */
  want: string;
  at: Place;
}

/** One sentence for one issue: place, what, found, wanted. */
export function issueSentence(issue: Issue): string {
  const { file, line, column } = issue.at;
  const place = [file, line, column].filter((part) => part !== undefined).join(':');
  return `${place}: ${issue.path}: found ${issue.got}; expected ${issue.want}`;
}

/** True when nothing in the list stops the work. */
export function isUsable(issues: readonly Issue[]): boolean {
  return issues.every((issue) => issue.severity === 'doubt');
}
