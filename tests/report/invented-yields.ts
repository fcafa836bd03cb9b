import { ARRAY_LOSSES, type ArrayYield, newYield } from '../../src/scenarios/array-yields.ts';
import type { Study } from '../../src/scenarios/study.ts';

/**
 * Two arrays and a stream, invented: offered by month and lost in ways that the seed chooses, from none to all.
 * @param seed whole, >= 0
 */
export function inventedYields(periods: number, seed: number): ArrayYield[] {
  const barn = newYield({ name: 'barn', coupling: 'dc' }, 'array', periods);
  const shed = newYield({ name: 'shed', coupling: 'ac' }, 'array', periods);
  const stream = newYield({ name: 'stream', coupling: 'dc' }, 'source', periods);
  for (let k = 0; k < periods; k++) {
    barn.offeredKwh[k] = 900 + 300 * Math.cos(k + seed);
    shed.offeredKwh[k] = 400 + 200 * Math.cos(k + seed);
    stream.offeredKwh[k] = 70;
    for (const [j, loss] of ARRAY_LOSSES.entries()) {
      if (((seed >> j) & 1) === 0) continue;
      barn.lostKwh[loss][k] = (10 * (j + 1) * (k % 5)) / 3;
      shed.lostKwh[loss][k] = j;
    }
  }
  return seed % 3 === 0 ? [barn, shed] : [barn, shed, stream];
}

/** A study whose alternatives have these, each with another seed. */
export function withYields(study: Study, seed = 127): Study {
  const alternatives = study.alternatives.map((result, i) => ({
    ...result,
    yields: inventedYields(result.ledger.periods.length, Math.max(0, seed - i)),
  }));
  return { ...study, alternatives };
}
