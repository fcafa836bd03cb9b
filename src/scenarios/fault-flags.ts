import seedrandom from 'seedrandom';
import { type Clock, instantFrom } from './clock.ts';
import type { TimeAxis } from './series.ts';
import type { Site } from './site-schema.ts';

/** Spans between two moments of the local clock; the second is not included. */
type Spans = readonly { from: string; to: string }[];

/** 1 in steps whose start is within a span; null where there are no spans. */
export function momentFlags(spans: Spans, clock: Clock, axis: TimeAxis): Uint8Array | null {
  if (spans.length === 0) return null;
  const flags = new Uint8Array(axis.count);
  for (const { from, to } of spans) flags.fill(1, stepAt(from, clock, axis), stepAt(to, clock, axis));
  return flags;
}

/** Units out of service by phase; null where there are none. */
export function unitsOut(
  spans: Site['faults']['units'],
  phases: number,
  clock: Clock,
  axis: TimeAxis,
): Uint8Array[] | null {
  if (spans.length === 0) return null;
  const out = Array.from({ length: phases }, () => new Uint8Array(axis.count));
  for (const { from, to, phase, units } of spans) {
    const flags = out[phase - 1];
    for (let i = stepAt(from, clock, axis); i < stepAt(to, clock, axis); i++) flags[i] += units;
  }
  return out;
}

/** The first step at or after a moment, within the axis. */
function stepAt(moment: string, clock: Clock, axis: TimeAxis): number {
  const localS = Date.parse(`${moment.length > 10 ? moment : `${moment}T00:00`}Z`) / 1000;
  const step = Math.ceil((instantFrom(clock, localS) - axis.startS) / (axis.stepMin * 60));
  return Math.min(axis.count, Math.max(0, step));
}

/** As many attempts are drawn; a run that makes more begins again. */
const ATTEMPTS = 5000;

/** Outcomes of start attempts in turn, 1 for one that fails; null where every start succeeds. */
export function startFails(generator: Site['generator']): Uint8Array | null {
  const rule = generator?.startFailures;
  if (!rule || rule.chance === 0) return null;
  const draw = seedrandom(rule.seed);
  return Uint8Array.from({ length: ATTEMPTS }, () => Number(draw() < rule.chance));
}
