import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { daySpans } from '../../src/report/day-spans.ts';
import { busiestHours, runHoursByHour } from '../../src/report/hour-of-day.ts';
import { makeView, type StudyView } from '../../src/report/view.ts';
import type { Study } from '../../src/scenarios/study.ts';
import type { GeneratorRun } from '../../src/sim/ledger.ts';

/** A year from 1 January 2025 00:00 UTC on the clock of a zone. */
function yearOn(timeZone: string): StudyView {
  const axis = { startS: Date.UTC(2025, 0, 1) / 1000, stepMin: 60, count: 8760 };
  return makeView({ axis, timeZone } as Study);
}

function run(startH: number, endH: number): GeneratorRun {
  const rest = { onLoadH: 0, socStart: 0, socEnd: 0, kwh: 0, litres: 0, meanKw: null, ranDry: false };
  return { startH, endH, cause: 'charge', ...rest };
}

describe('a run on the local day', () => {
  it('is cut at local midnight', () => {
    const spans = daySpans(yearOn('+10:00'), 12, 16);
    expect(spans.map(({ fromHour, toHour }) => [fromHour, toHour])).toEqual([
      [22, 24],
      [0, 2],
    ]);
    expect(spans[1].dayNumber - spans[0].dayNumber).toBe(1);
  });

  it('keeps its length over the hour that autumn repeats and the one that spring leaves out', () => {
    // Europe/Berlin: 30 March 2025 01:00 UTC and 26 October 2025 01:00 UTC (European Union directive 2000/84/EC)
    for (const startH of [88 * 24 - 2, 298 * 24 - 2]) {
      const spans = daySpans(yearOn('Europe/Berlin'), startH, startH + 30);
      expect(spans.reduce((sum, { fromHour, toHour }) => sum + toHour - fromHour, 0)).toBeCloseTo(30, 9);
      for (const { fromHour, toHour } of spans) expect(toHour).toBeGreaterThan(fromHour);
    }
  });

  it('lies in the hours in which it ran', () => {
    const hours = runHoursByHour(yearOn('UTC'), [run(5.5, 7.25), run(24 + 6, 24 + 7)]);
    const at = (hour: number) => hours.find((row) => row.hour === hour)?.runH;
    expect([4, 5, 6, 7, 8].map(at)).toEqual([0, 0.5, 2, 0.25, 0]);
  });

  it('adds up to the run hours, whatever the runs and the zone', () => {
    const zones = fc.constantFrom('UTC', '+05:45', 'Europe/Berlin', 'Australia/Lord_Howe');
    const runs = fc.array(
      fc.tuple(fc.double({ min: 0, max: 8700, noNaN: true }), fc.double({ min: 0.01, max: 60, noNaN: true })),
      { maxLength: 20 },
    );
    fc.assert(
      fc.property(zones, runs, (zone, pairs) => {
        const list = pairs.map(([startH, length]) => run(startH, startH + length));
        const sum = runHoursByHour(yearOn(zone), list).reduce((total, { runH }) => total + runH, 0);
        // instants are drawn to the second
        expect(Math.abs(sum - pairs.reduce((total, [, length]) => total + length, 0))).toBeLessThan(
          0.001 * (1 + list.length),
        );
      }),
      { numRuns: 200 },
    );
  });
});

describe('the busiest hours', () => {
  const day = (entries: Record<number, number>) =>
    Array.from({ length: 24 }, (_, hour) => entries[hour] ?? 0);

  it('are three in a row', () => {
    expect(busiestHours(day({ 5: 1, 6: 3, 7: 2, 12: 4 }))).toEqual({ fromHour: 5, toHour: 8, sum: 6 });
  });

  it('pass midnight', () => {
    expect(busiestHours(day({ 23: 2, 0: 2, 1: 1, 12: 4 }))).toEqual({ fromHour: 23, toHour: 2, sum: 5 });
  });

  it('are fewer where their ends hold none', () => {
    expect(busiestHours(day({ 6: 3 }))).toEqual({ fromHour: 6, toHour: 7, sum: 3 });
  });
});
