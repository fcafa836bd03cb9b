/**
 * Inverter units out of service, a phase down, the bypass, a single-phase generator. Two units a phase make 10 kW
 * inverter, 6 kW charger, 8 kW passed from the generator, 0.2 kW idle. All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import { plainGenerator, plainInverter } from '../references/plain-site.ts';
import { battery, flags, near, nearAll, nearList, run, series } from './small-run.ts';

const inverter = plainInverter({ ratedKw: 10, chargerKw: 6, acInputLimitKw: 8, idleKw: 0.2, units: 2 });
const big = battery(1000);
const hours4 = (...values: number[]) => Float64Array.from(values);

describe('one of two units out', () => {
  const halfOut = { unitsOut: [flags(60, [0, 1], [1, 2], [0, 1])] };

  it('halves what the inverters carry, and their idle draw', () => {
    const got = run({
      plant: { battery: big, inverter },
      loadKw: series(60, [8, 4]),
      inputs: halfOut,
    });
    nearAll(got.totals, { unservedKwh: 2 * 3, idleKwh: 0.2 * 2 + 0.1 * 2, trips: 0 });
    nearAll(got.totals.unservedByCauseKwh, { power: 6 });
    expect([...got.columns.unservedKw]).toEqual([0, 3, 3, 0]);
  });

  it('trips on what is above the half', () => {
    const controls = { shortfall: 'trip', restartDelayH: 0.5 } as const;
    const got = run({
      plant: { battery: big, inverter },
      controls,
      loadKw: series(60, [8, 4]),
      inputs: halfOut,
    });
    nearAll(got.totals, { trips: 4, unservedKwh: 16 });
  });

  it('halves charger and what is passed from the generator', () => {
    // load 3: passed 8, charger 5 of 6; with one unit passed 4, charger 1 of 3
    const plant = { battery: big, inverter, generator: plainGenerator(20) };
    const got = run({
      plant,
      controls: { continuous: true },
      loadKw: series(60, [3, 4]),
      inputs: halfOut,
    });
    nearList(got.columns.generatorKw, [8, 4, 4, 8]);
    // load 6: 4 passed, 2 unserved, unless the battery helps
    const short = run({ plant, controls: { continuous: true }, loadKw: series(60, [6, 4]), inputs: halfOut });
    nearAll(short.totals.unservedByCauseKwh, { power: 2 * 2 });
    const helped = { continuous: true, peakAssist: true };
    nearAll(run({ plant, controls: helped, loadKw: series(60, [6, 4]), inputs: halfOut }).totals, {
      unservedKwh: 0,
    });
  });

  it('more units out than there are is none in service', () => {
    const got = run({
      plant: { battery: big, inverter },
      loadKw: series(60, [1, 2]),
      inputs: { unitsOut: [Uint8Array.of(3, 0)] },
    });
    nearAll(got.totals, { unservedKwh: 1, idleKwh: 0.2 });
  });
});

describe('one phase down', () => {
  const loads = [series(60, [1, 4]), series(60, [2, 4]), series(60, [3, 4])];
  const none = new Uint8Array(4);
  const unitsOut = [none, flags(60, [0, 1], [2, 3]), none];

  it('leaves that phase without supply and the others as they were, and is no trip', () => {
    const controls = { shortfall: 'trip' } as const;
    const got = run({ plant: { battery: big, inverter }, controls, loadKw: loads, inputs: { unitsOut } });
    expect(got.totals.unservedByPhaseKwh).toEqual([0, 6, 0]);
    nearAll(got.totals, { trips: 0, idleKwh: 0.6 + 0.4 * 3 });
  });

  it('leaves its AC-coupled array dead', () => {
    // 3 kW of array, a third a phase: the share of phase 2 is lost in three of four hours
    const acArrayKw = series(60, [3, 4]);
    const got = run({ plant: { battery: big, inverter }, loadKw: loads, inputs: { unitsOut, acArrayKw } });
    nearAll(got.totals, { acUsedKwh: 12 - 3, curtailedKwh: 3 });
  });

  it('is down with the generator on load too', () => {
    const plant = { battery: battery(1000, { initialSoc: 1 }), inverter, generator: plainGenerator(30) };
    const got = run({ plant, controls: { continuous: true }, loadKw: loads, inputs: { unitsOut } });
    expect(got.totals.unservedByPhaseKwh).toEqual([0, 6, 0]);
  });
});

describe('bypass', () => {
  // 1 h with inverters, 3 h without
  const bypass = flags(60, [0, 1], [1, 3], [0, 1]);
  const store = battery(100, { standbyKw: 0.5 });

  it('the board runs from the generator alone; only the DC array charges', () => {
    const got = run({
      plant: { battery: store, inverter, generator: plainGenerator(20) },
      loadKw: series(60, [4, 5]),
      inputs: { bypass, dcArrayKw: hours4(0, 2, 0, 2, 0) },
    });
    expect(got.runs).toHaveLength(1);
    expect(got.runs[0]).toMatchObject({ cause: 'bypass', startH: 1, endH: 4 });
    // 4 kW is above no limit of the inverter's: the set gives the load and nothing else
    nearAll(got.totals, { generatorKwh: 12, unservedKwh: 0, idleKwh: 0.4 });
    // 4 + 0.2 + 0.5 kW from the battery by inverters; then 2 − 0.5, −0.5, 2 − 0.5; then 4.7 again
    near(got.storedEndKwh, 50 - 4.7 + 1.5 - 0.5 + 1.5 - 4.7, 'stored');
  });

  it('has no input limit, and no help from the battery', () => {
    const plant = { battery: store, inverter, generator: plainGenerator(9) };
    const load = series(60, [4, 1], [10, 3], [4, 1]);
    const got = run({ plant, controls: { peakAssist: true }, loadKw: load, inputs: { bypass } });
    nearAll(got.totals, { generatorKwh: 27, unservedKwh: 3 });
    const tripped = run({
      plant,
      controls: { shortfall: 'trip', restartDelayH: 0.5 },
      loadKw: load,
      inputs: { bypass },
    });
    nearAll(tripped.totals, { trips: 6, unservedKwh: 30 });
  });

  it('a phase that the set does not have is dark, and trips neither itself nor the others', () => {
    const got = run({
      plant: { battery: store, inverter, generator: plainGenerator(9, { phase: 1 }) },
      controls: { shortfall: 'trip', restartDelayH: 0.25, tripAllPhases: true },
      loadKw: [series(60, [1, 5]), series(60, [4, 5]), series(60, [2, 5])],
      inputs: { bypass },
    });
    nearAll(got.totals, { trips: 0, generatorKwh: 12 });
    expect(got.totals.unservedByPhaseKwh).toEqual([3, 0, 6]);
    nearAll(got.totals.unservedByCauseKwh, { power: 9, trip: 0 });
  });

  it('is dark until the engine runs, and the battery is untouched but for its standby', () => {
    const generator = plainGenerator(20, { startDelayH: 0.5 });
    const got = run({
      plant: { battery: store, inverter, generator },
      loadKw: series(60, [4, 5]),
      inputs: { bypass },
    });
    nearAll(got.totals, { unservedKwh: 2, generatorKwh: 10, outages: 1 });
    near(got.storedEndKwh, 50 - 4.7 * 2 - 0.5 * 3, 'stored');
  });

  it('leaves the AC-coupled array dead', () => {
    const got = run({
      plant: { battery: store, inverter, generator: plainGenerator(20) },
      controls: { acArrayOnLoad: 'held' },
      loadKw: series(60, [4, 5]),
      inputs: { bypass, acArrayKw: series(60, [1, 5]) },
    });
    nearAll(got.totals, { acUsedKwh: 2, generatorKwh: 12 });
  });
});

describe('single-phase generator at a three-phase site', () => {
  const loads = [series(60, [1, 2]), series(60, [2, 2]), series(60, [3, 2])];

  it('feeds its phase; the others live on its charger and the battery', () => {
    const lossless = plainInverter({ ratedKw: 10, chargerKw: 3 });
    const generator = plainGenerator(6, { phase: 1 });
    const plant = { battery: big, inverter: lossless, generator };
    const got = run({ plant, controls: { continuous: true }, loadKw: loads });
    // 2 + 3 kW on phase 2; the other phases draw 4 kW, of which the battery gives 1
    nearAll(got.totals, { generatorKwh: 10, unservedKwh: 0, dischargeKwh: 2 });
    // a charger of 4 kW or more: all 6 kW, and nothing from the battery
    const more = { ...plant, inverter: plainInverter({ ratedKw: 10, chargerKw: 5 }) };
    nearAll(run({ plant: more, controls: { continuous: true }, loadKw: loads }).totals, {
      generatorKwh: 12,
      dischargeKwh: 0,
      chargeKwh: 0,
    });
  });

  it('without a battery leaves the other phases dark', () => {
    const generator = plainGenerator(6, { phase: 1 });
    const got = run({ plant: { generator }, controls: { continuous: true }, loadKw: loads });
    expect(got.totals.unservedByPhaseKwh).toEqual([2, 0, 6]);
  });
});
