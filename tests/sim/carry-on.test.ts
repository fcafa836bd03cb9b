/** A run in stretches: nothing is lost or gained where one ends and the next begins. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carryOn, withCapacity } from '../../src/sim/carry-on.ts';
import { makeColumns } from '../../src/sim/columns.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Totals } from '../../src/sim/ledger.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { randomSystem } from '../naive/random-system.ts';
import { plainBattery, plainControls, plainPlant } from '../references/plain-site.ts';

/** Steps `from` (included) to `to` (not included) of a series. */
function part(inputs: Inputs, from: number, to: number): Inputs {
  const cut = <A extends Float64Array | Uint8Array>(values: A | undefined) => values?.subarray(from, to) as A;
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
      fc.property(randomSystem, ({ plant, controls, inputs }) => {
        const columns = makeColumns(inputs.count);
        const ordinary = simulate(plant, controls, inputs, { columns });
        const own = makeColumns(inputs.count);
        const { totals, extremes } = carryOn(plant, controls, inputs, null, own);
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
      fc.property(randomSystem, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (system, share) => {
        const { plant, controls, inputs } = system;
        const cut = Math.max(1, Math.floor(share * inputs.count));
        const columns = makeColumns(inputs.count);
        const whole = carryOn(plant, controls, inputs, null, columns);
        const first = carryOn(plant, controls, part(inputs, 0, cut), null, null);
        const kept = first.state.slice();
        const own = makeColumns(inputs.count - cut);
        const second = carryOn(plant, controls, part(inputs, cut, inputs.count), first.state, own);
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
    const { state } = carryOn(plant, plainControls(), idle, null, null);
    const smaller = plainPlant({ battery: plainBattery(8, 1) });
    const columns = makeColumns(2);
    const load: Inputs = { stepMin: 60, count: 2, loadKw: [Float64Array.of(0, 1)] };
    carryOn(smaller, plainControls(), load, withCapacity(state, 0.8), columns);
    expect([...columns.socFrac]).toEqual([0.5, 0.375]);
  });
});
