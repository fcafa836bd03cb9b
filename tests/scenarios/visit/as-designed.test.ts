import { describe, expect, it } from 'vitest';
import { isAsDesigned, isClearlyOff } from '../../../src/scenarios/visit/compare/as-designed.ts';
import { compareWithLog } from '../../../src/scenarios/visit/compare/compare.ts';
import { estimateAll } from '../../../src/scenarios/visit/estimates/all.ts';
import type { Sums } from '../../../src/scenarios/visit/visit.ts';
import { estimated } from './estimated.ts';
import { groundOf, logOf, thinFarm, truthOf } from './thin-farm.ts';

const DAYS = 90;
const SEEDS = 40;

describe('a log of an unchanged plant', () => {
  const farm = thinFarm(DAYS);
  const truth = truthOf(farm, [{ fromDay: 0, changes: {} }]);
  const first = groundOf(farm, logOf(truth));

  it(`says as designed, whatever its recorder's seed, noise and gaps (${SEEDS} of them)`, () => {
    for (let seed = 0; seed < SEEDS; seed++) {
      const noiseFrac = 0.005 * (seed % 5);
      const gapsADay = 0.1 * (seed % 4);
      const record = logOf(truth, { seed: `unchanged ${seed}`, noiseFrac, gapsADay });
      // arrays by the logged sun take longest: one in four has them
      const ground = seed % 4 === 0 ? groundOf(farm, record) : { ...first, record, sunArraysKw: null };
      const estimates = estimateAll(ground);
      const { comparison } = compareWithLog(ground, estimates, []);
      const told = JSON.stringify([
        seed,
        comparison.designed,
        comparison.ran,
        estimates.filter(isClearlyOff),
      ]);
      expect([comparison.asDesigned, told]).toEqual([true, told]);
    }
  });
});

describe('as designed', () => {
  const sums: Sums = {
    ...{ loadKwh: 1000, arrayKwh: 800, generatorKwh: 400, fuelL: 130, runH: 40, starts: 40, lowestSoc: 0.2 },
  };
  const record = { axis: { startS: 0, stepMin: 5, count: 1000 } } as Parameters<typeof estimated>[0];

  it('bears a run or two more, and not five', () => {
    expect(isAsDesigned(sums, { ...sums, generatorKwh: 419, fuelL: 136, runH: 41.9 }, [])).toBe(true);
    expect(isAsDesigned(sums, { ...sums, generatorKwh: 450 }, [])).toBe(false);
    expect(isAsDesigned(sums, { ...sums, runH: 46 }, [])).toBe(false);
  });

  it('does not bear a twentieth more load', () => {
    expect(isAsDesigned(sums, { ...sums, loadKwh: 1050 }, [])).toBe(false);
    expect(isAsDesigned(sums, { ...sums, arrayKwh: 740 }, [])).toBe(false);
  });

  it('does not ask for what the log has not', () => {
    expect(isAsDesigned(sums, { ...sums, fuelL: null, arrayKwh: null, generatorKwh: null }, [])).toBe(true);
  });

  it('bears an estimate that is barely off, or off by what nobody minds', () => {
    // 57 with half a width of 2: one and a half of it away
    expect(isClearlyOff(estimated(record, 'usableKwh', 57, 60, 2 / 57))).toBe(false);
    // a hundredth off, however sure
    expect(isClearlyOff(estimated(record, 'usableKwh', 59.4, 60, 0.001))).toBe(false);
    expect(isClearlyOff(estimated(record, 'usableKwh', 50, 60, 0.02))).toBe(true);
    expect(isClearlyOff(estimated(record, 'usableKwh', 70, 60, 0.02))).toBe(true);
    expect(isAsDesigned(sums, sums, [estimated(record, 'usableKwh', 50, 60, 0.02)])).toBe(false);
    expect(isAsDesigned(sums, sums, [estimated(record, 'usableKwh', 50, null, 0.02)])).toBe(true);
  });
});
