/**
 * Shedding. Battery 10 kWh without losses, 6 in it; load 2 kW, of which 1 may be shed, at 40 % and below, until 60 %.
 * All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import { plainGenerator, plainInverter } from '../references/plain-site.ts';
import { battery, flags, nearAll, nearList, run, series } from './small-run.ts';

const shed = { belowSoc: 0.4, aboveSoc: 0.6, overloadH: 0.75 };
const store = battery(10, { initialSoc: 0.6 });

describe('shedding by state of charge', () => {
  function site(inputs: Partial<Inputs> = {}, controls: Partial<Controls> = {}) {
    return run({
      plant: { battery: store, generator: plainGenerator(4) },
      controls: { shed, ...controls },
      loadKw: series(60, [2, 6]),
      // from 3 h on a sun of 5 kW
      inputs: {
        sheddableKw: [series(60, [1, 6])],
        dcArrayKw: series(60, [0, 3], [5, 1], [3, 2]),
        ...inputs,
      },
    });
  }

  it('is held until charge has risen to the upper threshold', () => {
    // 6, 4: shed; 3, 2, then 2 + 5 − 1 = 6: on again; 7, 8
    const got = site();
    nearList(got.columns.socFrac, [0.4, 0.3, 0.2, 0.6, 0.7, 0.8]);
    nearAll(got.totals, { shedKwh: 3, shedH: 3, servedKwh: 12 - 3, loadKwh: 12, unservedKwh: 0 });
  });

  it('is neither served nor unserved, and no outage', () => {
    expect(site().outages).toHaveLength(0);
  });

  it('never happens with the generator on load', () => {
    const got = site({ runWindow: flags(60, [0, 1], [1, 2], [0, 3]) }, { continuous: true });
    // 4 kW from the set in the 2nd and 3rd hour: 2 kW of load and 2 to the battery, which is then above 60 %
    nearAll(got.totals, { shedKwh: 0 });
  });

  it('goes by what the meter shows', () => {
    // an error of +1 kWh an hour hides the fall: 4 is shown as 5, 2 as 4, so one hour is shed: 1 kWh is left
    const off = battery(10, { initialSoc: 0.6, display: { driftPerH: 0.1, mostFrac: 1, resetSoc: 1 } });
    const got = run({
      plant: { battery: off },
      controls: { shed },
      loadKw: series(60, [2, 3]),
      inputs: { sheddableKw: [series(60, [1, 3])] },
    });
    nearList(got.columns.socFrac, [0.4, 0.2, 0.1]);
    nearAll(got.totals, { shedKwh: 1 });
  });
});

describe('shedding in an overload', () => {
  const inverter = plainInverter({ ratedKw: 3 });
  const plant = { battery: battery(1000), inverter };
  const trip = { shed, shortfall: 'trip', restartDelayH: 0.25 } as const;

  it('comes before a trip, and lasts its time', () => {
    // 4 kW of which 2 may go: shed at 0 h for 0.75 h, again to 1.5 h, half an hour of the lesser load
    const got = run({
      plant,
      controls: trip,
      loadKw: series(60, [4, 1], [2.5, 2]),
      inputs: { sheddableKw: [series(60, [2, 1], [1, 2])] },
    });
    nearAll(got.totals, { trips: 0, shedKwh: 2 + 1 * 0.5, shedH: 1.5, unservedKwh: 0 });
  });

  it('does not keep from tripping when it is not enough', () => {
    // 6 − 2 kW are above 3: shed and tripped at once; the trip counts what is not shed
    const got = run({
      plant,
      controls: trip,
      loadKw: series(60, [6, 1]),
      inputs: { sheddableKw: [series(60, [2, 1])] },
    });
    nearAll(got.totals, { trips: 4, shedKwh: 2, unservedKwh: 4 });
  });

  it('helps a battery whose power is too small', () => {
    const weak = battery(1000, { maxDischargeKw: 2 });
    const got = run({
      plant: { battery: weak, inverter },
      controls: trip,
      loadKw: series(60, [2.5, 1]),
      inputs: { sheddableKw: [series(60, [1, 1])] },
    });
    nearAll(got.totals, { trips: 0, shedKwh: 1, unservedKwh: 0 });
  });

  it('also where what cannot be carried is unserved', () => {
    const got = run({
      plant,
      controls: { shed, shortfall: 'partial' },
      loadKw: series(60, [6, 1]),
      inputs: { sheddableKw: [series(60, [2, 1])] },
    });
    nearAll(got.totals, { shedKwh: 2, unservedKwh: 1 });
  });
});
