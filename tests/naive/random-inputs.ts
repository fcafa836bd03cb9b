import fc from 'fast-check';
import type { Inputs } from '../../src/sim/inputs.ts';
import { between, type Scale, sometimes } from './random-draws.ts';

/** A few numbers from which the series of a run are made. */
export interface Weather {
  seed: number;
  stepMin: number;
  /** 0.5 to 14 */
  days: number;
  /** spread of the load around its mean, and how often and how far it jumps */
  loadSpread: number;
  peakChance: number;
  peakLoads: number;
  /** share of days on which a phase has no load at all */
  emptyShare: number;
  /** highest array power as a multiple of the mean load of all phases; 0: no array */
  dcArrayLoads: number;
  acArrayLoads: number;
  /** share of days without sun */
  darkShare: number;
  meanC: number;
  dailyC: number;
  cabinetSun: boolean;
  /** restricted from this hour of the day, for so many hours; 0: never */
  restrictedFromH: number;
  restrictedH: number;
  night: boolean;
  refills: number;
}

export const randomWeather: fc.Arbitrary<Weather> = fc.record(
  {
    seed: fc.integer({ min: 1, max: 0x7fff_ffff }),
    stepMin: fc.constantFrom(1, 5, 15, 30, 60),
    days: between(0.5, 14),
    loadSpread: between(0.1, 0.9),
    peakChance: between(0, 0.06),
    peakLoads: between(1, 6),
    emptyShare: sometimes(0.2, between(0.1, 0.7), 0),
    dcArrayLoads: sometimes(0.65, between(0.5, 8), 0),
    acArrayLoads: sometimes(0.5, between(0.5, 8), 0),
    darkShare: between(0.1, 0.8),
    meanC: between(-9, 36),
    dailyC: between(2, 10),
    cabinetSun: fc.boolean(),
    restrictedFromH: fc.integer({ min: 0, max: 23 }),
    restrictedH: sometimes(0.5, fc.integer({ min: 1, max: 12 }), 0),
    night: fc.boolean(),
    refills: sometimes(0.4, fc.integer({ min: 1, max: 3 }), 0),
  },
  { noNullPrototype: true },
);

/** Even numbers from 0 to 1, the same for the same seed: a 32-bit linear congruential generator with mixed output. */
export function evenNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    let mixed = state ^ (state >>> 15);
    mixed = Math.imul(mixed, 0x2c1b3c6d);
    mixed ^= mixed >>> 12;
    return (mixed >>> 0) / 0x1_0000_0000;
  };
}

/** Load of one phase: a day with two humps, noise, and appliances that run for a while. */
function loadSeries(draw: Weather, scale: Scale, count: number, even: () => number): Float64Array {
  const series = new Float64Array(count);
  let peakStepsLeft = 0;
  let peakKw = 0;
  let empty = false;
  for (let step = 0; step < count; step++) {
    if ((step * draw.stepMin) % 1440 === 0) empty = even() < draw.emptyShare;
    const hour = ((step * draw.stepMin) / 60) % 24;
    const humps =
      0.6 + 0.8 * Math.exp(-(((hour - 7.5) / 2) ** 2)) + 1.2 * Math.exp(-(((hour - 19) / 3) ** 2));
    const noise = 1 + draw.loadSpread * (2 * even() - 1);
    if (peakStepsLeft === 0 && even() < (draw.peakChance * draw.stepMin) / 15) {
      peakStepsLeft = 1 + Math.floor((even() * 90) / draw.stepMin);
      peakKw = scale.phaseKw * draw.peakLoads * even();
    }
    if (!empty) series[step] = scale.phaseKw * humps * noise + (peakStepsLeft > 0 ? peakKw : 0);
    if (peakStepsLeft > 0) peakStepsLeft -= 1;
  }
  return series;
}

/** Sun of the day from 6 to 18 h as a share of full sun, with clouds and whole days without any. */
function sunSeries(draw: Weather, count: number, even: () => number): Float64Array {
  const series = new Float64Array(count);
  let daylight = 1;
  let cloud = 1;
  for (let step = 0; step < count; step++) {
    const minute = step * draw.stepMin;
    if (minute % 1440 === 0) daylight = even() < draw.darkShare ? 0.04 * even() : 1;
    if (even() < draw.stepMin / 40) cloud = 0.15 + 0.85 * even();
    const hour = (minute / 60) % 24;
    series[step] = hour <= 6 || hour >= 18 ? 0 : daylight * cloud * Math.sin((Math.PI * (hour - 6)) / 12);
  }
  return series;
}

function airSeries(draw: Weather, count: number, even: () => number): Float64Array {
  const series = new Float64Array(count);
  let driftC = 0;
  for (let step = 0; step < count; step++) {
    const hour = ((step * draw.stepMin) / 60) % 24;
    driftC = 0.998 * driftC + 0.3 * (2 * even() - 1);
    series[step] = draw.meanC + draw.dailyC * Math.sin((2 * Math.PI * (hour - 9)) / 24) + driftC;
  }
  return series;
}

/** 1 in `hours` hours of the day from `fromH` on, over midnight if need be. */
function hoursMarked(stepMin: number, count: number, fromH: number, hours: number): Uint8Array {
  return Uint8Array.from({ length: count }, (_, step) => {
    const hour = Math.floor((step * stepMin) / 60) % 24;
    return (hour - fromH + 24) % 24 < hours ? 1 : 0;
  });
}

/** The series of a run; the same draw always gives the same ones. */
export function buildInputs(draw: Weather, scale: Scale): Inputs {
  const count = Math.max(1, Math.round((draw.days * 1440) / draw.stepMin));
  const even = evenNumbers(draw.seed);
  const loadKw = Array.from({ length: scale.phases }, () => loadSeries(draw, scale, count, even));
  const sun = sunSeries(draw, count, even);
  const meanKw = scale.phases * scale.phaseKw;
  const inputs: Inputs = { stepMin: draw.stepMin, count, loadKw, airC: airSeries(draw, count, even) };
  if (draw.dcArrayLoads > 0) inputs.dcArrayKw = sun.map((share) => share * meanKw * draw.dcArrayLoads);
  if (draw.acArrayLoads > 0) inputs.acArrayKw = sun.map((share) => share * meanKw * draw.acArrayLoads);
  if (draw.cabinetSun) inputs.cabinetSunWPerM2 = sun.map((share) => share * 1000);
  if (draw.restrictedH > 0) {
    inputs.restricted = hoursMarked(draw.stepMin, count, draw.restrictedFromH, draw.restrictedH);
  }
  if (draw.night) inputs.night = hoursMarked(draw.stepMin, count, 21, 10);
  if (draw.refills > 0) {
    const steps = new Set(Array.from({ length: draw.refills }, () => Math.floor(even() * count)));
    inputs.refillSteps = Int32Array.from([...steps].sort((a, b) => a - b));
  }
  return inputs;
}
