import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  aroundStart,
  causeThen,
  leastThatAvoids,
  movedTo,
  outcomeOf,
} from '../../src/scenarios/why-start-outcome.ts';
import type { GeneratorRun } from '../../src/sim/ledger.ts';

function runs(...spans: [startH: number, endH: number][]): GeneratorRun[] {
  return spans.map(([startH, endH]) => ({ startH, endH, cause: 'charge' }) as GeneratorRun);
}

const before = runs([10, 12], [34, 36], [58, 60], [200, 201]);
const around = aroundStart(before, 1, 300);

describe('the time around a start', () => {
  it('is its own for six hours, or half way to the next run', () => {
    expect(around).toMatchObject({ ownFromH: 28, ownToH: 40 });
    const near = runs([10, 12], [14, 15], [18, 19]);
    expect(aroundStart(near, 1, 300)).toMatchObject({ ownFromH: 13, ownToH: 16.5 });
  });

  it('counts starts over two days, and to the middle of the standstill there, at most a day more', () => {
    expect(around).toMatchObject({ fromH: 0, toH: 106 });
    expect(aroundStart(before, 3, 300)).toMatchObject({ fromH: 130, toH: 272 });
  });
});

describe('what becomes of a start', () => {
  it('stays where another is in its time, or the engine runs through it', () => {
    expect(outcomeOf(around, before, runs([10, 12], [39, 41], [58, 60]))).toBe('stays');
    expect(outcomeOf(around, before, runs([10, 12], [27, 35], [58, 60]))).toBe('stays');
    expect(outcomeOf(around, before, runs([10, 12], [27, 33], [58, 60]))).toBe('moved');
  });

  it('is gone only where the days around it have fewer', () => {
    expect(outcomeOf(around, before, runs([10, 12], [58, 60]))).toBe('gone');
    expect(outcomeOf(around, before, runs([10, 12], [45, 47], [58, 60]))).toBe('moved');
    // one that came in from outside the days around counts
    expect(outcomeOf(around, before, runs([10, 12], [58, 60], [100, 101]))).toBe('moved');
    expect(outcomeOf(around, before, runs([10, 12], [58, 60], [107, 108]))).toBe('gone');
  });

  it('moves to the nearest start that was not there', () => {
    expect(movedTo(around, before, runs([10.2, 12], [45, 47], [58, 60], [70, 71]))).toBe(45);
    expect(movedTo(around, before, runs([10.2, 12], [58, 60]))).toBeNull();
  });

  it('may stay for another cause', () => {
    expect(causeThen(around, [{ ...runs([35, 36])[0], cause: 'peak' }])).toBe('peak');
    expect(causeThen(around, runs([50, 51]))).toBeNull();
  });
});

describe('the least that avoids', () => {
  it('is the least where more always helps', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 80 }), (most, needed) => {
        const found = leastThatAvoids(most, (n) => (n >= needed ? 'gone' : 'stays'));
        expect(found).toEqual(
          needed <= most ? { amount: needed, outcome: 'gone' } : { amount: most, outcome: 'stays' },
        );
      }),
    );
  });

  it('holds with the amount found and not with one less, whatever the others do', () => {
    const outcome = fc.constantFrom('gone' as const, 'moved' as const, 'stays' as const);
    fc.assert(
      fc.property(fc.array(outcome, { minLength: 1, maxLength: 40 }), (outcomes) => {
        const at = (n: number) => outcomes[n - 1];
        const found = leastThatAvoids(outcomes.length, at);
        if (found.outcome === 'stays') {
          expect(found.amount).toBe(outcomes.length);
          expect(at(found.amount)).toBe('stays');
          return;
        }
        expect(at(found.amount)).toBe(found.outcome);
        if (found.amount > 1) {
          const less = at(found.amount - 1);
          expect(less).not.toBe('gone');
          if (found.outcome === 'moved') expect(less).toBe('stays');
        }
      }),
    );
  });

  it('asks for each amount once', () => {
    const asked: number[] = [];
    leastThatAvoids(24, (n) => {
      asked.push(n);
      return n > 17 ? 'moved' : 'stays';
    });
    expect(new Set(asked).size).toBe(asked.length);
    expect(asked.length).toBeLessThan(9);
  });
});
