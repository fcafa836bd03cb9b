import type { Findings } from './findings.ts';
import type { PlacedRegister } from './place-registers.ts';
import type { Gap, TimeAxis } from './series.ts';

/** A value so many times the mean of all others is doubted. */
const OUTLIER = 100;
const FEW_STEPS = 48;

/**
 * A register that begins long after others, or ends long before them, was not there then (an array or a second
 * circuit that came later): 0 in that time, counted as a filled gap, and doubted. Only where the others were
 * metered; otherwise the gap stays, to be refused.
 * @param beside the registers that show the site was metered then
 * @param maxGapMin a shorter absence is an ordinary gap [min]
 */
export function fillAbsence(
  placed: PlacedRegister,
  beside: readonly PlacedRegister[],
  axis: TimeAxis,
  maxGapMin: number,
  list: Findings,
): Gap[] {
  const { kw, name } = placed;
  const gaps: Gap[] = [];
  const fill = (from: number, to: number, verb: string) => {
    const isLong = (to - from) * axis.stepMin > maxGapMin;
    if (!isLong || !beside.some((other) => hasValues(other.kw, from, to))) return;
    kw.fill(0, from, to);
    const startS = axis.startS + from * axis.stepMin * 60;
    gaps.push({ startS, steps: to - from, filledBy: 'register not there yet, or no more: 0' });
    const at = stamp(axis, verb === 'begins' ? to : from);
    list.doubt(
      'register-span',
      name,
      `a register that ${verb} at ${at}`,
      'values all the time; 0 where it has none',
    );
  };
  const first = kw.findIndex((value) => !Number.isNaN(value));
  if (first < 0) return gaps;
  const end = kw.findLastIndex((value) => !Number.isNaN(value)) + 1;
  fill(0, first, 'begins');
  fill(end, kw.length, 'ends');
  return gaps;
}

/** True when a register has values at both ends of a stretch. */
function hasValues(kw: Float64Array, from: number, to: number): boolean {
  return !Number.isNaN(kw[from]) && !Number.isNaN(kw[to - 1]);
}

/** Doubts a single value far above all others: a damaged number keeps its place in a file. */
export function outlierDoubt(kw: Float64Array, axis: TimeAxis, name: string, list: Findings): void {
  let sum = 0;
  let highest = 0;
  for (let i = 0; i < kw.length; i++) {
    sum += kw[i];
    if (kw[i] > kw[highest]) highest = i;
  }
  const rest = (sum - kw[highest]) / (kw.length - 1);
  if (kw.length < FEW_STEPS || !(rest > 0) || kw[highest] <= OUTLIER * rest) return;
  const got = `${Number(kw[highest].toPrecision(6))} kW at ${stamp(axis, highest)}`;
  list.doubt('outlier', name, got, `values nearer the mean of the others, ${Number(rest.toPrecision(3))} kW`);
}

function stamp(axis: TimeAxis, step: number): string {
  return `${new Date((axis.startS + step * axis.stepMin * 60) * 1000).toISOString().slice(0, 16)}Z`;
}
