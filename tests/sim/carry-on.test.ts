/** A run in stretches: nothing is lost or gained where one ends and the next begins. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carryOn } from '../../src/sim/carry-on.ts';
import { makeColumns } from '../../src/sim/columns.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Totals } from '../../src/sim/ledger.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { featuredSystem } from '../naive/random-system.ts';
import {
  chargeBetween,
  dailyInputs,
  plainBattery,
  plainControls,
  plainGenerator,
  plainInverter,
  plainPlant,
} from '../references/plain-site.ts';

/** Steps `from` (included) to `to` (not included) of a series. */
function part(inputs: Inputs, from: number, to: number): Inputs {
  const cut = <A extends Float64Array | Uint8Array>(values: A | undefined) => values?.subarray(from, to) as A;
  const { sheddableKw, unitsOut, shiftDeadline } = inputs;
  return {
    stepMin: inputs.stepMin,
    count: to - from,
    loadKw: inputs.loadKw.map((kw) => cut(kw)),
    dcArrayKw: cut(inputs.dcArrayKw),
    acArrayKw: cut(inputs.acArrayKw),
    airC: cut(inputs.airC),
    cabinetSunWPerM2: cut(inputs.cabinetSunWPerM2),
    restricted: cut(inputs.restricted),
    night: cut(inputs.night),
    sheddableKw: sheddableKw?.map((kw) => cut(kw)),
    attended: cut(inputs.attended),
    outOfOrder: cut(inputs.outOfOrder),
    bypass: cut(inputs.bypass),
    unitsOut: unitsOut?.map((units) => cut(units)),
    runWindow: cut(inputs.runWindow),
    exerciseDue: cut(inputs.exerciseDue),
    thresholdSet: cut(inputs.thresholdSet),
    shiftDeadline: shiftDeadline?.map((flags) => cut(flags)),
    startFails: inputs.startFails,
    refillSteps: inputs.refillSteps?.filter((step) => step >= from && step < to).map((step) => step - from),
  };
}

/** Every number of totals, in one order. */
function numbersOf(totals: Totals): number[] {
  return Object.values(totals).flatMap((value) =>
    typeof value === 'number' ? [value] : (Object.values(value) as number[]),
  );
}

describe('a run in stretches', () => {
  it('of one stretch is the ordinary run, bit by bit', () => {
    fc.assert(
      fc.property(featuredSystem, ({ plant, controls, inputs }) => {
        const columns = makeColumns(inputs.count);
        const ordinary = simulate(plant, controls, inputs, { columns });
        const own = makeColumns(inputs.count);
        const { totals, extremes } = carryOn(plant, controls, inputs, null, null, own);
        expect(totals).toEqual(ordinary.totals);
        expect(extremes).toEqual(ordinary.extremes);
        expect(own).toEqual(columns);
      }),
      { numRuns: 200 },
    );
  });

  it('of two, cut anywhere, is the run in one, step by step', () => {
    let running = 0;
    fc.assert(
      fc.property(featuredSystem, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (system, share) => {
        const { plant, controls, inputs } = system;
        const cut = Math.max(1, Math.floor(share * inputs.count));
        const columns = makeColumns(inputs.count);
        const whole = carryOn(plant, controls, inputs, null, null, columns);
        const [before, after] = [part(inputs, 0, cut), part(inputs, cut, inputs.count)];
        const first = carryOn(plant, controls, before, null, after, null);
        const kept = structuredClone(first.state);
        const own = makeColumns(inputs.count - cut);
        const second = carryOn(plant, controls, after, first.state, null, own);
        expect(first.state).toEqual(kept);
        const sums = numbersOf(first.totals).map((value, i) => value + numbersOf(second.totals)[i]);
        const size = Math.max(1, whole.totals.loadKwh, whole.totals.fuelL);
        numbersOf(whole.totals).forEach((value, i) => {
          expect(Math.abs(sums[i] - value)).toBeLessThan(1e-9 * size);
        });
        expect(own.socFrac).toEqual(columns.socFrac.slice(cut));
        expect(own.cellC).toEqual(columns.cellC.slice(cut));
        expect(own.generatorKw).toEqual(columns.generatorKw.slice(cut));
        if (columns.cause[cut - 1] > 0 && columns.cause[cut] > 0) running++;
      }),
      { numRuns: 300 },
    );
    // the cut falls into a generator run now and then, or this says little
    expect(running).toBeGreaterThan(20);
  });
});

describe('a battery of another capacity', () => {
  it('goes on at the same state of charge', () => {
    const plant = plainPlant({ battery: plainBattery(10, 1, { initialSoc: 0.5 }) });
    const idle: Inputs = { stepMin: 60, count: 1, loadKw: [new Float64Array(1)] };
    const { state } = carryOn(plant, plainControls(), idle, null, null, null);
    const smaller = plainPlant({ battery: plainBattery(8, 1) });
    const columns = makeColumns(2);
    const load: Inputs = { stepMin: 60, count: 2, loadKw: [Float64Array.of(0, 1)] };
    carryOn(smaller, plainControls(), load, state, null, columns);
    expect([...columns.socFrac]).toEqual([0.5, 0.375]);
  });

  it('wells, drift of the meter and thresholds are shares of it: a site scaled in all goes on alike', () => {
    const scaled = (by: number) => {
      const battery = plainBattery(10 * by, 0.95, {
        initialSoc: 0.6,
        kinetic: { atHandFrac: 0.4, ratePerH: 0.3 },
        display: { driftPerH: 0.002, mostFrac: 0.5, resetSoc: 0.99 },
      });
      const plant = plainPlant({
        battery,
        generator: plainGenerator(3 * by),
        inverter: plainInverter({ chargerKw: 2 * by }),
      });
      const shape = { baseKw: 0.3 * by, blockKw: 1.1 * by, fromH: 17, toH: 23 };
      return {
        plant,
        inputs: dailyInputs(30, 48, shape, { dc: { baseKw: 0, blockKw: 0.4 * by, fromH: 9, toH: 15 } }),
      };
    };
    const controls = plainControls(chargeBetween(0.4, 0.8));
    const [whole, small] = [scaled(1), scaled(0.8)];
    const { state } = carryOn(whole.plant, controls, whole.inputs, null, null, null);
    const [a, b] = [makeColumns(96), makeColumns(96)];
    carryOn(whole.plant, controls, whole.inputs, state, null, a);
    carryOn(small.plant, controls, small.inputs, state, null, b);
    b.socFrac.forEach((soc, i) => {
      expect(Math.abs(soc - a.socFrac[i])).toBeLessThan(1e-9);
    });
    expect(b.cause).toEqual(a.cause);
    expect(new Set(a.cause).size).toBe(2);
  });

  it('a heater in a further cabinet is blocked by its share of the new capacity', () => {
    const cold = {
      airKwhPerK: 0.02,
      batteryKwhPerK: 0.2,
      airToOutsideKwPerK: 0.03,
      airToBatteryKwPerK: 0.02,
    };
    const none = { coolerKw: 0, coolerCop: 1, coolerOnC: 99, coolerOffC: 98, sunApertureM2: 0 };
    const heater = { heaterKw: 0.2, heaterOnC: 5, heaterOffC: 8, heaterMinSoc: 0.5, initialC: 5.5 };
    const cabinet = { ...cold, ...none, ...heater, batteryToOutsideKwPerK: 0.02 };
    const plantOf = (capacityKwh: number) =>
      plainPlant({
        battery: plainBattery(capacityKwh, 1, { initialSoc: 0.55 }),
        batteryCabinets: [{ cabinet, batteryShare: 1 }],
      });
    const inputs: Inputs = {
      stepMin: 60,
      count: 1,
      loadKw: [new Float64Array(1)],
      airC: Float64Array.of(-10),
    };
    const mild = { ...inputs, airC: Float64Array.of(5) };
    const { state, totals } = carryOn(plantOf(10), plainControls(), mild, null, null, null);
    expect(totals.heaterKwh).toBe(0);
    // 4.4 kWh of 8: above the half of 8, below the half of 10
    expect(carryOn(plantOf(8), plainControls(), inputs, state, null, null).totals.heaterKwh).toBeGreaterThan(
      0.05,
    );
  });
});
