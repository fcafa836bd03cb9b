/** Parts of the searches: points spread evenly, ranks, descents, frontiers. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tryCoarse } from '../../../src/scenarios/many/coarse-step.ts';
import { frontierOf } from '../../../src/scenarios/many/frontier.ts';
import {
  bestApart,
  descend,
  type Point,
  type Space,
  spreadOver,
  Tries,
} from '../../../src/scenarios/many/lattice-search.ts';
import { rankCorrelation } from '../../../src/scenarios/many/rank-correlation.ts';
import type { Score } from '../../../src/scenarios/many/score.ts';
import { spreadPoints } from '../../../src/scenarios/many/spread-points.ts';

describe('points spread evenly', () => {
  it('leave gaps of at most three lengths on a line (three-gap theorem, from memory)', () => {
    for (const count of [5, 17, 100]) {
      const places = spreadPoints(1, count).map(([x]) => x);
      const sorted = [...places].sort((a, b) => a - b);
      const gaps = sorted.map((x, i) => (i === 0 ? 1 + x - sorted[count - 1] : x - sorted[i - 1]));
      const lengths = new Set(gaps.map((gap) => gap.toFixed(9)));
      expect(lengths.size).toBeLessThanOrEqual(3);
      expect(Math.max(...gaps)).toBeLessThan(3 / count);
    }
  });

  it('step by powers of the plastic number in a plane (1.3247, from memory)', () => {
    const [a, b] = spreadPoints(2, 2);
    const step = [0, 1].map((j) => (b[j] - a[j] + 1) % 1);
    expect(step[0]).toBeCloseTo(1 / 1.324717957, 8);
    expect(step[1]).toBeCloseTo(1 / 1.324717957 ** 2, 8);
  });

  it('fill every part of the space in five directions', () => {
    for (let j = 0; j < 5; j++) {
      const tenths = new Set(spreadPoints(5, 60).map((point) => Math.floor(point[j] * 10)));
      expect(tenths.size).toBe(10);
    }
  });
});

describe('rank correlation', () => {
  it('of a worked example is -29/165 (ten people, intelligence and hours of television; from memory)', () => {
    const intelligence = [106, 100, 86, 101, 99, 103, 97, 113, 112, 110];
    const hours = [7, 27, 2, 50, 28, 29, 20, 12, 6, 17];
    expect(rankCorrelation(intelligence, hours)).toBeCloseTo(-29 / 165, 12);
  });

  it('shares ranks among equal ones', () => {
    // ranks 1, 2.5, 2.5, 4 against 1, 2, 3, 4: 4.5 over the root of 4.5 times 5
    expect(rankCorrelation([1, 2, 2, 5], [1, 2, 3, 4])).toBeCloseTo(4.5 / Math.sqrt(22.5), 12);
    expect(rankCorrelation([1, 1, 1], [3, 1, 2])).toBe(1);
  });

  it('decides which coarse step is used, the coarsest that ranks well', async () => {
    const scores = (costs: number[]): Score[] => costs.map((cost) => ({ excess: 0, cost }));
    const fine = scores([1, 2, 3, 4, 5]);
    const at = async (stepMin: number) => scores(stepMin === 60 ? [5, 2, 3, 4, 1] : [10, 20, 30, 50, 40]);
    expect(await tryCoarse(fine, 5, at)).toEqual([
      { stepMin: 60, variants: 5, rank: -0.6, isUsed: false },
      { stepMin: 30, variants: 5, rank: 0.9, isUsed: true },
    ]);
    expect(await tryCoarse(fine, 60, at)).toEqual([]);
  });
});

/** A bowl of two dimensions with a wall through it. */
const BOWL: Space = {
  lengths: [40, 30],
  pairs: [[0, 1]],
  isAllowed: ([a, b]) => b >= a / 2 - 5,
};
const bowl = ([a, b]: Point): Score => ({ excess: a < 8 ? 8 - a : 0, cost: (a - 13) ** 2 + (b - 21) ** 2 });

describe('descent', () => {
  const tries = (most: number) => new Tries(async (points) => points.map(bowl), most);

  it('ends at the lowest point, whatever it begins from, without trying what is not allowed', async () => {
    for (const start of spreadOver(BOWL, 12)) {
      const counted = tries(1000);
      const [from] = await counted.of([start]);
      const { point } = await descend(from, BOWL, counted);
      expect(point).toEqual([13, 21]);
      expect(counted.runs).toBeLessThan(120);
    }
  });

  it('never runs more than it may, and never the same twice', async () => {
    let runs = 0;
    const seen = new Set<string>();
    const counted = new Tries(async (points) => {
      runs += points.length;
      for (const point of points) {
        expect(seen).not.toContain(point.join());
        seen.add(point.join());
      }
      return points.map(bowl);
    }, 20);
    const [from] = await counted.of([[39, 29]]);
    await descend(from, BOWL, counted);
    expect(runs).toBe(20);
    expect(counted.runs).toBe(20);
  });

  it('begins at the best points that are apart', async () => {
    const tried = await tries(1000).of(spreadOver(BOWL, 60));
    const [first, second] = bestApart(tried, BOWL, 2);
    const best = Math.min(...tried.filter(({ score }) => score.excess === 0).map(({ score }) => score.cost));
    expect(first.score.cost).toBe(best);
    expect(
      Math.max(...first.point.map((at, i) => Math.abs(at - second.point[i]) / BOWL.lengths[i])),
    ).toBeGreaterThan(0.25);
  });
});

describe('frontier', () => {
  it('holds what nothing else beats, as looking at every pair shows', () => {
    const items = fc.array(
      fc.record({ x: fc.integer({ min: 0, max: 9 }), y: fc.integer({ min: 0, max: 9 }) }),
      {
        maxLength: 40,
      },
    );
    fc.assert(
      fc.property(items, (all) => {
        const places = frontierOf(all);
        const beats = (a: (typeof all)[number], b: (typeof all)[number]) =>
          a.x <= b.x && a.y <= b.y && (a.x < b.x || a.y < b.y);
        const unbeaten = new Set(
          all.filter((one) => !all.some((other) => beats(other, one))).map(({ x, y }) => `${x},${y}`),
        );
        expect(new Set(places.map((i) => `${all[i].x},${all[i].y}`))).toEqual(unbeaten);
        expect(places).toHaveLength(unbeaten.size);
        expect(places.map((i) => all[i].x)).toEqual(places.map((i) => all[i].x).sort((a, b) => a - b));
      }),
    );
  });
});
