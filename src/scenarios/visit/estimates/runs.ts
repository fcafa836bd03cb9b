import type { LogView } from './log-view.ts';

/** A run of the engine in the log, by steps. */
export interface LoggedRun {
  /** first and last step in which the engine runs */
  first: number;
  last: number;
  /** last step with output; `last` where output is not logged */
  lastOnLoad: number;
  /** whether the steps just before and after are known, so that it really began and ended there */
  beginsKnown: boolean;
  endsKnown: boolean;
}

export function loggedRuns({ running, generatorKw, count }: LogView): LoggedRun[] {
  if (running === null) return [];
  const runs: LoggedRun[] = [];
  for (let i = 0; i < count; i++) {
    if (!(running[i] > 0)) continue;
    const first = i;
    while (i + 1 < count && running[i + 1] > 0) i++;
    let lastOnLoad = i;
    if (generatorKw) while (lastOnLoad > first && !(generatorKw[lastOnLoad] > 0)) lastOnLoad--;
    runs.push({
      ...{ first, last: i, lastOnLoad },
      beginsKnown: first > 1 && running[first - 1] === 0,
      endsKnown: i + 1 < count && running[i + 1] === 0,
    });
  }
  return runs;
}
