import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant } from '../../src/sim/plant.ts';

/** A run: what is built, what is set, what happens. */
interface Run {
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
}

/** The same site with as little as it runs with: no cabinet, no tank, one start cause. */
export function leastOf({ plant, controls, inputs }: Run): Run {
  return {
    plant: { ...plant, cabinet: null, tank: null },
    controls: { ...controls, peak: null },
    inputs: {
      ...inputs,
      airC: undefined,
      cabinetSunWPerM2: undefined,
      restricted: undefined,
      night: undefined,
    },
  };
}

/** The same site with every feature on that a site with a lithium battery may have at once. */
export function everythingOf({ plant, controls, inputs }: Run): Run {
  const { stepMin, count, loadKw } = inputs;
  const { battery, generator, cabinet } = plant;
  if (!battery || !generator || !cabinet) throw new Error('the farm has all of these');
  const minute = (i: number) => (i * stepMin) % 1440;
  const flags = (is: (i: number) => boolean) => Uint8Array.from({ length: count }, (_, i) => Number(is(i)));
  const hoursDaily = (from: number, to: number) =>
    flags((i) => minute(i) >= from * 60 && minute(i) < to * 60);
  return {
    plant: {
      ...plant,
      battery: { ...battery, display: { driftPerH: 0.0004, mostFrac: 0.1, resetSoc: 0.99 } },
      inverter: { ...plant.inverter, units: 2, overload: { frac: 1.5, hours: 0.1, recoveryH: 0.5 } },
      generator: {
        ...generator,
        ...{ retries: 2, retryH: 0.02, mustBleed: true },
        ...{ standingKw: 0.03, blockHeaterKw: 0.4, blockHeaterBelowC: -2 },
      },
      batteryCabinets: [{ cabinet, batteryShare: 0.5 }],
      secondGenerator: { generator, connectH: 6 },
      shiftable: [
        { phase: 0, kw: 1.5, kwhPerDay: 4 },
        { phase: 1, kw: 2, kwhPerDay: 3 },
      ],
    },
    controls: {
      ...controls,
      lock: { trips: 4, withinH: 1 },
      hand: { startSoc: 0.15, responseH: 1, stopSoc: 0.5, absorptionMaxH: 2 },
      full: { everyH: 21 * 24, stopSoc: 0.99, absorptionMaxH: 3 },
      exercise: { runH: 0.5, unlessWithinH: 160 },
      shed: { belowSoc: 0.25, aboveSoc: 0.35, overloadH: 0.2 },
      chargeTargetKw: 15,
      sets: [{ startSoc: 0.35, stopSoc: 0.85, urgentSoc: 0.15, peakStartKw: 5.8, peakStopKw: 4.2 }],
    },
    inputs: {
      ...inputs,
      sheddableKw: loadKw.map((kw) => kw.map((value) => value * 0.2)),
      attended: hoursDaily(6, 22),
      outOfOrder: flags((i) => i * stepMin > 200 * 1440 && i * stepMin < 203 * 1440),
      bypass: flags((i) => i * stepMin > 150 * 1440 && i * stepMin < 150.5 * 1440),
      unitsOut: loadKw.map((_, k) => flags((i) => k === 0 && Math.floor((i * stepMin) / 1440) === 100)),
      exerciseDue: flags((i) => minute(i) === 600 && Math.floor((i * stepMin) / 1440) % 14 === 0),
      thresholdSet: flags((i) => i * stepMin < 60 * 1440),
      shiftDeadline: [flags((i) => minute(i) === 1080), flags((i) => minute(i) === 1140)],
      startFails: Uint8Array.from({ length: 50 }, (_, i) => Number(i % 17 === 3)),
    },
  };
}
