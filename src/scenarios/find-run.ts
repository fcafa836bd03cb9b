import type { GeneratorRun } from '../sim/ledger.ts';
import { type Clock, instantsOf } from './clock.ts';

/** What a person may ask for: a run by its number from 1, or by a local time. */
export interface AskedRun {
  run?: number;
  at?: string;
}

/** A run that starts within this long of the time asked for is meant [h]. */
const NEAR_H = 24;

/**
 * The run that somebody asks for: by number, or the one going on at a local time, or else the nearest start within
 * a day of it.
 * @param startS instant from which the runs' hours count [s]
 * @returns its place in the runs; null where nothing was asked; a sentence where there is no such run
 */
export function findRun(
  runs: readonly GeneratorRun[],
  clock: Clock,
  startS: number,
  { run, at }: AskedRun,
): number | null | string {
  if (run !== undefined) {
    if (run >= 1 && run <= runs.length) return run - 1;
    return runs.length === 0
      ? `--run ${run}: the generator never runs`
      : `--run ${run}: expected a run from 1 to ${runs.length}`;
  }
  if (at === undefined) return null;
  const [utcS] = instantsOf(clock, Date.parse(`${at}Z`) / 1000);
  if (utcS === undefined) return `--at ${at}: the clock of ${clock.name} leaves that time out`;
  const atH = (utcS - startS) / 3600;
  const goingOn = runs.findIndex(({ startH, endH }) => startH <= atH && atH < endH);
  if (goingOn >= 0) return goingOn;
  const distances = runs.map(({ startH }) => Math.abs(startH - atH));
  const nearest = distances.indexOf(Math.min(...distances));
  return nearest >= 0 && distances[nearest] <= NEAR_H
    ? nearest
    : `--at ${at}: no run starts within a day of that time`;
}
