import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeCycleList } from '../../src/sim/wear/cycle-list.ts';
import {
  endRainflow,
  feedRainflow,
  rainflowInto,
  reversalsInto,
  startRainflow,
} from '../../src/sim/wear/rainflow.ts';

type Cycle = [range: number, mean: number, count: number];

function cyclesOf(samples: ArrayLike<number>): Cycle[] {
  const list = makeCycleList();
  rainflowInto(list, samples);
  return Array.from({ length: list.size }, (_, i) => [list.rangeFrac[i], list.meanFrac[i], list.count[i]]);
}

function reversalsOf(samples: ArrayLike<number>): number[] {
  const out = new Float64Array(samples.length);
  return [...out.subarray(0, reversalsInto(out, samples))];
}

/** How often each range with each mean was counted, in an order of its own. */
function tally(cycles: Cycle[]): [string, number][] {
  const sums = new Map<string, number>();
  for (const [range, mean, count] of cycles) {
    const key = `${range} about ${mean}`;
    sums.set(key, (sums.get(key) ?? 0) + count);
  }
  return [...sums].sort(([a], [b]) => (a < b ? -1 : 1));
}

/**
 * The four-point method, written plainly: of four points in a row, an inner range that is no larger than both its
 * neighbours is a whole cycle and goes; start again. What is left counts as half cycles.
 */
function fourPoint(samples: number[]): Cycle[] {
  const points = samples.filter((value, i) => {
    if (i === 0) return true;
    const next = samples.slice(i).find((later) => later !== value);
    const before = samples[i - 1];
    if (value === before) return false;
    return next === undefined || value > before !== next > value;
  });
  const whole: Cycle[] = [];
  const size = (i: number) => Math.abs(points[i + 1] - points[i]);
  for (let i = 1; i + 2 < points.length; i++) {
    if (size(i) > size(i - 1) || size(i) > size(i + 1)) continue;
    whole.push([size(i), (points[i] + points[i + 1]) / 2, 1]);
    points.splice(i, 2);
    i = 0;
  }
  const halves = points.slice(1).map((to, i): Cycle => [Math.abs(to - points[i]), (to + points[i]) / 2, 0.5]);
  return [...whole, ...halves];
}

/** Per cent of charge as whole numbers: sums are exact, and equal ranges are frequent. */
const history = fc.oneof(
  fc.array(fc.integer({ min: 0, max: 100 }), { maxLength: 80 }),
  fc.array(fc.integer({ min: 0, max: 4 }), { maxLength: 60 }),
);

// The example of ASTM E1049-85, figure 6 (seen in published test expectations that name the standard; recomputed).
const STANDARD = [-2, 1, -3, 5, -1, 3, -4, 4, -2];

describe('rainflow counting (ASTM E1049-85, section 5.4.4)', () => {
  it("counts the standard's example", () => {
    const counts = new Map<number, number>();
    for (const [range, , count] of cyclesOf(STANDARD)) counts.set(range, (counts.get(range) ?? 0) + count);
    expect([...counts].sort(([a], [b]) => a - b)).toEqual([
      [3, 0.5],
      [4, 1.5],
      [6, 0.5],
      [8, 1],
      [9, 0.5],
    ]);
  });

  // order and means: same source
  it('in order of closing, the residue last', () => {
    expect(cyclesOf(STANDARD)).toEqual([
      [3, -0.5, 0.5],
      [4, -1, 0.5],
      [4, 1, 1],
      [8, 1, 0.5],
      [9, 0.5, 0.5],
      [8, 0, 0.5],
      [6, 1, 0.5],
    ]);
  });

  // derived: from 0 down to −2, and from −2 up to 0, are one more range each, both 2 about −1
  it('counts a 0 before or after the example as one more half cycle', () => {
    const more = tally([[2, -1, 0.5], ...cyclesOf(STANDARD)]);
    expect(tally(cyclesOf([0, ...STANDARD]))).toEqual(more);
    expect(tally(cyclesOf([...STANDARD, 0]))).toEqual(more);
  });

  // derived by hand: 40 to 80 lies within 100 to 20, so one whole cycle of 40 and two half cycles of 80
  it('counts 100, 40, 80, 20, 100 % as one cycle of 40 and two halves of 80', () => {
    expect(cyclesOf([100, 40, 80, 20, 100])).toEqual([
      [40, 60, 1],
      [80, 60, 0.5],
      [80, 60, 0.5],
    ]);
  });

  // step 3 of the section: a range that equals the one before closes it
  it('closes a cycle on an equal range, not only on a larger', () => {
    expect(cyclesOf([0, 10, 4, 7, 4])).toEqual([
      [3, 5.5, 1],
      [10, 5, 0.5],
      [6, 7, 0.5],
    ]);
  });

  it('counts nothing without a change', () => {
    expect(cyclesOf([])).toEqual([]);
    expect(cyclesOf([0.4])).toEqual([]);
    expect(cyclesOf([0.4, 0.4, 0.4])).toEqual([]);
    expect(cyclesOf([0.25, 0.25, 0.75])).toEqual([[0.5, 0.5, 0.5]]);
  });

  it('throws at a sample that is not a number', () => {
    expect(() => cyclesOf([0.5, Number.NaN, 0.4])).toThrow('sample 1');
    expect(() => cyclesOf([Number.NaN])).toThrow('sample 0');
  });
});

describe('reversals', () => {
  it('are the ends, the peaks and the valleys', () => {
    expect(reversalsOf([1, 1, 2, 3, 3, 3, 2, 2, 2.5, 2.5])).toEqual([1, 3, 2, 2.5]);
    expect(reversalsOf([3, 2, 1])).toEqual([3, 1]);
    expect(reversalsOf([1, 1])).toEqual([1]);
    expect(reversalsOf([])).toEqual([]);
  });

  it('have themselves as reversals', () => {
    fc.assert(
      fc.property(history, (samples) => {
        const once = reversalsOf(samples);
        expect(reversalsOf(once)).toEqual(once);
      }),
    );
  });
});

describe('rainflow counting of random histories', () => {
  it('agrees with the four-point method', () => {
    fc.assert(
      fc.property(history, (samples) => {
        expect(tally(cyclesOf(samples))).toEqual(tally(fourPoint(samples)));
      }),
      { numRuns: 2000 },
    );
  });

  it('counts every range between reversals once as a half', () => {
    fc.assert(
      fc.property(history, (samples) => {
        const halves = cyclesOf(samples).reduce((sum, [, , count]) => sum + 2 * count, 0);
        expect(halves).toBe(Math.max(0, reversalsOf(samples).length - 1));
      }),
    );
  });

  it('keeps the way travelled: twice the sum of range times count', () => {
    fc.assert(
      fc.property(history, (samples) => {
        const counted = cyclesOf(samples).reduce((sum, [range, , count]) => sum + 2 * range * count, 0);
        const way = samples.slice(1).reduce((sum, value, i) => sum + Math.abs(value - samples[i]), 0);
        expect(counted).toBe(way);
      }),
    );
  });

  it('has the whole span as its largest range', () => {
    fc.assert(
      fc.property(history, (samples) => {
        const span = samples.length === 0 ? 0 : Math.max(...samples) - Math.min(...samples);
        expect(Math.max(0, ...cyclesOf(samples).map(([range]) => range))).toBe(span);
      }),
    );
  });

  it('does not care for equal samples, nor for samples on the way', () => {
    fc.assert(
      fc.property(history, fc.integer({ min: 1, max: 4 }), (samples, parts) => {
        // every value again, and the way to the next in parts
        const finer = samples.flatMap((value, i) => {
          const next = samples[i + 1] ?? value;
          return Array.from({ length: parts + 1 }, (_, j) => value + ((next - value) * j) / parts);
        });
        expect(cyclesOf(finer)).toEqual(cyclesOf(samples));
      }),
    );
  });

  it('sees a history upside down as the same ranges', () => {
    fc.assert(
      fc.property(history, (samples) => {
        const mirrored = cyclesOf(samples.map((value) => 100 - value));
        expect(mirrored).toEqual(cyclesOf(samples).map(([range, mean, count]) => [range, 100 - mean, count]));
      }),
    );
  });

  it('gives the same cycles in the same order when fed in pieces, and again after an end', () => {
    const cuts = fc.array(fc.integer({ min: 0, max: 80 }), { maxLength: 6 });
    fc.assert(
      fc.property(history, cuts, (samples, cutAt) => {
        const count = startRainflow();
        const edges = [0, ...cutAt.map((cut) => Math.min(cut, samples.length)), samples.length];
        edges.sort((a, b) => a - b);
        for (let round = 0; round < 2; round++) {
          const seen: Cycle[] = [];
          const note = (range: number, mean: number, n: number) => void seen.push([range, mean, n]);
          for (let i = 1; i < edges.length; i++)
            feedRainflow(count, Float64Array.from(samples.slice(edges[i - 1], edges[i])), note);
          endRainflow(count, note);
          expect(seen).toEqual(cyclesOf(samples));
        }
      }),
    );
  });

  it('has room for a residue of any length', () => {
    // swings that get smaller and smaller: nothing closes before the end
    const swings = Array.from({ length: 1001 }, (_, i) => (i % 2 === 0 ? 2000 - i : i));
    const cycles = cyclesOf(swings);
    expect(cycles.length).toBe(1000);
    expect(cycles.every(([, , count]) => count === 0.5)).toBe(true);
    // 2000 to 1, 1 to 1998, 1998 to 3, ..
    expect(cycles.slice(0, 3).map(([range]) => range)).toEqual([1999, 1997, 1995]);
    // and swings that grow close one after the other
    expect(cyclesOf([...swings].reverse()).map(([range]) => range)).toEqual(
      cycles.map(([range]) => range).reverse(),
    );
  });
});
