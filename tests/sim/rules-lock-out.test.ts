/**
 * Lock-out of the inverters after trips in a row, and the person who clears it. One inverter of 10 kW, a battery
 * without end, restart after 6 min; load 15 kW trips at 0, 0.1 and 0.2 h. All cases worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import { plainGenerator, plainInverter } from '../references/plain-site.ts';
import { battery, flags, nearAll, run, series } from './small-run.ts';

const plant = { battery: battery(1000), inverter: plainInverter({ ratedKw: 10 }) };
const tripping = { shortfall: 'trip', restartDelayH: 0.1, deadVisitH: 2 } as const;
const thrice = { trips: 3, withinH: 0.5 };
const anHourTooMuch = series(60, [15, 1], [5, 9]);

function totals(parts: Partial<Controls>, inputs: Partial<Inputs> = {}, loadKw = anHourTooMuch) {
  return run({ plant, controls: { ...tripping, lock: thrice, ...parts }, loadKw, inputs }).totals;
}

describe('lock-out after trips in a row', () => {
  it('keeps everything off until the person who was called comes', () => {
    // locked out at 0.2 h, called then, there at 2.2 h: 15 kW for 1 h and 5 kW for 1.2 h
    const got = totals({});
    nearAll(got, { trips: 3, lockOuts: 1, visits: 1, unservedKwh: 15 + 5 * 1.2, unservedH: 2.2 });
    nearAll(got.unservedByCauseKwh, { trip: 21 });
    expect(got.outages).toBe(1);
  });

  it('without the rule goes on trying', () => {
    nearAll(totals({ lock: null }), { trips: 10, lockOuts: 0, visits: 0, unservedKwh: 15 });
  });

  it('waits for attended hours', () => {
    // nobody there from 2 to 5 h
    const attended = flags(60, [1, 2], [0, 3], [1, 5]);
    nearAll(totals({}, { attended }), { visits: 1, unservedKwh: 15 + 5 * 4 });
  });

  it('counts the visit by the clock while nobody attends: who is called is on the way', () => {
    // away until 2 h, visit due at 2.2 h
    nearAll(totals({}, { attended: flags(60, [0, 2], [1, 8]) }), { visits: 1, unservedKwh: 15 + 5 * 1.2 });
  });

  it('never comes when nobody attends to the end', () => {
    const got = totals({}, { attended: flags(60, [1, 2], [0, 8]) });
    nearAll(got, { visits: 0, unservedKwh: 15 + 5 * 9 });
  });

  it('counts a trip as one in a row up to and at the stated time after the one before', () => {
    nearAll(totals({ lock: { trips: 3, withinH: 0.1 } }), { lockOuts: 1 });
    nearAll(totals({ lock: { trips: 3, withinH: 0.09 } }), { lockOuts: 0, trips: 10, unservedKwh: 15 });
  });

  it('counts anew after a visit', () => {
    // still 15 kW when the person comes at 2.2 h: trips at 2.2, 2.3 and 2.4 h, locked out, there at 4.4 h
    const got = totals({}, {}, series(60, [15, 3], [5, 7]));
    nearAll(got, { trips: 6, lockOuts: 2, visits: 2, unservedKwh: 15 * 3 + 5 * 1.4 });
  });

  it('locks out at the first trip when told so', () => {
    nearAll(totals({ lock: { trips: 1, withinH: 0.5 } }), { trips: 1, lockOuts: 1, unservedKwh: 15 + 5 });
  });

  it('keeps the board off with the generator on load too, which gets nothing to carry', () => {
    // the set runs from 1 h; the person comes at 2.2 h, then it carries 5 kW for 7.8 h
    const got = run({
      plant: { ...plant, generator: plainGenerator(20), battery: battery(1000, { initialSoc: 1 }) },
      controls: { ...tripping, lock: thrice, continuous: true },
      loadKw: anHourTooMuch,
      inputs: { runWindow: flags(60, [0, 1], [1, 9]) },
    }).totals;
    // until then it only puts back what the battery gave: nothing, for no load was carried
    nearAll(got, { onLoadH: 9, unservedKwh: 21, visits: 1, generatorKwh: 5 * 7.8 });
  });

  it('takes all phases, though one alone trips', () => {
    const loads = [anHourTooMuch, series(60, [1, 10]), series(60, [2, 10])];
    const got = run({ plant, controls: { ...tripping, lock: thrice }, loadKw: loads }).totals;
    nearAll(got, { trips: 3, lockOuts: 1 });
    // the other phases go with it at 0.2 h and come back with the person at 2.2 h
    const byHand = [15 + 5 * 1.2, 1 * 2, 2 * 2];
    for (const k of [0, 1, 2]) nearAll({ phase: got.unservedByPhaseKwh[k] }, { phase: byHand[k] });
  });
});
