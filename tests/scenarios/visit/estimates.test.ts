import { describe, expect, it } from 'vitest';
import type { TruthStretch } from '../../../src/scenarios/log/truth.ts';
import { estimateAll } from '../../../src/scenarios/visit/estimates/all.ts';
import { latestAgreed, mostAgreed } from '../../../src/scenarios/visit/estimates/brackets.ts';
import { ClusteredRows, clusteredError } from '../../../src/scenarios/visit/estimates/clustered-fit.ts';
import { quantumOf } from '../../../src/scenarios/visit/estimates/rounding.ts';
import { tQuantile95 } from '../../../src/scenarios/visit/estimates/t-quantile.ts';
import { ESTIMATED, type Estimate, type Estimated } from '../../../src/scenarios/visit/visit.ts';
import type { Inputs } from '../../../src/sim/inputs.ts';
import { farmGround, farmTruth, recorded } from './logged-farm.ts';

const DAY_S = 86_400;

function estimates(days: number, stretches: readonly TruthStretch[]): Record<Estimated, Estimate> {
  const all = estimateAll(farmGround(recorded(farmTruth(days, stretches))));
  return Object.fromEntries(all.map((each) => [each.key, each])) as Record<Estimated, Estimate>;
}

function made(estimate: Estimate): Extract<Estimate, { value: number }> {
  if (estimate.value === null) throw new Error(`${estimate.key}: ${estimate.why}, ${estimate.lacks}`);
  return estimate;
}

const scaled = (factor: number) => (inputs: Inputs) => ({
  ...inputs,
  loadKw: inputs.loadKw.map((kw) => kw.map((value) => value * factor)),
});

describe('estimates from the log of a farm', () => {
  const unchanged = farmTruth(60, [{ fromDay: 0, changes: {} }]);
  const ofUnchanged = (traits = {}) => {
    const all = estimateAll(farmGround(recorded(unchanged, traits)));
    return Object.fromEntries(all.map((each) => [each.key, each])) as Record<Estimated, Estimate>;
  };

  it('are one for each key, in order, with the value within its interval', () => {
    const all = estimateAll(farmGround(recorded(unchanged)));
    expect(all.map(({ key }) => key)).toEqual([...ESTIMATED]);
    for (const each of all) {
      if (each.value === null) continue;
      expect(each.low, each.key).toBeLessThanOrEqual(each.value);
      expect(each.high, each.key).toBeGreaterThanOrEqual(each.value);
    }
  });

  it('of an unchanged plant have the designed values near', () => {
    const found = ofUnchanged();
    for (const key of ['loadFactor', 'arrayFactor', 'usableKwh', 'oneWayEfficiency'] as const) {
      const { value, designed } = made(found[key]);
      expect(Math.abs(value / (designed ?? Number.NaN) - 1), key).toBeLessThan(0.02);
    }
    // 60 nights tell it to some hundredths, and say so
    const { low, high, designed } = made(found.standbyKw);
    expect(low).toBeLessThan(designed ?? Number.NaN);
    expect(high).toBeGreaterThan(designed ?? Number.NaN);
    expect((high - low) / 2).toBeLessThan(0.1 * (designed ?? 0));
  });

  it('count the error of the sun’s sensor more under a low sun on steep arrays', () => {
    // 2 % of the sensor and 1.2 % of the clock alone would be 3.9 % of the value
    const { value, low, high } = made(ofUnchanged().arrayFactor);
    expect((high - low) / 2 / value).toBeGreaterThan(0.05);
  });

  it('compare a fuel curve with the line that the same runs make of it', () => {
    const found = ofUnchanged();
    for (const key of ['fuelAtRest', 'fuelPerKwh'] as const) {
      const { low, high, designed } = made(found[key]);
      expect(low, key).toBeLessThan(designed ?? Number.NaN);
      expect(high, key).toBeGreaterThan(designed ?? Number.NaN);
    }
    // not the line through the four points of the farm's generator, as a person would draw it
    expect(made(found.fuelAtRest).designed).toBeLessThan(0.88);
  });

  it('are for what came after a change within the log', () => {
    const after = { 'arrays.barn.kWp': 8, 'control.charge.startSoc': 0.42 };
    const found = estimates(100, [
      { fromDay: 0, changes: {} },
      { fromDay: 50, changes: after, edit: scaled(1.3) },
    ]);
    const load = made(found.loadFactor);
    expect(load.value).toBeCloseTo(1.3, 1);
    const array = made(found.arrayFactor);
    expect(array.value).toBeGreaterThan(0.6);
    expect(array.value).toBeLessThan(0.75);
    const start = made(found.startSoc);
    expect(start.low).toBeLessThan(0.42);
    expect(start.high).toBeGreaterThan(0.41);
    const beganS = Date.parse('2025-01-01T00:00+01:00') / 1000 + 50 * DAY_S;
    for (const { fromS } of [load, array, start]) expect(Math.abs(fromS - beganS)).toBeLessThan(6 * DAY_S);
  });

  it('are not made from too little', () => {
    for (const each of Object.values(estimates(2, [{ fromDay: 0, changes: {} }])))
      expect(each.value, each.key).toBeNull();
  });

  it('say which columns they lack', () => {
    const found = ofUnchanged({ columns: ['loadKw'], arraysAlone: false });
    expect(made(found.loadFactor).value).toBeCloseTo(1, 2);
    const lacks = (key: Estimated) => found[key].value === null && found[key];
    expect(lacks('usableKwh')).toMatchObject({ why: 'no-column', lacks: 'socFrac, batteryKw' });
    expect(lacks('fuelPerKwh')).toMatchObject({ why: 'no-column', lacks: 'fuelL, generatorKw, generatorOn' });
    expect(lacks('coolingWPerK')).toMatchObject({ why: 'no-column' });
  });

  it('do not tell a weak array from a dull year without a column for the sun', () => {
    const columns = ['socFrac', 'loadKw', 'arrayKw', 'batteryKw', 'generatorKw'] as const;
    const found = ofUnchanged({ columns });
    expect(found.arrayFactor).toMatchObject({ value: null, why: 'not-told-apart', lacks: 'sunWPerM2' });
  });
});

describe('fuel from a tank that is filled and robbed', () => {
  it('is what the engine burnt', () => {
    const changes = {
      'generator.fuel': [
        { kW: 0, lPerH: 1.2 },
        { kW: 20, lPerH: 6.4 },
      ],
    };
    const truth = farmTruth(80, [{ fromDay: 0, changes }]);
    const robbedL = 30;
    const { fuelL } = truth;
    if (fuelL === null) throw new Error('no tank');
    // at the first standstill after a month somebody takes fuel
    const at = truth.generatorOn.indexOf(0, 30 * 288);
    for (let i = at; i < fuelL.length; i++) fuelL[i] -= robbedL;
    const all = estimateAll(farmGround(recorded(truth)));
    const [rest, perKwh] = (['fuelAtRest', 'fuelPerKwh'] as const).map((key) =>
      made(all.find((each) => each.key === key) as Estimate),
    );
    expect(Math.abs(perKwh.value / 0.26 - 1)).toBeLessThan(0.05);
    expect(Math.abs(rest.value / 1.2 - 1)).toBeLessThan(0.2);
  });
});

describe('the pieces of an estimate', () => {
  it('take Student’s t', () => {
    // tables of Student's t at 95 %, one-sided: from memory
    for (const [freedom, t] of [
      [3, 2.3534],
      [5, 2.015],
      [10, 1.8125],
      [30, 1.6973],
    ])
      expect(Math.abs(tQuantile95(freedom) / t - 1)).toBeLessThan(0.005);
  });

  it('fit a line, and its error by clusters is that of means for a mean', () => {
    const rows = new ClusteredRows(2);
    for (let x = 0; x < 12; x++) rows.add(x, [1, x], 3 + 2 * x);
    expect(rows.fit()?.beta[0]).toBeCloseTo(3, 9);
    expect(rows.fit()?.beta[1]).toBeCloseTo(2, 9);
    const ones = new ClusteredRows(1);
    const values = [1, 4, 2, 8, 5];
    for (const [i, y] of values.entries()) ones.add(i, [1], y);
    const fit = ones.fit();
    if (fit === null) throw new Error('no fit');
    // standard error of a mean: deviation over the root of their number
    expect(clusteredError([{ fit, slopes: [1] }])).toBeCloseTo(Math.sqrt(30 / 4 / 5), 9);
  });

  it('hold what is not told apart to what is known beforehand, and say how sure that is', () => {
    const rows = new ClusteredRows(2);
    for (let x = 0; x < 40; x++) rows.add(x, [1, 2], 5 + (x % 2 ? 0.01 : -0.01), 1, [1, x % 3]);
    const held = rows.held([
      { mean: 0, sd: Number.POSITIVE_INFINITY },
      { mean: 1.5, sd: 0.1 },
    ]);
    // 5 = a + 2·b with b = 1.5 ± 0.1
    expect(held?.beta[0]).toBeCloseTo(2, 2);
    expect(held?.error[0]).toBeCloseTo(0.2, 2);
  });

  it('do not fit what is not told apart', () => {
    const rows = new ClusteredRows(2);
    for (let x = 0; x < 12; x++) rows.add(x, [1, 1], x);
    expect(rows.fit()).toBeNull();
  });

  it('know what readings are rounded to', () => {
    const values = Float64Array.from({ length: 500 }, (_, i) => Math.round(Math.sin(i) * 300) * 0.01);
    expect(quantumOf(values)).toBeCloseTo(0.01, 9);
    expect(quantumOf(Float64Array.from({ length: 500 }, (_, i) => Math.sin(i)))).toBe(0);
  });

  it('find where most brackets agree, and the latest of two thresholds', () => {
    const bracket = (low: number, high: number, step: number) => ({ low, high, step, isSure: true });
    const early = [0, 1, 2, 3, 4].map((step) => bracket(0.29, 0.3 + step / 1000, step));
    const late = [5, 6, 7, 8, 9].map((step) => bracket(0.4, 0.42 + step / 1000, step));
    const stray = bracket(0.6, 0.61, 3);
    expect(mostAgreed([...early, stray])).toEqual({ low: 0.29, high: 0.3, agree: 5, of: 6 });
    const latest = latestAgreed([...early, ...late], 0);
    expect(latest?.from).toBe(5);
    expect(latest?.found.low).toBeCloseTo(0.4, 9);
    expect(latestAgreed([stray, early[0]], 0)).toBeNull();
    expect(
      latestAgreed(
        late.map((each) => ({ ...each, isSure: false })),
        3,
      ),
    ).toBeNull();
  });
});
