import { expect } from 'vitest';
import type { Quantity, ReadResult, Series } from '../../src/scenarios/series.ts';

/** What every reading of a damaged file must be: refused with an error, or whole series that agree with their sheet. */
export function checkWhole(result: ReadResult, where: string): 'refused' | 'read' {
  if (result.series.length === 0) {
    expect(
      result.issues.some(({ severity }) => severity === 'error'),
      where,
    ).toBe(true);
    return 'refused';
  }
  expect(
    result.issues.some(({ severity }) => severity === 'error'),
    where,
  ).toBe(false);
  const gapSteps = result.sheet!.gaps.reduce((sum, { steps }) => sum + steps, 0);
  expect(result.sheet!.filled, where).toBe(gapSteps);
  for (const series of result.series) {
    expect(
      series.values.every((kw) => Number.isFinite(kw) && kw >= 0),
      where,
    ).toBe(true);
    expect(series.values.length, where).toBe(series.axis.count);
    const stated = result.sheet!.series.find(({ quantity }) => quantity === series.quantity)!.total;
    expect(Math.abs(stated - seriesKwh(series)), where).toBeLessThanOrEqual(1e-9 * Math.max(1, stated));
  }
  return 'read';
}

export function seriesOf(result: ReadResult, quantity: Quantity): Series | undefined {
  return result.series.find((one) => one.quantity === quantity);
}

function seriesKwh({ values, axis }: Series): number {
  return values.reduce((sum, kw) => sum + kw, 0) * (axis.stepMin / 60);
}

/** Energy of a stretch [kWh]; NaN where the series does not cover it. */
export function stretchKwh({ values, axis }: Series, startS: number, durationS: number): number {
  const stepS = axis.stepMin * 60;
  const first = (startS - axis.startS) / stepS;
  const last = first + durationS / stepS;
  if (!Number.isInteger(first) || !Number.isInteger(last) || first < 0 || last > values.length)
    return Number.NaN;
  let sum = 0;
  for (let i = first; i < last; i++) sum += values[i];
  return (sum * stepS) / 3600;
}

/** One metered interval as an undamaged file gives it. */
export interface Truth {
  quantity: Quantity;
  startS: number;
  durationS: number;
  kwh: number;
}

/** Doubts after which an intact interval need not show in the sum: another took its place, or was added to it. */
const DISPLACED = new Set([
  'duplicates',
  'several-meters',
  'register-span',
  'added-up',
  'same-energy',
  'left-out',
]);

/** Intervals that are intact read as before, to 1e-9 kWh, unless a doubt says that something came in their way. */
export function checkIntact(result: ReadResult, intact: readonly Truth[], where: string): number {
  if (result.series.length === 0 || result.issues.some(({ code }) => DISPLACED.has(code))) return 0;
  let checked = 0;
  for (const { quantity, startS, durationS, kwh } of intact) {
    const series = seriesOf(result, quantity);
    if (!series) expect.fail(`no ${quantity}\n${where}`);
    // two registers added up: each has its own part of the sum
    if (series.name.includes(' + ')) continue;
    const apartKwh = Math.abs(stretchKwh(series, startS, durationS) - kwh);
    if (!(apartKwh < 1e-9)) expect.fail(`${quantity} from ${startS}: ${apartKwh} kWh apart\n${where}`);
    checked++;
  }
  return checked;
}
