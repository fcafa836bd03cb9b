/**
 * What the generator set draws itself, the output that charging aims at, and a meter of charge that drifts. Batteries
 * without losses, steps of an hour. All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Plant } from '../../src/sim/plant.ts';
import { chargeBetween, plainGenerator } from '../references/plain-site.ts';
import { battery, flags, near, nearAll, nearList, run, series } from './small-run.ts';

const NEVER = Number.POSITIVE_INFINITY;

describe('own use of the generator set', () => {
  // freezing until noon
  const airC = series(60, [0, 12], [10, 12]);
  const generator = plainGenerator(6, { standingKw: 0.1, blockHeaterKw: 0.5, blockHeaterBelowC: 5 });
  const plant: Partial<Plant> = { battery: battery(100), generator };
  const loadKw = series(60, [1, 24]);

  it('is drawn always, and by the block heater while the engine stands in the cold', () => {
    const got = run({ plant, loadKw, inputs: { airC } });
    nearAll(got.totals, { ownKwh: 24 * 0.1 + 12 * 0.5, climateKwh: 0, servedKwh: 24 });
    near(got.storedEndKwh, 50 - 24 - 8.4, 'stored');
  });

  it('is less while the engine runs', () => {
    // runs from 4 to 6 h; whether it runs is looked at at the start of every step: not heated from 5 to 7 h
    const runWindow = flags(60, [0, 4], [1, 2], [0, 18]);
    const got = run({ plant, controls: { continuous: true }, loadKw, inputs: { airC, runWindow } });
    nearAll(got.totals, { onLoadH: 2, ownKwh: 24 * 0.1 + 10 * 0.5 });
  });

  it('is not served where there is no supply', () => {
    const got = run({ plant: { generator }, loadKw, inputs: { airC } });
    nearAll(got.totals, { ownKwh: 0, unservedKwh: 24 });
  });

  it('is no load: that a phase without inverters cannot supply it is no unserved time', () => {
    // phase 1 has no load and no inverters; 1.1 and 0.1 kW on the others from 0.6 kWh last half an hour
    const set = plainGenerator(6, { standingKw: 0.3 });
    const got = run({
      plant: { battery: battery(1.2), generator: set },
      controls: { shortfall: 'partial' },
      loadKw: [series(60, [0, 1]), series(60, [1, 1]), series(60, [0, 1])],
      inputs: { unitsOut: [flags(60, [1, 1]), flags(60, [0, 1]), flags(60, [0, 1])] },
    });
    nearAll(got.totals, { unservedKwh: 0.5, unservedH: 0.5 });
    near(got.outages[0].startH, 0.5, 'start of the outage');
  });

  it('is shared by the phases', () => {
    const loads = [loadKw, loadKw, series(60, [0, 24])];
    const got = run({ plant: { ...plant, battery: battery(200) }, loadKw: loads, inputs: { airC } });
    nearAll(got.totals, { ownKwh: 8.4, servedKwh: 48 });
    near(got.storedEndKwh, 100 - 48 - 8.4, 'stored');
  });
});

describe('an output that charging aims at', () => {
  const plant = { battery: battery(100), generator: plainGenerator(20) };

  it('is kept where load leaves room, and never holds load back', () => {
    const got = run({
      plant,
      controls: { continuous: true, chargeTargetKw: 8 },
      loadKw: Float64Array.of(3, 9, 8, 0),
    });
    nearList(got.columns.generatorKw, [8, 9, 8, 8]);
    nearList(got.columns.batteryKw, [5, 0, 0, 8]);
  });

  it('is shared equally by the phases, so that an uneven load takes it past', () => {
    // 3 kW a phase: loads 1, 2, 5 leave 2, 1 and nothing
    const loads = [1, 2, 5].map((kw) => series(60, [kw, 1]));
    const got = run({ plant, controls: { continuous: true, chargeTargetKw: 9 }, loadKw: loads });
    nearAll(got.totals, { generatorKwh: 11, chargeKwh: 3 });
  });

  it('is no matter for a run that does not charge', () => {
    const peak = { startKw: 2, delayH: 0, stopKw: 1, holdH: 0, charges: false };
    const got = run({ plant, controls: { peak, chargeTargetKw: 8 }, loadKw: series(60, [3, 2]) });
    nearList(got.columns.generatorKw, [3, 3]);
  });
});

describe('a meter of charge that drifts', () => {
  const loadKw = series(60, [1, 70]);

  function startOf(
    display: { driftPerH: number; mostFrac: number; resetSoc: number } | null,
    startSoc: number,
    initialSoc: number,
    ratedKw = 20,
  ) {
    const got = run({
      plant: { battery: battery(100, { initialSoc, display }), generator: plainGenerator(ratedKw) },
      controls: chargeBetween(startSoc, 0.9),
      loadKw,
    });
    return got.runs[0];
  }

  it('starts the generator late when it shows too much, up to its largest error', () => {
    expect(startOf(null, 0.45, 0.5)).toMatchObject({ startH: 5, socStart: 0.45 });
    // shown 50 − t + t for five hours, then 55 − t: 45 at 10 h
    const late = startOf({ driftPerH: 0.01, mostFrac: 0.05, resetSoc: 1 }, 0.45, 0.5);
    expect(late.startH).toBe(10);
    near(late.socStart, 0.4, 'soc');
  });

  it('starts it early when it shows too little', () => {
    // shown 50 − 2t: 46 at 2 h, 44 at 3 h
    expect(startOf({ driftPerH: -0.01, mostFrac: 0.05, resetSoc: 1 }, 0.45, 0.5).startH).toBe(3);
  });

  it('is right again at the state of charge that sets it right', () => {
    // above 98 % at the end of the first two steps: shown 100 − t + 0.5·(t − 2), 70 at 58 h
    const display = { driftPerH: 0.005, mostFrac: 0.5, resetSoc: 0.98 };
    expect(startOf(display, 0.7, 1).startH).toBe(58);
    // never set right: 100 at most, and 100 − 0.5·t: 70 at 60 h
    expect(startOf({ ...display, resetSoc: 1 }, 0.7, 1).startH).toBe(60);
  });

  it('stops it by what is shown: early when that is too much', () => {
    // 10 kW of charging: from 46 kWh at 10 h to 56, 66, 76, 86, which is shown as 91
    const late = startOf({ driftPerH: 0.01, mostFrac: 0.05, resetSoc: 1 }, 0.51, 0.56, 11);
    near(late.socStart, 0.46, 'soc at the start');
    near(late.socEnd, 0.86, 'soc at the end');
    // without an error from 51 kWh at 5 h to 91
    near(startOf(null, 0.51, 0.56, 11).socEnd, 0.91, 'soc at the end');
  });

  it('does not hide the cut-off, which is the battery’s own', () => {
    const display = { driftPerH: 0.05, mostFrac: NEVER, resetSoc: 1 };
    const got = run({ plant: { battery: battery(10, { display }) }, loadKw: series(60, [1, 8]) });
    nearAll(got.totals.unservedByCauseKwh, { energy: 3 });
  });
});
