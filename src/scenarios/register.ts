import type { Issue } from './issue.ts';
import type { Gap, TimeAxis } from './series.ts';

/** Mean powers from a running total of kWh that is read at the start of each step. */
export interface RegisterPowers {
  /** one step fewer than readings: the last reading only ends an interval */
  kw: Float64Array;
  gaps: Gap[];
  issues: Issue[];
}

/**
 * Turns readings of a running total into the mean power between them. Over a hole the energy is known from the
 * readings on either side, and is spread evenly. A total that falls begins anew: that interval is missing.
 * @param readings kWh; NaN where there is none
 */
export function registerPowers(
  readings: Float64Array,
  axis: TimeAxis,
  maxGapMin: number,
  name: string,
  file: string,
): RegisterPowers {
  const total = Float64Array.from(readings);
  const gaps = bridgeHoles(total, axis, maxGapMin);
  const kw = new Float64Array(Math.max(0, total.length - 1));
  let falls = 0;
  for (let i = 0; i < kw.length; i++) {
    const energy = total[i + 1] - total[i];
    if (energy < 0) falls++;
    kw[i] = energy < 0 ? Number.NaN : (energy * 60) / axis.stepMin;
  }
  const got = `a register that falls ${falls} ${falls === 1 ? 'time' : 'times'}`;
  const want = 'a running total; these intervals are filled';
  const fall: Issue = { severity: 'doubt', code: 'register-reset', path: name, got, want, at: { file } };
  return { kw, gaps, issues: falls > 0 ? [fall] : [] };
}

function bridgeHoles(total: Float64Array, axis: TimeAxis, maxGapMin: number): Gap[] {
  const gaps: Gap[] = [];
  for (let i = 1; i < total.length; i++) {
    if (!Number.isNaN(total[i])) continue;
    let end = i;
    while (end < total.length && Number.isNaN(total[end])) end++;
    const rises = end < total.length && total[end] >= total[i - 1];
    if (rises && (end - i) * axis.stepMin <= maxGapMin) {
      const rise = (total[end] - total[i - 1]) / (end - i + 1);
      for (let j = i; j < end; j++) total[j] = total[i - 1] + rise * (j - i + 1);
      const startS = axis.startS + i * axis.stepMin * 60;
      gaps.push({ startS, steps: end - i, filledBy: 'energy known from the register on either side' });
    }
    i = end;
  }
  return gaps;
}
