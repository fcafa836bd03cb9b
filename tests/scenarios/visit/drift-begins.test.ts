/** A meter that begins to drift within the log, in its first third, is not said to have drifted all through it. */
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { findFaults } from '../../../src/scenarios/visit/faults/find-faults.ts';
import { logOf } from './fault-recorders.ts';
import { differenceOf, groundOf, keptWorld, STARTS, truthOf } from './fault-worlds.ts';

const DAY_S = 86_400;

function driftFrom(fromDay: number) {
  const of = keptWorld('workshop', STARTS.workshop[0], 'drift 1');
  const changes = { 'battery.display': { driftPerDay: 0.03 } };
  const truth = truthOf(of, differenceOf(of, 'drift'), { from: fromDay, changes });
  const record = logOf(of, truth, seedrandom('drift'), 'drift', ['socFrac', 'batteryKw']);
  const drifts = findFaults(groundOf(of, record)).filter(({ kind }) => kind === 'soc-drift');
  return drifts.map(({ fromS, toS }) => [fromS, toS].map((timeS) => (timeS - record.axis.startS) / DAY_S));
}

describe('a drifting meter', () => {
  it.each([
    { from: 0, least: 0, most: 5 },
    { from: 22, least: 15, most: 30 },
  ])('from day $from on is told from about then on', ({ from, least, most }) => {
    const [drift, ...more] = driftFrom(from);
    expect(more).toEqual([]);
    const [fromDay, toDay] = drift;
    expect(fromDay).toBeGreaterThanOrEqual(least);
    expect(fromDay).toBeLessThan(most);
    expect(toDay).toBeGreaterThan(60);
  });
});
