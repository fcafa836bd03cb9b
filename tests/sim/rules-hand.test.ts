/**
 * A generator that a person starts. Battery 10 kWh without losses, 5 in it, load 1 kW: 30 % at 2 h. The person comes
 * 1.5 h after they are asked: 3.5 h, with 1.5 kWh left. The set of 3 kW then charges with 2 kW to 90 %: it is at 8.5
 * kWh at 7 h and full in the last hour. Steps of an hour. All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Battery, Plant } from '../../src/sim/plant.ts';
import { chargeBetween, plainGenerator } from '../references/plain-site.ts';
import { battery, flags, near, nearAll, nearList, run, series } from './small-run.ts';

const hand = { startSoc: 0.3, responseH: 1.5, stopSoc: 0.9, absorptionMaxH: Number.POSITIVE_INFINITY };

function site(
  inputs: Partial<Inputs> = {},
  controls: Partial<Controls> = {},
  plant: Partial<Plant> & { store?: Partial<Battery> } = {},
) {
  const { store, ...rest } = plant;
  return run({
    plant: { battery: battery(10, store), generator: plainGenerator(3), ...rest },
    controls: { hand, ...controls },
    loadKw: series(60, [1, 10]),
    inputs,
  });
}

describe('start by hand', () => {
  it('comes after the response time, in the middle of a step', () => {
    const got = site();
    expect(got.runs).toHaveLength(1);
    expect(got.runs[0]).toMatchObject({ cause: 'hand', startH: 3.5, endH: 8 });
    near(got.runs[0].socStart, 0.15, 'soc at the start');
    // 3 kW for 3.5 h, then 1 of load and 1.5 into the last of the room
    nearAll(got.totals, { generatorKwh: 3 * 3.5 + 2.5, unservedKwh: 0 });
    nearList(got.columns.socFrac.slice(0, 8), [0.4, 0.3, 0.2, 0.25, 0.45, 0.65, 0.85, 1]);
  });

  it('does not come while nobody is there, and what is lost then is for want of a person', () => {
    // nobody from 3 to 6 h: empty at 5 h, dark until somebody is back, who starts at once, asked long since
    const got = site({ attended: flags(60, [1, 3], [0, 3], [1, 4]) });
    near(got.runs[0].startH, 6, 'start');
    nearAll(got.totals.unservedByCauseKwh, { 'person away': 1, energy: 0 });
    nearAll(got.totals, { unservedKwh: 1, unservedH: 1 });
    expect(got.outages).toEqual([expect.objectContaining({ cause: 'person away', startH: 5, endH: 6 })]);
  });

  it('with somebody there but slow, what is lost is for want of energy', () => {
    const got = site({}, { hand: { ...hand, responseH: 4 } });
    near(got.runs[0].startH, 6, 'start');
    nearAll(got.totals.unservedByCauseKwh, { 'person away': 0, energy: 1 });
  });

  it('needs no starting battery of the set when the board is dark', () => {
    const store = { reconnectSoc: 0.1 };
    const cranked = { generator: plainGenerator(3, { blackStart: false }), store };
    const away = { attended: flags(60, [1, 3], [0, 3], [1, 4]) };
    near(site(away, {}, cranked).runs[0].startH, 6, 'start');
    // where automatic starts need one
    const automatic = { hand: null, ...chargeBetween(0.05, 0.9) };
    const restricted = { restricted: flags(60, [0, 4], [1, 2], [0, 4]) };
    expect(site(restricted, automatic, cranked).runs).toHaveLength(0);
    expect(site(restricted, automatic, { store }).runs).toHaveLength(1);
  });

  it('stops after the longest time in the taper', () => {
    // from 6.5 kWh charging is limited: steps that begin there count, those of 6 and 7 h
    const store = { taperStartSoc: 0.65 };
    const got = site({}, { hand: { ...hand, absorptionMaxH: 2 } }, { store });
    near(got.runs[0].endH, 8, 'end');
    const longer = site({}, { hand: { ...hand, stopSoc: 1.1, absorptionMaxH: 3 } }, { store });
    near(longer.runs[0].endH, 9, 'end');
  });

  it('comes before an automatic start at the same time', () => {
    const both = { hand: { ...hand, responseH: 0 }, ...chargeBetween(0.3, 0.5) };
    expect(site({}, both).runs[0]).toMatchObject({ cause: 'hand', startH: 2 });
    const away = { attended: new Uint8Array(10) };
    expect(site(away, both).runs[0]).toMatchObject({ cause: 'charge', startH: 2 });
  });

  it('asks anew from the moment it is low again', () => {
    // asked at 2 h, but sun lifts it to 5 kWh in that hour; asked anew at 5 h, there at 6.5 h
    const dcArrayKw = series(60, [0, 2], [3, 1], [0, 7]);
    const got = site({ dcArrayKw });
    nearList(got.columns.socFrac.slice(0, 7), [0.4, 0.3, 0.5, 0.4, 0.3, 0.2, 0.25]);
    near(got.runs[0].startH, 6.5, 'start');
  });
});
