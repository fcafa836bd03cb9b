/**
 * What a calendar asks for: other thresholds from a day on, a daily run window, full charges, exercise runs. Battery
 * without losses, steps of an hour. All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import { chargeBetween, plainGenerator } from '../references/plain-site.ts';
import { battery, flags, near, nearAll, run, series } from './small-run.ts';

const NEVER = Number.POSITIVE_INFINITY;

describe('thresholds by a calendar', () => {
  const set = { startSoc: 0.5, stopSoc: 0.8, urgentSoc: -1, peakStartKw: NEVER, peakStopKw: 0 };

  function site(sets: Controls['sets'], thresholdSet: Uint8Array, restricted?: Uint8Array) {
    // 60 kWh, 1 kW drawn: 36 % at midnight; the set of 11 kW charges with 10
    return run({
      plant: { battery: battery(100, { initialSoc: 0.6 }), generator: plainGenerator(11) },
      controls: { ...chargeBetween(0.3, 0.4), sets },
      loadKw: series(60, [1, 48]),
      inputs: { thresholdSet, ...(restricted && { restricted }) },
    });
  }

  it('hold from the step that is marked: a start at midnight', () => {
    const got = site([set], flags(60, [0, 24], [1, 24]));
    // 36 % at 24 h, below 50; 76 % at 28 h, 86 % at 29 h
    expect(got.runs).toEqual([expect.objectContaining({ cause: 'charge', startH: 24, endH: 29 })]);
    near(got.runs[0].socStart, 0.36, 'soc');
  });

  it('and until it ends: the stop threshold of the other set is in force again', () => {
    const got = site([set], flags(60, [0, 24], [1, 2], [0, 22]));
    // 56 % at 26 h is above the 40 that hold again
    expect(got.runs[0]).toMatchObject({ startH: 24, endH: 26 });
  });

  it('are taken by number', () => {
    const sets = [{ ...set, startSoc: 0.35 }, set];
    expect(site(sets, flags(60, [0, 24], [1, 24])).runs[0].startH).toBe(25);
    expect(site(sets, flags(60, [0, 24], [2, 24])).runs[0].startH).toBe(24);
  });

  it('may be urgent in restricted hours', () => {
    const restricted = flags(60, [0, 24], [1, 24]);
    expect(site([set], flags(60, [0, 24], [1, 24]), restricted).runs).toHaveLength(0);
    const urgent = { ...set, urgentSoc: 0.3 };
    expect(site([urgent], flags(60, [0, 24], [1, 24]), restricted).runs[0].startH).toBe(30);
  });

  it('may be peak thresholds, by phase', () => {
    const loadKw = series(60, [3, 10]);
    const peak = { startKw: 5, delayH: 0, stopKw: 4, holdH: 0, charges: false };
    const got = run({
      plant: { battery: battery(100), generator: plainGenerator(11) },
      controls: { peak, sets: [{ ...set, peakStartKw: 2, peakStopKw: 1 }] },
      loadKw,
      inputs: { thresholdSet: flags(60, [0, 4], [1, 3], [0, 3]) },
    });
    expect(got.runs).toEqual([expect.objectContaining({ cause: 'peak', startH: 4, endH: 7 })]);
  });
});

describe('a daily run window', () => {
  const plant = { battery: battery(100), generator: plainGenerator(3) };
  const loadKw = series(60, [1, 48]);
  const runWindow = flags(60, [0, 8], [1, 2], [0, 22], [1, 2], [0, 14]);
  const runsOf = (controls: Partial<Controls>) =>
    run({ plant, controls: { continuous: true, ...controls }, loadKw, inputs: { runWindow } }).runs.map(
      ({ startH, endH }) => [startH, endH],
    );

  it('is when a continuous generator runs', () => {
    expect(runsOf({})).toEqual([
      [8, 10],
      [32, 34],
    ]);
  });

  it('is passed by the minimum run', () => {
    expect(runsOf({ minRunH: 3 })).toEqual([
      [8, 11],
      [32, 35],
    ]);
  });
});

describe('full charge', () => {
  const full = { everyH: 48, stopSoc: 1, absorptionMaxH: NEVER };

  function site(controls: Partial<Controls>, store = {}, inputs: Partial<Inputs> = {}) {
    // 9 kWh, 0.1 kW drawn, 4.2 left at 48 h; charged with 3 kW
    return run({
      plant: { battery: battery(10, { initialSoc: 0.9, ...store }), generator: plainGenerator(3.1) },
      controls,
      loadKw: series(60, [0.1, 150]),
      inputs,
    }).runs.map(({ startH, endH, cause }) => [startH, endH, cause]);
  }

  it('comes so long after the battery was last full', () => {
    // 5.8 kWh need 1.93 h: full at the end of the second step, from where 48 h count again
    expect(site({ full })).toEqual([
      [48, 50, 'full'],
      [98, 100, 'full'],
      [148, 150, 'full'],
    ]);
  });

  it('counts from a day on which the sun filled it', () => {
    const dcArrayKw = series(60, [0, 30], [10, 1], [0, 119]);
    // full at the end of step 30; at 79 h 4.8 kWh have gone, so that the run takes two steps again
    expect(site({ full }, {}, { dcArrayKw })[0]).toEqual([79, 81, 'full']);
  });

  it('takes long enough in the taper as full', () => {
    // charging falls to nothing at full, which is never reached: from half, 5 kWh, the room left falls by e^−0.6 an
    // hour. Begun at 4.2 kWh, so that the first step does not count: 6.8, 8.2, 9.0, 9.5 kWh, done at 52 h; 48 h
    // later 4.7 kWh, the same again
    const store = { taperStartSoc: 0.5, taperEndFrac: 0, maxChargeKw: 3 };
    const runs = site({ full: { ...full, absorptionMaxH: 3 } }, store);
    expect(runs.slice(0, 2)).toEqual([
      [48, 52, 'full'],
      [100, 104, 'full'],
    ]);
  });

  it('waits for the end of restricted hours', () => {
    const restricted = flags(60, [0, 40], [1, 15], [0, 95]);
    expect(site({ full }, {}, { restricted })[0]).toEqual([55, 58, 'full']);
  });
});

describe('exercise runs', () => {
  const exercise = { runH: 1, unlessWithinH: 30 };
  const due = (...hours: number[]) =>
    Uint8Array.from({ length: 100 }, (_, hour) => Number(hours.includes(hour)));

  function site(inputs: Partial<Inputs>, controls: Partial<Controls> = {}) {
    return run({
      plant: { battery: battery(1000), generator: plainGenerator(3) },
      controls: { exercise, ...controls },
      loadKw: series(60, [1, 100]),
      inputs,
    }).runs.map(({ startH, endH, cause }) => [startH, endH, cause]);
  }

  it('come when due, unless the set was on load a short while ago', () => {
    // 34 h is 23 h after the first has ended
    expect(site({ exerciseDue: due(10, 34, 58) })).toEqual([
      [10, 11, 'exercise'],
      [58, 59, 'exercise'],
    ]);
    expect(site({ exerciseDue: due(10, 34, 58) }, { exercise: { runH: 1, unlessWithinH: 23 } })).toHaveLength(
      3,
    );
  });

  it('wait for the end of restricted hours', () => {
    const restricted = flags(60, [0, 9], [1, 3], [0, 88]);
    expect(site({ exerciseDue: due(10), restricted })).toEqual([[12, 13, 'exercise']]);
  });

  it('are done by a run for another cause that is long enough', () => {
    const window = flags(60, [0, 10], [1, 2], [0, 88]);
    const got = site({ exerciseDue: due(10), runWindow: window }, { continuous: true });
    expect(got).toEqual([[10, 12, 'exercise']]);
    const restricted = flags(60, [0, 9], [1, 6], [0, 85]);
    const other = site({ exerciseDue: due(10), runWindow: window, restricted }, { continuous: true });
    expect(other).toEqual([[10, 12, 'continuous']]);
  });

  it('run on battery and load as every run does', () => {
    const got = run({
      plant: { battery: battery(1000), generator: plainGenerator(3) },
      controls: { exercise },
      loadKw: series(60, [1, 4]),
      inputs: { exerciseDue: Uint8Array.of(0, 1, 0, 0) },
    });
    nearAll(got.totals, { generatorKwh: 3, chargeKwh: 2, onLoadH: 1 });
  });
});
