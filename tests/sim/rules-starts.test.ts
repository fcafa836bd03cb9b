/**
 * Starts that fail, an engine to be bled, a set out of order. Fuel 2 L/h + 0.25 L/kWh, so 3 L/h at the 4 kW of load;
 * no battery, so that the board is dark whenever the engine stands. Steps of an hour. All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Generator, Plant } from '../../src/sim/plant.ts';
import { plainGenerator } from '../references/plain-site.ts';
import { flags, near, nearAll, run, series } from './small-run.ts';

function site(
  generator: Partial<Generator>,
  inputs: Partial<Inputs>,
  hours = 8,
  more: { plant?: Partial<Plant>; controls?: Partial<Controls> } = {},
) {
  return run({
    plant: { generator: plainGenerator(20, generator), ...more.plant },
    controls: { continuous: true, deadVisitH: 2, ...more.controls },
    loadKw: series(60, [4, hours]),
    inputs,
  });
}

describe('starts that fail', () => {
  const tries = { startDelayH: 0.2, retries: 1, retryH: 0.1 };
  const startFails = Uint8Array.of(1, 1, 0);

  it('are tried again after a pause, then the set locks out until somebody has been', () => {
    // attempts at 0.2 and 0.3 h fail; called at 0.3, there at 2.3; decided at 3 h, third attempt at 3.2 h
    const got = site(tries, { startFails });
    nearAll(got.totals, { failedAttempts: 2, startLockOuts: 1, visits: 1, starts: 1, unservedKwh: 4 * 3.2 });
    near(got.runs[0].startH, 3.2, 'start');
    nearAll(got.totals.unservedByCauseKwh, { 'start failure': 4 * 2, energy: 4 * (0.3 + 0.9) });
  });

  it('succeed in time with one more attempt', () => {
    const got = site({ ...tries, retries: 2 }, { startFails });
    nearAll(got.totals, { failedAttempts: 2, startLockOuts: 0, visits: 0, unservedKwh: 4 * 0.4 });
  });

  it('wait for attended hours', () => {
    // nobody until 6 h: the visit is due at 2.3 h and happens at 6; the decision of that hour was taken before
    const got = site(tries, { startFails, attended: flags(60, [0, 6], [1, 2]) });
    near(got.runs[0].startH, 7.2, 'start');
    nearAll(got.totals.unservedByCauseKwh, { 'start failure': 4 * 5.7 });
  });

  it('go on with the next outcome at the next start, over and over', () => {
    // window 0-1, 2-3, 4-5, 6-7: outcomes good; bad, good; good again; bad, good, with 0.1 h between attempts
    const runWindow = flags(60, [1, 1], [0, 1], [1, 1], [0, 1], [1, 1], [0, 1], [1, 1], [0, 1]);
    const got = site(tries, { startFails: Uint8Array.of(0, 1, 0), runWindow });
    nearAll(got.totals, { starts: 4, failedAttempts: 2 });
    for (const [i, startH] of [0.2, 2.3, 4.2, 6.3].entries()) near(got.runs[i].startH, startH, `run ${i}`);
  });

  it('that never succeed call somebody again and again', () => {
    // called at 0.3, 3.3 and 6.3 h, there 2 h later, decided at the next whole hour
    const got = site(tries, { startFails: Uint8Array.of(1) }, 9);
    nearAll(got.totals, { starts: 0, failedAttempts: 6, startLockOuts: 3, visits: 3, unservedKwh: 36 });
  });
});

describe('an engine that ran dry', () => {
  // 6 L last 2 h; filled at 4 h
  const tank = { capacityL: 30, initialL: 6, reserveL: 0, orderAtL: -1, leadH: 0 };
  const inputs = { refillSteps: Int32Array.of(4) };
  const more = { plant: { tank }, controls: { deadVisitH: 1.5 } };

  it('starts again at the delivery when it bleeds itself', () => {
    const got = site({}, inputs, 8, more);
    nearAll(got.totals, { unservedKwh: 4 * 2, visits: 0, starts: 2 });
    near(got.runs[1].startH, 4, 'start');
  });

  it('must wait for a person when it does not', () => {
    // called at 4 h when there is fuel, there at 5.5 h, decided at 6 h
    const got = site({ mustBleed: true }, inputs, 8, more);
    near(got.runs[1].startH, 6, 'start');
    expect(got.runs[0].ranDry).toBe(true);
    nearAll(got.totals, { visits: 1, unservedKwh: 16 });
    nearAll(got.totals.unservedByCauseKwh, { 'tank dry': 4 * 3.5, energy: 4 * 0.5 });
    near(got.tankEndL, 30 - 3 * 2, 'tank');
  });

  it('and for one who is there', () => {
    const attended = flags(60, [1, 3], [0, 5], [1, 4]);
    const got = site({ mustBleed: true }, { ...inputs, attended }, 12, more);
    near(got.runs[1].startH, 9, 'start');
  });
});

describe('out of order', () => {
  const outOfOrder = flags(60, [0, 3], [1, 2], [0, 3]);

  it('an engine that runs stands still at once, and starts when it is in order', () => {
    const got = site({ coolDownH: 0.5 }, { outOfOrder });
    expect(got.runs.map(({ startH, endH }) => [startH, endH])).toEqual([
      [0, 3],
      [5, 8],
    ]);
    nearAll(got.totals, { unservedKwh: 8, visits: 0, fuelL: 3 * 6 });
    nearAll(got.totals.unservedByCauseKwh, { 'start failure': 8 });
  });

  it('a start under way is given up', () => {
    // the start of 0 h would be there at 3.5 h; out of order at 3 h; begun anew at 5 h
    const got = site({ startDelayH: 3.5 }, { outOfOrder: flags(60, [0, 3], [1, 2], [0, 5]) }, 10);
    near(got.runs[0].startH, 8.5, 'start');
    nearAll(got.totals.unservedByCauseKwh, { 'start failure': 8, energy: 4 * 6.5 });
  });

  it('rests as after every stop', () => {
    const got = site({}, { outOfOrder }, 8, { controls: { leastRestH: 2.25 } });
    near(got.runs[1].startH, 5.25, 'start');
  });
});
