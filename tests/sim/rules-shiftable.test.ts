/**
 * Shiftable loads. Battery 20 kWh without losses, full at midnight; load 1 kW; sun of 5 kW from 10 to 14 h; the day
 * of the shiftable load ends at midnight. All cases worked out by hand.
 */
import { describe, it } from 'vitest';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant, Shiftable } from '../../src/sim/plant.ts';
import { plainGenerator, plainInverter } from '../references/plain-site.ts';
import { battery, flags, near, nearAll, nearList, run, series } from './small-run.ts';

const sun = series(60, [0, 10], [5, 4], [0, 10]);
const oneDay = [flags(60, [0, 24], [1, 1])];

function site(load: Shiftable, inputs: Partial<Inputs> = {}, plant: Partial<Plant> = {}, hours = 25) {
  const pad = (values?: Float64Array) =>
    values && Float64Array.from({ length: hours }, (_, i) => values[i] ?? 0);
  const { dcArrayKw, acArrayKw, ...rest } = inputs;
  return run({
    plant: { battery: battery(20, { initialSoc: 1 }), shiftable: [load], ...plant },
    loadKw: series(60, [1, hours]),
    inputs: {
      shiftDeadline: oneDay,
      ...(dcArrayKw && { dcArrayKw: pad(dcArrayKw) }),
      ...(acArrayKw && { acArrayKw: pad(acArrayKw) }),
      ...rest,
    },
  });
}

describe('shiftable load', () => {
  it('runs on what the battery does not take, and the rest before its deadline', () => {
    // 10 kWh at 10 h, 18 at 12 h; then 2 of 4 kW are left over, then 4, of which it takes its 3; 1 kWh must run at 23 h
    const got = site({ phase: 0, kw: 3, kwhPerDay: 6 }, { dcArrayKw: sun });
    nearAll(got.totals, { shiftedKwh: 5, shiftForcedKwh: 1, shiftMissedKwh: 0, curtailedKwh: 1 });
    nearAll(got.totals, { loadKwh: 25 + 6, servedKwh: 31 });
    // 20 kWh at 14 h, less 9 by 23 h, then 2 in that hour, 1 in the next
    nearList(got.columns.socFrac.slice(21), [0.6, 0.55, 0.45, 0.4]);
  });

  it('must run when what is left fills the time that is left', () => {
    // 4 kWh at 3 kW: 1.33 h, so it begins at 22 h
    const got = site({ phase: 0, kw: 3, kwhPerDay: 4 }, {}, { battery: battery(100) });
    nearAll(got.totals, { shiftedKwh: 0, shiftForcedKwh: 4, shiftMissedKwh: 0 });
    nearList(got.columns.batteryKw.slice(20), [-1, -1, -4, -2, -1]);
  });

  it('that cannot be done in a day is missed by as much', () => {
    const got = site({ phase: 0, kw: 1, kwhPerDay: 30 }, {}, { battery: battery(100) });
    // all 24 h of the first day; the second has no deadline within the run, so there is no hurry
    nearAll(got.totals, { shiftForcedKwh: 24, shiftMissedKwh: 6 });
  });

  it('has a new day at every deadline, wherever that is in the day', () => {
    const shiftDeadline = [flags(60, [0, 4], [1, 1], [0, 23], [1, 1], [0, 3])];
    const got = site({ phase: 0, kw: 2, kwhPerDay: 2 }, { shiftDeadline }, {}, 32);
    // at 3 h, at 27 h; after the last deadline there is no hurry
    nearAll(got.totals, { shiftForcedKwh: 4 });
  });

  it('takes AC surplus of its own phase before anything goes through the inverter', () => {
    // a full battery; 5 kW on the AC side, 1 of load; 0.5 kW of standby goes through the charger at 80 %: 0.625
    const inverter = plainInverter({ chargerKw: 3, chargerEff: 0.8 });
    const full = battery(20, { initialSoc: 1, standbyKw: 0.5 });
    const got = site(
      { phase: 0, kw: 3, kwhPerDay: 3 },
      { acArrayKw: series(60, [5, 25]) },
      { battery: full, inverter },
    );
    nearAll(got.totals, { shiftedKwh: 6, acUsedKwh: 25 * 1.625 + 6, chargerLossKwh: 25 * 0.125 });
  });

  it('takes DC surplus through the inverter, with its loss, within what that carries', () => {
    // full; 1 kW of load draws 1.25, which leaves 2.5 of 3.75: 2 kW on the AC side
    const inverter = plainInverter({ ratedKw: 10, lossLinear: 0.25 });
    const dcArrayKw = series(60, [3.75, 25]);
    const load = { phase: 0, kw: 3, kwhPerDay: 6 };
    const got = site(load, { dcArrayKw }, { inverter });
    // three hours of 2 kW on the first day; one hour of the second
    nearAll(got.totals, { shiftedKwh: 6 + 2, inverterLossKwh: 25 * 0.25 + 4 * 0.5 });
    const small = plainInverter({ ratedKw: 2.5, lossLinear: 0.25 });
    nearAll(site(load, { dcArrayKw }, { inverter: small }).totals, { shiftedKwh: 6 + 1.5 });
  });

  it('is served in order: what the first leaves is the second’s', () => {
    const loads = [
      { phase: 0, kw: 1, kwhPerDay: 10 },
      { phase: 0, kw: 2, kwhPerDay: 10 },
    ];
    const got = site(
      loads[0],
      { dcArrayKw: sun, shiftDeadline: [oneDay[0], oneDay[0]] },
      { shiftable: loads },
    );
    // surplus of 2 kW then 4: 1 + 1, then 1 + 2
    nearAll(got.totals, { shiftedKwh: 5, curtailedKwh: 1 });
  });

  it('never runs on the generator by choice, but must when it is time', () => {
    const got = site(
      { phase: 0, kw: 3, kwhPerDay: 4 },
      { runWindow: flags(60, [0, 10], [1, 14], [0, 1]) },
      { generator: plainGenerator(20) },
    );
    nearAll(got.totals, { shiftedKwh: 0, shiftForcedKwh: 4 });
  });

  it('that must run is load: unserved where it cannot be carried', () => {
    const got = site({ phase: 0, kw: 3, kwhPerDay: 3 }, {}, { inverter: plainInverter({ ratedKw: 2 }) });
    // at 23 h 4 kW are wanted of 2: but the battery had been empty since 20 h
    nearAll(got.totals.unservedByCauseKwh, { energy: 3 + 2 + 1, power: 2 });
    near(got.totals.servedKwh, 20, 'served');
  });
});
