import { describe, expect, it } from 'vitest';
import { finerGround } from '../../../src/scenarios/visit/finer-ground.ts';
import { groundOf, logOf, thinFarm, truthOf } from './thin-farm.ts';

const sum = (values: ArrayLike<number>) => Array.from(values).reduce((all, one) => all + one, 0);

describe('a log of longer steps than the design has', () => {
  const files = thinFarm(20);
  const truth = truthOf(files, [{ fromDay: 0, changes: { 'load.0.scale': 1.3 } }]);
  const exact = { noiseFrac: 0, gapsADay: 0, quantum: { socFrac: 0, kw: 0, c: 0, l: 0, wPerM2: 0 } };
  const coarse = groundOf(files, logOf(truth, { ...exact, stepMin: 30 }));
  const finer = finerGround(files, coarse);

  it('is laid on those, each reading holding for its whole step', () => {
    expect(finer.record.axis).toEqual({ ...coarse.record.axis, stepMin: 5, count: 20 * 288 });
    expect(finer.designed.count).toBe(20 * 288);
    for (const [i, soc] of (finer.record.columns.socFrac as Float64Array).entries())
      expect(soc).toBe(coarse.record.columns.socFrac?.[Math.floor(i / 6)]);
  });

  it('has load within them as was designed, and its means as they were logged', () => {
    const within = finer.record.columns.load2Kw as Float64Array;
    // the truth is the design times 1.3, so its peaks come back, but for what was not served
    const back = within.filter((kw, i) => Math.abs(kw - truth.loadKw[1][i]) < 1e-9).length;
    expect(back).toBeGreaterThan(0.98 * within.length);
    const logged = coarse.record.columns.load2Kw as Float64Array;
    for (let i = 0; i < logged.length; i += 7)
      expect(sum(within.subarray(6 * i, 6 * i + 6)) / 6).toBeCloseTo(logged[i], 9);
    expect(Math.max(...within)).toBeGreaterThan(1.2 * Math.max(...logged));
  });

  it('stays as it is where it is as fine', () => {
    const fine = groundOf(files, logOf(truth, { ...exact, stepMin: 5 }));
    expect(finerGround(files, fine)).toBe(fine);
  });
});
