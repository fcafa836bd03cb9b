import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { variantHead } from '../../src/report/climate-words.ts';
import { climateDecision } from '../../src/scenarios/climate-decision.ts';
import { typicalCooler, typicalHeater } from '../../src/scenarios/climate-sizes.ts';
import { coldestWeek } from '../../src/scenarios/coldest-week.ts';
import type { Site } from '../../src/scenarios/site-schema.ts';
import type { AlternativeResult } from '../../src/scenarios/study.ts';
import { type ColdFarm, runFarm } from './cold-farm.ts';

function farmWith(more: Partial<ColdFarm>): ColdFarm {
  return {
    ...{ seed: 'climate', modules: 3, kWp: 2, startSoc: 0.35, peakKw: null },
    ...{ airC: -4, heater: true, cooler: false },
    ...more,
  };
}

function decisionOf(farm: ColdFarm) {
  const { study, again } = runFarm(farm);
  if (!study || !again) throw new Error('no study');
  const [result] = study.alternatives;
  return { result, site: again.alternatives[0].site, decision: climateDecision(result, 0, again) };
}

describe('a cabinet with one thing changed', () => {
  it.each([
    ['cold, with a heater', farmWith({}), ['as it is', 'no heater', 'half the heat loss', 'full shade']],
    [
      'cold, with none',
      farmWith({ heater: false }),
      ['as it is', 'with heater', 'half the heat loss', 'full shade'],
    ],
    [
      'hot, with none',
      farmWith({ airC: 38, heater: false }),
      ['as it is', 'with cooler', 'half the heat loss', 'full shade'],
    ],
    [
      'mild, with both',
      farmWith({ airC: 15, cooler: true }),
      ['as it is', 'no heater', 'no cooler', 'half the heat loss', 'full shade'],
    ],
  ])('is run for what it has and has not: %s', (_, farm, variants) => {
    expect(decisionOf(farm).decision?.rows.map(({ variant }) => variant)).toEqual(variants);
  });

  it('gives the figures of the site run from its file with that change', () => {
    for (const farm of [farmWith({}), farmWith({ heater: false }), farmWith({ airC: 38 })]) {
      const rows = decisionOf(farm).decision?.rows ?? [];
      const study = runFarm(
        farm,
        rows.slice(1).map(({ variant, changes }) => ({ name: variant, changes })),
      ).study;
      expect(rows.length).toBeGreaterThan(3);
      for (const [i, row] of rows.entries()) {
        const other = study?.alternatives[i];
        if (!other) throw new Error('no such alternative');
        const { totals } = other.ledger;
        for (const key of ['climateKwh', 'heaterKwh', 'frostKwh', 'deratedKwh', 'unservedKwh'] as const)
          expect(row[key]).toBe(totals[key]);
        expect([row.runH, row.starts, row.fuelL]).toEqual([totals.runH, totals.starts, totals.fuelL]);
        expect(row.lifeCycleCost).toBe(other.money.lifeCycleCost);
      }
    }
  });

  it('is changed in every cabinet, where there are several', () => {
    const beside = {
      ...{ name: 'beside', modules: 1, airKjPerK: 10, batteryKjPerK: 60 },
      ...{ airToOutsideWPerK: 12, airToBatteryWPerK: 6, batteryToOutsideWPerK: 4, sunM2: 0.2 },
    };
    const ofVariants = (farm: ColdFarm, heater: object | null) => {
      const changes = { batteryCabinets: [{ ...beside, heater }] };
      const { study, again } = runFarm(farm, [{ name: 'two', changes }]);
      if (!study || !again) throw new Error('no study');
      const rows = climateDecision(study.alternatives[1], 1, again)?.rows ?? [];
      return Object.fromEntries(rows.map((row) => [row.variant, row]));
    };
    const heated = ofVariants(farmWith({}), { ratedW: 100, onC: 3, offC: 6, minSoc: 0.25 });
    expect(heated['as it is'].heaterKwh).toBeGreaterThan(0);
    expect(heated['no heater'].heaterKwh).toBe(0);
    expect(heated['half the heat loss'].changes).toEqual({
      'cabinet.airToOutsideWPerK': 5,
      'cabinet.batteryToOutsideWPerK': 1.5,
      'batteryCabinets.0.airToOutsideWPerK': 6,
      'batteryCabinets.0.batteryToOutsideWPerK': 2,
    });
    expect(heated['full shade'].changes).toEqual({ 'cabinet.sunM2': 0, 'batteryCabinets.0.sunM2': 0 });
    // 3 + 10·6/16 = 6.75 W/K, and 4 + 12·6/18 = 8 W/K, up to 6 °C from a day of -4 °C: 68 and 80 W
    const bare = ofVariants(farmWith({ heater: false }), null)['with heater'];
    expect(bare.changes).toMatchObject({
      'cabinet.heater': { ratedW: 100 },
      'batteryCabinets.0.heater': { ratedW: 100 },
    });
    expect(variantHead(bare)).toBe('With heaters of 200 W in all');
  });

  it('halves both ways out and nothing else, and shades', () => {
    const rows = decisionOf(farmWith({})).decision?.rows ?? [];
    expect(rows.find(({ variant }) => variant === 'half the heat loss')?.changes).toEqual({
      'cabinet.airToOutsideWPerK': 5,
      'cabinet.batteryToOutsideWPerK': 1.5,
    });
    expect(rows.find(({ variant }) => variant === 'full shade')?.changes).toEqual({ 'cabinet.sunM2': 0 });
  });

  it('leaves out the first two days, in which the cabinet comes from the outside temperature', () => {
    const { result, decision } = decisionOf(farmWith({}));
    const later = [...result.columns.cellC.subarray(96)];
    expect(decision?.rows[0].coldestCellC).toBe(Math.min(...later));
    expect(decision?.rows[0].hottestCellC).toBe(Math.max(...later));
    expect(result.ledger.extremes.coldestCellC).toBeLessThan(Math.min(...later));
  });

  it('is nothing where there is no cabinet', () => {
    const { study, again } = runFarm(farmWith({}), [{ name: 'indoors', changes: { cabinet: null } }]);
    if (!study || !again) throw new Error('no study');
    expect(climateDecision(study.alternatives[1], 1, again)).toBeNull();
  });
});

describe('the coldest week with and without a heater', () => {
  it('is cut out of both runs', () => {
    const farm = farmWith({});
    const { result, decision } = decisionOf(farm);
    const week = decision?.coldWeek;
    const without = runFarm(farm, [{ name: 'without', changes: { 'cabinet.heater': null } }]).study
      ?.alternatives[1];
    if (!week || !without) throw new Error('no week');
    expect(week.runs.map(({ variant }) => variant)).toEqual(['as it is', 'no heater']);
    for (const [i, { columns, ledger }] of [result, without].entries()) {
      const run = week.runs[i];
      expect([...run.cellC]).toEqual([...columns.cellC.subarray(week.fromStep, week.toStep)]);
      expect(run.chargeKw.every((kw, k) => kw === Math.max(0, columns.batteryKw[week.fromStep + k]))).toBe(
        true,
      );
      const steps = [...columns.cause.subarray(week.fromStep, week.toStep)].filter(
        (cause) => cause > 0,
      ).length;
      expect(run.runH).toBeGreaterThan(0);
      expect(run.runH).toBeLessThanOrEqual(steps / 2);
      expect(ledger.runs.length).toBeGreaterThan(0);
    }
  });

  it('is the week with the lowest mean of the air', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1, maxLength: 20 }), (days) => {
        const airC = Float64Array.from({ length: days.length * 24 }, (_, i) => days[Math.floor(i / 24)]);
        const week = coldestWeek({ airC, stepMin: 60, count: airC.length, loadKw: [] });
        if (days.length < 7) {
          expect(week).toBeNull();
          return;
        }
        const sumFrom = (day: number) => days.slice(day, day + 7).reduce((sum, c) => sum + c, 0);
        const least = Math.min(...days.slice(6).map((_, day) => sumFrom(day)));
        const first = (week?.fromStep ?? -24) / 24;
        expect(sumFrom(first)).toBe(least);
        for (let day = 0; day < first; day++) expect(sumFrom(day)).toBeGreaterThan(least);
        expect(week?.toStep).toBe((first + 7) * 24);
      }),
    );
  });
});

describe('sizes of what is not there', () => {
  const cabinet = { airToOutsideWPerK: 12, airToBatteryWPerK: 6, batteryToOutsideWPerK: 4, sunM2: 0.5 };
  const site = { cabinet } as Site;
  const resultWith = (dayC: number, coldestCellC: number, hottestAirC: number) =>
    ({
      inputs: {
        stepMin: 60,
        airC: Float64Array.from({ length: 48 }, (_, i) => (i < 24 ? 5 : dayC)),
        cabinetSunWPerM2: Float64Array.from({ length: 48 }, (_, i) => (i === 12 ? 900 : 0)),
      },
      ledger: {
        stepMin: 60,
        count: 48,
        extremes: { coldestCellC, hottestAirC },
        totals: { inverterLossKwh: 4, idleKwh: 3, chargerLossKwh: 2, batteryLossKwh: 0.6 },
      },
    }) as unknown as AlternativeResult;

  it('a heater holds the cells at 6 °C on the coldest day', () => {
    // 4 + 12·6/(12 + 6) = 8 W/K, 16 K: 128 W, the next size is 150 W
    expect(typicalHeater(site, resultWith(-10, -8, 20))).toEqual({
      ratedW: 150,
      onC: 3,
      offC: 6,
      minSoc: 0.3,
    });
    expect(typicalHeater(site, resultWith(-10, 3.5, 20))).toBeNull();
  });

  it('a cooler moves the heat of sun, losses and walls on the hottest day', () => {
    // 0.5·900 = 450 W, 9.6 kWh in 48 h = 200 W, (12 + 4)·(36 − 34) = 32 W: 682 W, over 2.5: 273 W, so 300 W
    expect(typicalCooler(site, resultWith(36, 10, 45))).toEqual({ ratedW: 300, cop: 2.5, onC: 38, offC: 34 });
    expect(typicalCooler(site, resultWith(36, 10, 37))).toBeNull();
  });
});
