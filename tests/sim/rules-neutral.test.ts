/** A feature that is there but does nothing changes no bit of a run: every one on random systems. */
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeColumns } from '../../src/sim/columns.ts';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { randomSystem } from '../naive/random-system.ts';

interface Parts {
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
}

const NEVER = Number.POSITIVE_INFINITY;
const SYSTEMS = fc.sample(randomSystem, { numRuns: 200, seed: 20_261_126 });

const ones = ({ count }: Inputs) => new Uint8Array(count).fill(1);
const zeros = ({ count }: Inputs) => new Uint8Array(count);
/** 1 in every step whose number is divisible. */
const every = ({ count }: Inputs, steps: number) =>
  Uint8Array.from({ length: count }, (_, i) => Number(i % steps === 0));

/** The set of thresholds that the controls have anyway. */
function sameSet({ charge, peak, urgentSoc }: Controls) {
  return {
    startSoc: charge?.startSoc ?? 0,
    stopSoc: charge?.stopSoc ?? 0,
    urgentSoc,
    peakStartKw: peak?.startKw ?? 0,
    peakStopKw: peak?.stopKw ?? 0,
  };
}

/** Puts the feature in; what it does is nothing. */
const NEUTRAL: Record<string, (parts: Parts) => Partial<Parts>> = {
  'somebody always there': ({ inputs }) => ({ inputs: { ...inputs, attended: ones(inputs) } }),
  'never out of order, never bypassed, every unit in service': ({ plant, inputs }) => ({
    plant: { ...plant, inverter: { ...plant.inverter, units: 3 } },
    inputs: {
      ...inputs,
      outOfOrder: zeros(inputs),
      bypass: zeros(inputs),
      unitsOut: inputs.loadKw.map(() => zeros(inputs)),
    },
  }),
  'a run window that is always open': ({ inputs }) => ({ inputs: { ...inputs, runWindow: ones(inputs) } }),
  'starts that never fail': ({ plant, inputs }) => ({
    plant: { ...plant, generator: plant.generator && { ...plant.generator, retries: 3, retryH: 0.1 } },
    inputs: { ...inputs, startFails: Uint8Array.of(0, 0, 0) },
  }),
  'a lock-out after more trips than there are': ({ controls }) => ({
    controls: { ...controls, lock: { trips: 1e9, withinH: 1 } },
  }),
  'thresholds by a calendar that are the same': ({ controls, inputs }) => ({
    controls: { ...controls, sets: [sameSet(controls), sameSet(controls)] },
    inputs: { ...inputs, thresholdSet: Uint8Array.from({ length: inputs.count }, (_, i) => (i >> 3) % 3) },
  }),
  'a person who never comes in time': ({ controls }) => ({
    controls: { ...controls, hand: { startSoc: 0.9, responseH: 1e9, stopSoc: 1, absorptionMaxH: NEVER } },
  }),
  'a full charge that never falls due': ({ controls }) => ({
    controls: { ...controls, full: { everyH: 1e9, stopSoc: 1, absorptionMaxH: 1 } },
  }),
  'an exercise that never falls due': ({ controls, inputs }) => ({
    controls: { ...controls, exercise: { runH: 1, unlessWithinH: 0 } },
    inputs: { ...inputs, exerciseDue: zeros(inputs) },
  }),
  'nothing that may be shed': ({ controls, inputs }) => ({
    controls: { ...controls, shed: { belowSoc: 0.6, aboveSoc: 0.8, overloadH: 0.2 } },
    inputs: { ...inputs, sheddableKw: inputs.loadKw.map(() => new Float64Array(inputs.count)) },
  }),
  'a shiftable load of 0 kWh': ({ plant, inputs }) => ({
    plant: { ...plant, shiftable: [{ phase: 0, kw: 2, kwhPerDay: 0 }] },
    inputs: { ...inputs, shiftDeadline: [every(inputs, 7)] },
  }),
  'no limit to the output that charging aims at': ({ controls }) => ({
    controls: { ...controls, chargeTargetKw: NEVER },
  }),
  'a generator set that draws nothing': ({ plant }) => ({
    plant: {
      ...plant,
      generator: plant.generator && {
        ...plant.generator,
        ...{ standingKw: 0, blockHeaterKw: 0, blockHeaterBelowC: 30 },
      },
    },
  }),
  'an engine that is bled by itself': ({ plant }) => ({
    plant: { ...plant, generator: plant.generator && { ...plant.generator, mustBleed: false } },
  }),
  'a second set that is never connected': ({ plant }) => ({
    plant: {
      ...plant,
      secondGenerator: plant.generator && { generator: { ...plant.generator, ratedKw: 99 }, connectH: 1e9 },
    },
  }),
  'a meter of charge without drift': ({ plant }) => ({
    plant: {
      ...plant,
      battery: plant.battery && {
        ...plant.battery,
        display: { driftPerH: 0, mostFrac: 0.1, resetSoc: 0.99 },
      },
    },
  }),
  'a battery cabinet with share 0': ({ plant }) => ({
    plant: {
      ...plant,
      batteryCabinets:
        plant.cabinet && plant.battery
          ? [{ cabinet: { ...plant.cabinet, heaterKw: 0, coolerKw: 0, initialC: 61 }, batteryShare: 0 }]
          : [],
    },
  }),
};

function bits({ plant, controls, inputs }: Parts) {
  const columns = makeColumns(inputs.count);
  return { ledger: simulate(plant, controls, inputs, { columns }), columns };
}

type Bits = ReturnType<typeof bits>;

/** Told in full only where they differ: long columns take the framework long. */
function expectSame(got: Bits, without: Bits, which: string): void {
  if (isDeepStrictEqual(got, without)) return;
  expect(got.ledger, which).toEqual(without.ledger);
  expect.fail(`${which}: a column differs`);
}

describe('a feature that is there but does nothing changes no bit', () => {
  const without = SYSTEMS.map(bits);

  it.each(Object.keys(NEUTRAL))('%s', (name) => {
    for (const [i, { plant, controls, inputs }] of SYSTEMS.entries()) {
      const parts = { plant, controls, inputs };
      expectSame(bits({ ...parts, ...NEUTRAL[name](parts) }), without[i], `system ${i}`);
    }
  });

  it('overloads where no inverter is ever loaded so much', () => {
    for (const [i, { plant, controls, inputs }] of SYSTEMS.entries()) {
      const inverter = { ...plant.inverter, ratedKw: 1e5 };
      const overload = { frac: 1.5, hours: 0.1, recoveryH: 1 };
      const carried = { plant: { ...plant, inverter: { ...inverter, overload } }, controls, inputs };
      expectSame(bits(carried), bits({ plant: { ...plant, inverter }, controls, inputs }), `system ${i}`);
    }
  });

  it('all of them together', () => {
    for (const [i, { plant, controls, inputs }] of SYSTEMS.entries()) {
      let parts: Parts = { plant, controls, inputs };
      for (const put of Object.values(NEUTRAL)) parts = { ...parts, ...put(parts) };
      expectSame(bits(parts), without[i], `system ${i}`);
    }
  });
});
