/** What is finished stays finished: nothing is run twice, and what a stopped search has is ranked by its limits. */
import { describe, expect, it } from 'vitest';
import { bestFinished } from '../../../src/scenarios/many/best-finished.ts';
import type { Attempt, TryEach } from '../../../src/scenarios/many/evaluate.ts';
import type { Outcome } from '../../../src/scenarios/many/outcome.ts';
import { Memory, remembering } from '../../../src/scenarios/many/remembered.ts';
import type { Site } from '../../../src/scenarios/site-schema.ts';

const outcome = (parts: Partial<Outcome>): Outcome =>
  ({
    lifeCycleCost: 0,
    capital: 0,
    unservedKwh: 0,
    mostStartsADay: 1,
    runH: 0,
    nightH: 0,
    minSoc: 0.5,
    ...parts,
  }) as Outcome;

/** Gives the number of each variant as its cost, and fails at one of them. */
function counting(failsAt: number | null): { tryEach: TryEach; ran: number[] } {
  const ran: number[] = [];
  const tryEach: TryEach = async (variants, _stepMin, onDone) =>
    variants.map(({ n }, i): Attempt => {
      if (n === failsAt) throw new Error('stopped');
      ran.push(Number(n));
      const attempt = outcome({ lifeCycleCost: Number(n) });
      onDone?.(i, attempt);
      return attempt;
    });
  return { tryEach, ran };
}

const variants = [{ n: 1 }, { n: 2 }, { n: 3 }, { n: 4 }];

describe('runs that are remembered', () => {
  it('goes on from where it was stopped, and gives all in their order', async () => {
    const memory = new Memory();
    const first = counting(3);
    const stopped = remembering(first.tryEach, memory, 5, () => {});
    await expect(stopped.tryEach(variants)).rejects.toThrow('stopped');
    expect(stopped.finished.map(({ changes }) => changes.n)).toEqual([1, 2]);
    const again = counting(null);
    const told: number[][] = [];
    const resumed = remembering(again.tryEach, memory, 5, (...one) => told.push(one));
    const attempts = await resumed.tryEach([...variants].reverse());
    expect(again.ran.sort()).toEqual([3, 4]);
    expect((attempts as Outcome[]).map(({ lifeCycleCost }) => lifeCycleCost)).toEqual([4, 3, 2, 1]);
    expect(told[0]).toEqual([2, 4, 2]);
    expect(told.at(-1)).toEqual([4, 4, 4]);
  });

  it('does not take one step for another', async () => {
    const memory = new Memory();
    const { tryEach, ran } = counting(null);
    const many = remembering(tryEach, memory, 5, () => {});
    await many.tryEach(variants);
    await many.tryEach(variants, 60);
    expect(ran).toHaveLength(8);
  });
});

describe('the best of what was finished', () => {
  const site = {
    period: { days: 365 },
    limits: {},
    design: { mostStartsPerDay: 4 },
    generator: null,
  } as unknown as Site;
  const one = (n: number, parts: Partial<Outcome>, stepMin = 5) => ({
    stepMin,
    changes: { n },
    attempt: outcome(parts),
  });

  it('is ranked by limits first, then by cost; today’s by itself, other steps left out', () => {
    const finished = [
      one(0, { lifeCycleCost: 100 }),
      one(1, { lifeCycleCost: 90, capital: 50 }),
      one(2, { lifeCycleCost: 80, unservedKwh: 3 }),
      one(3, { lifeCycleCost: 70, capital: 10 }),
      one(4, { lifeCycleCost: 10 }, 60),
    ];
    const by = (cost: 'all' | 'running') =>
      bestFinished(finished, { site, stepMin: 5, limits: {} }, () => true, cost);
    expect(by('all')?.today.changes).toEqual({ n: 0 });
    expect(by('all')?.others.map(({ changes }) => changes.n)).toEqual([3, 1, 2]);
    expect(by('running')?.others.map(({ changes }) => changes.n)).toEqual([1, 3, 2]);
    expect(by('all')?.others[2].broken).toEqual(['unservedKwh']);
    expect(bestFinished([], { site, stepMin: 5, limits: {} }, () => true, 'all')).toBeNull();
  });
});
