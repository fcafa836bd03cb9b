import type { SiteHeading } from '../study.ts';
import type { Axis } from './axes.ts';
import type { Attempt, TryEach } from './evaluate.ts';
import type { KeptOutcomes } from './kept-outcomes.ts';
import type { Outcome } from './outcome.ts';
import type { SweepPlan } from './sweep-plan.ts';

/** Many variants of a site over the grid of some of its numbers: everything that the report floor shows. */
export interface Sweep {
  site: SiteHeading;
  stepMin: number;
  /** of the simulated period */
  days: number;
  axes: Axis[];
  /** by the axis: what one more costs at the start; 0 where nothing was said */
  prices: number[];
  /** cells of the whole grid: more than there are here, where only a sample was run */
  gridSize: number;
  cells: SweepCell[];
  filed: Outcome;
  /** what may go unserved in the best one [kWh] */
  mostUnservedKwh: number;
  /** the least life-cycle cost among those with no more unserved; null where there is none */
  best: number | null;
  made: { version: string; inputsHash: string };
}

export interface SweepCell {
  /** places on the axes */
  at: number[];
  /** null where the variant contradicts itself */
  outcome: Outcome | null;
  /** why, else empty: what was found and what would be right */
  problems: string[];
}

/**
 * Runs what of a plan has not been kept, and keeps it.
 * @param onProgress told how many of those are done
 * @returns what each variant of the plan gave
 */
export async function runCells(
  { variants }: SweepPlan,
  tryEach: TryEach,
  kept: KeptOutcomes,
  onProgress: (done: number, of: number) => void,
): Promise<Attempt[]> {
  const open = variants.filter((changes) => kept.of(changes) === undefined);
  let done = 0;
  onProgress(done, open.length);
  const fresh = await tryEach(open, undefined, (index, attempt) => {
    kept.add(open[index], attempt);
    done++;
    onProgress(done, open.length);
  });
  kept.flush();
  let next = 0;
  return variants.map((changes) => kept.of(changes) ?? fresh[next++]);
}

/**
 * Everything that is told of a sweep.
 * @param attempts what each variant of the plan gave; one that was not run is left out
 * @param about of the site as filed, and how it was run
 */
export function sweepOf(
  { axes, prices, gridSize, cells: places }: SweepPlan,
  attempts: readonly (Attempt | undefined)[],
  about: Pick<Sweep, 'site' | 'stepMin' | 'days' | 'filed' | 'mostUnservedKwh' | 'made'>,
): Sweep {
  const cells = places.flatMap((at, i) => {
    const attempt = attempts[i];
    return attempt === undefined ? [] : [cellOf(at, attempt)];
  });
  return { ...about, axes, prices, gridSize, cells, best: bestCell(cells, about.mostUnservedKwh) };
}

/** A cell with what its variant gave. */
export function cellOf(at: number[], attempt: Attempt): SweepCell {
  if (!Array.isArray(attempt)) return { at, outcome: attempt, problems: [] };
  const problems = attempt.map(({ path, got, want }) => `${pathAlone(path)}: found ${got}; expected ${want}`);
  return { at, outcome: null, problems };
}

/** The path without the variant's name before it. */
function pathAlone(path: string): string {
  return path.slice(path.lastIndexOf(': ') + 1).trim();
}

/**
 * The cell of least life-cycle cost among those that leave no more unserved than is allowed; the first of equals.
 * @returns its place in the list; null where there is none
 */
export function bestCell(cells: readonly SweepCell[], mostUnservedKwh: number): number | null {
  let best: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [i, { outcome }] of cells.entries()) {
    if (outcome === null || !servesEnough(outcome, mostUnservedKwh)) continue;
    if (outcome.lifeCycleCost >= least) continue;
    best = i;
    least = outcome.lifeCycleCost;
  }
  return best;
}

/** Within a thousandth of a kWh, which is nothing. */
const NEXT_TO_NOTHING_KWH = 1e-3;

export function servesEnough({ unservedKwh }: Outcome, mostUnservedKwh: number): boolean {
  return unservedKwh <= mostUnservedKwh + NEXT_TO_NOTHING_KWH;
}
