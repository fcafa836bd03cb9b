import { type Issue, issueSentence } from '../issue.ts';

/** Thrown where variants of a site contradict themselves: every problem of each, named after the change. */
export class WrongVariants extends Error {
  constructor(readonly issues: readonly Issue[]) {
    super(issues.map(issueSentence).join('\n'));
    this.name = 'WrongVariants';
  }
}

/** What a variant is called where something is wrong with it: its changes. */
export function variantName(changes: Record<string, unknown>): string {
  const words = Object.entries(changes).map(([path, to]) => `${path} = ${JSON.stringify(to)}`);
  return words.length === 0 ? 'the site as filed' : words.join(', ');
}
