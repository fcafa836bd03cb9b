/**
 * Short overloads. One inverter of 10 kW carries 15 kW for 30 min from rest and is fresh again after 2 h, so load x
 * kW drains (x/10 − 1)/(0.5·0.5 h) of the budget an hour: 15 kW 2 an hour, 12.5 kW 1, 12 kW 0.8. A battery without
 * end; a tripped phase tries again after 15 min. All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import { plainGenerator, plainInverter } from '../references/plain-site.ts';
import { battery, nearAll, run, type Small, series } from './small-run.ts';

const overload = { frac: 1.5, hours: 0.5, recoveryH: 2 };
const plant = { battery: battery(1000), inverter: plainInverter({ ratedKw: 10, overload }) };
const controls = { shortfall: 'trip', restartDelayH: 0.25 } as const;

const totals = (parts: Partial<Small> & Pick<Small, 'loadKw'>) => run({ plant, controls, ...parts }).totals;

describe('short-overload budget', () => {
  it('lasts its hours at the highest overload, then the phase trips until load is less', () => {
    // carried 0.5 h, 5 kW above; trips at 0.5 and 0.75 h; the second restart falls on the lesser load
    const got = totals({ loadKw: series(60, [15, 1], [5, 2]) });
    nearAll(got, { trips: 2, unservedKwh: 7.5, overloadKwh: 2.5, unservedH: 0.5 });
    nearAll(got.unservedByCauseKwh, { trip: 7.5, power: 0 });
  });

  it('lasts in proportion longer at a lesser overload', () => {
    // 12.5 kW: the budget of 1 drains at 1 an hour; then four trips in the second hour
    nearAll(totals({ loadKw: series(60, [12.5, 2]) }), { trips: 4, unservedKwh: 12.5, overloadKwh: 2.5 });
  });

  it('does not depend on the step', () => {
    for (const stepMin of [1, 5, 15, 30])
      nearAll(totals({ stepMin, loadKw: series(stepMin, [15, 1], [5, 2]) }), {
        trips: 2,
        unservedKwh: 7.5,
        overloadKwh: 2.5,
      });
  });

  it('comes back at rest in proportion', () => {
    // 15 kW for 15 min leaves 0.5, half an hour of rest gives 0.25: 0.75 lasts 0.375 h, 7.5 min into the 2nd step
    const loadKw = series(15, [15, 0.25], [5, 0.5], [15, 0.5], [5, 1]);
    nearAll(totals({ stepMin: 15, loadKw }), {
      trips: 1,
      // tripped from 1.125 h; at 1.375 h, when it tries again, load is 5 kW since 1.25 h
      unservedKwh: 15 * 0.125 + 5 * 0.125,
      overloadKwh: 5 * (0.25 + 0.375),
    });
  });

  it('once used up, waits until it is fresh again', () => {
    const rested = (restH: number) =>
      totals({ stepMin: 15, loadKw: series(15, [15, 0.5], [5, restH], [12, 0.25], [5, 1]) });
    // 1.75 h give 0.875 of the budget, which would do for 12 kW, but it is spent until it is whole
    nearAll(rested(1.75), { trips: 1, overloadKwh: 2.5, unservedKwh: 12 * 0.25 });
    nearAll(rested(2), { trips: 0, overloadKwh: 2.5 + 2 * 0.25, unservedKwh: 0 });
  });

  it('above the highest overload the phase trips at once', () => {
    nearAll(totals({ stepMin: 15, loadKw: series(15, [15.1, 0.25], [5, 1]) }), {
      trips: 1,
      overloadKwh: 0,
      unservedKwh: 15.1 * 0.25,
    });
  });

  it('carries what it can when shortfall is partial', () => {
    // 15 of 18 kW for 0.5 h, then 10 of 18
    const got = totals({ controls: { shortfall: 'partial' }, loadKw: series(60, [18, 1]) });
    nearAll(got, { trips: 0, unservedKwh: 3 * 0.5 + 8 * 0.5, overloadKwh: 2.5, unservedH: 1 });
    nearAll(got.unservedByCauseKwh, { power: 5.5 });
  });

  it('goes by the derated rating', () => {
    // at 50 °C half-way from the knee to half power: 7.5 kW, so that 11.25 kW last 30 min
    const got = totals({ plant: { ...plant, roomC: 50 }, loadKw: series(60, [11.25, 1]) });
    nearAll(got, { trips: 2, overloadKwh: 3.75 * 0.5, unservedKwh: 11.25 * 0.5 });
  });

  it('is each phase’s own', () => {
    const got = totals({ loadKw: [series(60, [15, 1]), series(60, [12.5, 1]), series(60, [10, 1])] });
    expect(got.unservedByPhaseKwh).toEqual([7.5, 0, 0]);
    nearAll(got, { trips: 2, overloadKwh: 2.5 + 2.5 });
  });

  it('is not drained with the generator on load', () => {
    // the set carries 15 kW for the first hour; the inverters still have their 30 min
    const got = totals({
      plant: { ...plant, generator: plainGenerator(20) },
      controls: { ...controls, continuous: true },
      loadKw: series(30, [15, 2]),
      stepMin: 30,
      inputs: { runWindow: Uint8Array.of(1, 1, 0, 0) },
    });
    nearAll(got, { onLoadH: 1, overloadKwh: 2.5, trips: 2 });
  });
});
