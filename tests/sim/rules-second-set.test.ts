/**
 * A second set takes over while the first cannot run. The first: 20 kW, 2 L/h + 0.25 L/kWh; the second 6 kW,
 * 1 L/h + 0.3 L/kWh; 4 kW of load, so 3 and 2.2 L/h. No battery. Steps of an hour. All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Generator, Plant } from '../../src/sim/plant.ts';
import { plainGenerator } from '../references/plain-site.ts';
import { battery, flags, near, nearAll, nearList, run, series } from './small-run.ts';

const small = plainGenerator(6, { fuelKw: [0, 6], fuelLPerH: [1, 1 + 0.3 * 6] });

function site(inputs: Partial<Inputs>, plant: Partial<Plant> = {}, first: Partial<Generator> = {}) {
  return run({
    plant: {
      generator: plainGenerator(20, first),
      secondGenerator: { generator: small, connectH: 2 },
      ...plant,
    },
    controls: { continuous: true, deadVisitH: 1 },
    loadKw: series(60, [4, 14]),
    inputs,
  });
}

// out of order from 2 to 8 h; nothing asks from 10 to 11 h
const outOfOrder = flags(60, [0, 2], [1, 6], [0, 6]);
const runWindow = flags(60, [1, 10], [0, 1], [1, 3]);

describe('second set', () => {
  it('takes over after the time to connect it, and gives back when it stands', () => {
    const got = site({ outOfOrder, runWindow });
    expect(got.runs.map(({ startH, endH }) => [startH, endH])).toEqual([
      [0, 2],
      // the first is in order from 8 h, but the second runs until nobody asks
      [4, 10],
      [11, 14],
    ]);
    nearAll(got.totals, { secondRunH: 6, secondFuelL: 6 * 2.2, fuelL: 6 * 2.2 + 5 * 3, runH: 11 });
    nearAll(got.totals.unservedByCauseKwh, { 'start failure': 8, energy: 4 });
  });

  it('waits for somebody to connect it', () => {
    const attended = flags(60, [1, 3], [0, 3], [1, 8]);
    const got = site({ outOfOrder, runWindow, attended });
    near(got.runs[1].startH, 6, 'start');
    nearAll(got.totals.unservedByCauseKwh, { 'start failure': 16, energy: 4 });
  });

  it('waits anew when the first could run in between', () => {
    // the first locks out at once and is put right after 2 h; from 10 to 12 h it is out of order, 2 h of the 3 h needed
    const got = run({
      plant: {
        battery: battery(100),
        generator: plainGenerator(20),
        secondGenerator: { generator: small, connectH: 3 },
      },
      controls: { continuous: true, deadVisitH: 2 },
      loadKw: series(60, [1, 14]),
      inputs: {
        startFails: Uint8Array.of(1, 0),
        outOfOrder: flags(60, [0, 10], [1, 2], [0, 2]),
        runWindow: flags(60, [1, 1], [0, 9], [1, 2], [0, 2]),
      },
    });
    nearAll(got.totals, { startLockOuts: 1, visits: 1, secondRunH: 0, runH: 0 });
  });

  it('and for somebody to give back', () => {
    const attended = flags(60, [1, 10], [0, 4]);
    const got = site({ outOfOrder, runWindow, attended });
    nearAll(got.totals, { secondRunH: 9, secondFuelL: 9 * 2.2 });
  });

  it('carries no more than its own rating, from the step in which it takes over', () => {
    const got = run({
      plant: { generator: plainGenerator(20), secondGenerator: { generator: small, connectH: 1 } },
      controls: { continuous: true },
      loadKw: series(60, [7, 5]),
      inputs: { outOfOrder: flags(60, [0, 2], [1, 3]) },
    });
    // dark from 2 to 3 h, then 6 of 7 kW
    nearList(got.columns.generatorKw, [7, 7, 0, 6, 6]);
    nearAll(got.totals.unservedByCauseKwh, { 'start failure': 7, power: 2 });
  });

  it('never starts in the step in which the first breaks down', () => {
    const got = run({
      plant: { generator: plainGenerator(20), secondGenerator: { generator: small, connectH: 0 } },
      controls: { continuous: true },
      loadKw: series(60, [4, 5]),
      inputs: { outOfOrder: flags(60, [0, 2], [1, 3]) },
    });
    nearList(got.columns.generatorKw, [4, 4, 0, 4, 4]);
  });

  it('has fuel of its own', () => {
    // 6 L of the first last 2 h; the second is connected at 4 h and runs to the end
    const tank = { capacityL: 6, initialL: 6, reserveL: 0, orderAtL: -1, leadH: 0 };
    const got = site({}, { tank });
    nearAll(got.totals, { secondRunH: 10, secondFuelL: 22, fuelL: 28 });
    nearAll(got.totals.unservedByCauseKwh, { 'tank dry': 8 });
    near(got.tankEndL, 0, 'tank');
  });

  it('never fails to start, and is taken when the first has locked out', () => {
    // every attempt fails: locked out at 0 h, cleared by the visit at 1 h and at once again, so out all the time
    const got = site({ startFails: Uint8Array.of(1) });
    expect(got.totals.failedAttempts).toBeGreaterThan(0);
    expect(got.totals.secondRunH).toBe(0);
    // when the person comes only after it is connected, the second runs
    const late = run({
      plant: { generator: plainGenerator(20), secondGenerator: { generator: small, connectH: 2 } },
      controls: { continuous: true, deadVisitH: 24 },
      loadKw: series(60, [4, 14]),
      inputs: { startFails: Uint8Array.of(1) },
    });
    // out at the start of the steps of 1, 2 h: held 2 h at 3 h
    near(late.runs[0].startH, 3, 'start');
    nearAll(late.totals, { failedAttempts: 1, secondRunH: 11 });
  });

  it('is counted as running by the rules of the site, with its own delays', () => {
    const slow = { ...small, startDelayH: 0.25, warmUpH: 0.25, coolDownH: 0.5 };
    const got = site({ outOfOrder, runWindow }, { secondGenerator: { generator: slow, connectH: 2 } });
    near(got.runs[1].startH, 4.25, 'start');
    near(got.runs[1].endH, 10.5, 'end');
    near(got.runs[1].onLoadH, 5.5, 'on load');
  });
});
