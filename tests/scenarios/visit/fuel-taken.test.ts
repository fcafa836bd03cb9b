import { describe, expect, it } from 'vitest';
import { findFaults } from '../../../src/scenarios/visit/faults/find-faults.ts';
import { farmGround, farmTruth, recorded } from './logged-farm.ts';

describe('fuel that is taken', () => {
  const truth = farmTruth(14, [{ fromDay: 0, changes: {} }], 15);
  const record = recorded(truth, { stepMin: 15, gapsADay: 0 });
  const fuelL = record.columns.fuelL as Float64Array;
  const on = record.columns.generatorOn as Float64Array;
  /** a step amid three hours of standing */
  const at = Array.from(on.keys()).find(
    (i) => i > 300 && on.slice(i - 12, i + 13).every((share) => share === 0),
  );
  if (at === undefined) throw new Error('the engine never stands');
  const lossesWith = (litres: number) => {
    const less = fuelL.map((level, i) => (i >= at ? level - litres : level));
    const ground = farmGround({ ...record, columns: { ...record.columns, fuelL: less } });
    return findFaults(ground).filter(({ kind }) => kind === 'fuel-loss');
  };

  it('is told with the step and the litres', () => {
    const [loss, ...more] = lossesWith(40);
    expect(more).toEqual([]);
    expect(loss.unit).toBe('L');
    expect(Math.abs(loss.size - 40)).toBeLessThan(4);
    expect(Math.abs(loss.fromS - (record.axis.startS + at * 900))).toBeLessThanOrEqual(2 * 900);
  });

  it('is not told of what noise and the engine make', () => {
    expect(lossesWith(0)).toEqual([]);
  });
});
