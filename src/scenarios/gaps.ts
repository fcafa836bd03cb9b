import type { Issue } from './issue.ts';
import type { Gap, TimeAxis } from './series.ts';

/** Gaps of at most this long are filled by a straight line between their neighbours. */
const LINE_MIN = 120;

/**
 * Fills missing values (NaN) in place, by the same time on the day before (else after), or by a straight line
 * when the gap is short. Gaps longer than allowed stay, and are an error.
 * @param maxGapMin longest gap that is filled [min]
 */
export function fillGaps(
  values: Float64Array,
  axis: TimeAxis,
  maxGapMin: number,
  name: string,
  file: string,
): { gaps: Gap[]; issues: Issue[] } {
  const gaps: Gap[] = [];
  const issues: Issue[] = [];
  const perDay = 1440 / axis.stepMin;
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i])) continue;
    let end = i;
    while (end < values.length && Number.isNaN(values[end])) end++;
    const lengthMin = (end - i) * axis.stepMin;
    const gap: Gap = { startS: axis.startS + i * axis.stepMin * 60, steps: end - i, filledBy: null };
    if (lengthMin <= maxGapMin) gap.filledBy = fillOne(values, i, end, lengthMin <= LINE_MIN, perDay);
    gaps.push(gap);
    if (gap.filledBy === null) issues.push(longGap(name, file, gap, axis, maxGapMin));
    i = end;
  }
  return { gaps, issues };
}

function fillOne(
  values: Float64Array,
  from: number,
  to: number,
  short: boolean,
  perDay: number,
): string | null {
  const before = from > 0 ? values[from - 1] : Number.NaN;
  const after = to < values.length ? values[to] : Number.NaN;
  if (short && !Number.isNaN(before) && !Number.isNaN(after)) {
    for (let i = from; i < to; i++)
      values[i] = before + ((after - before) * (i - from + 1)) / (to - from + 1);
    return 'straight line between neighbours';
  }
  for (const days of [-1, 1, -2, 2, -7, 7]) {
    const shift = days * perDay;
    if (from + shift < 0 || to + shift > values.length) continue;
    if (values.subarray(from + shift, to + shift).some(Number.isNaN)) continue;
    for (let i = from; i < to; i++) values[i] = values[i + shift];
    return `same time ${Math.abs(days)} day${days === 1 || days === -1 ? '' : 's'} ${days < 0 ? 'before' : 'after'}`;
  }
  return null;
}

function longGap(name: string, file: string, gap: Gap, axis: TimeAxis, maxGapMin: number): Issue {
  const hours = (gap.steps * axis.stepMin) / 60;
  return {
    severity: 'error',
    code: 'gap',
    path: name,
    got: `no values for ${Number(hours.toFixed(2))} h from ${new Date(gap.startS * 1000).toISOString()}`,
    want: `gaps of at most ${maxGapMin} min (maxGapMin), with a day beside them to fill them from`,
    at: { file },
  };
}
