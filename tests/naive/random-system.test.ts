/**
 * What must hold for every run, with the naive simulator on random systems; and that these systems bring every
 * rule into play, so that a comparison on them means something.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { CAUSE_CHARGE } from '../../src/sim/causes.ts';
import { FEATURES_IN_PLAY, IN_PLAY } from './in-play.ts';
import { featuredSystem, type RandomSystem, randomSystem } from './random-system.ts';
import type { NaiveResult } from './result.ts';
import { simulateNaive } from './simulate.ts';
import { sum } from './site.ts';

/** Equal but for the rounding of sums over many segments. */
function same(a: number, b: number, size = 1): void {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, size));
}

function checkTotals({ plant, inputs }: RandomSystem, { totals, runs, outages }: NaiveResult): void {
  const hours = (inputs.count * inputs.stepMin) / 60;
  const { loadKwh } = totals;
  expect(totals.worstResidualKwh).toBeLessThan(1e-9);
  same(totals.servedKwh + totals.unservedKwh + totals.shedKwh, loadKwh, loadKwh);
  same(sum(totals.unservedByPhaseKwh), totals.unservedKwh, loadKwh);
  same(sum(totals.unservedByCauseKwh), totals.unservedKwh, loadKwh);
  same(sum(outages.map(({ kwh }) => kwh)), totals.unservedKwh, 100 * loadKwh);
  same(sum(runs.map(({ kwh }) => kwh)), totals.generatorKwh, totals.generatorKwh);
  same(sum(runs.map(({ litres }) => litres)), totals.fuelL, totals.fuelL);
  same(sum(runs.map(({ startH, endH }) => endH - startH)), totals.runH, hours);
  same(sum(runs.map(({ onLoadH }) => onLoadH)), totals.onLoadH, hours);
  same(sum(totals.loadingH), totals.onLoadH, hours);
  same(sum(totals.startsByCause), runs.length);
  same(totals.heaterKwh + totals.coolerKwh, totals.climateKwh, loadKwh);
  expect(totals.dcUsedKwh).toBeLessThanOrEqual(totals.dcPotentialKwh + 1e-9);
  expect(totals.acUsedKwh).toBeLessThanOrEqual(totals.acPotentialKwh + 1e-9);
  expect(totals.unservedH).toBeLessThanOrEqual(hours + 1e-9);
  const firstL = totals.fuelL - totals.secondFuelL;
  const levelL = (plant.tank?.initialL ?? 0) + totals.deliveredL - (plant.tank ? firstL : 0);
  same(levelL, totals.tankEndL, totals.fuelL);
  if (plant.tank && plant.tank.initialL >= plant.tank.reserveL) {
    expect(totals.tankEndL).toBeGreaterThanOrEqual(plant.tank.reserveL - 1e-9);
  }
}

function checkStates({ plant }: RandomSystem, { perStep }: NaiveResult): void {
  expect(Math.min(...perStep.soc)).toBeGreaterThan(-1e-12);
  expect(Math.max(...perStep.soc)).toBeLessThanOrEqual(1);
  expect(Math.min(...perStep.generatorKw)).toBeGreaterThan(-1e-9);
  const ratedKw = Math.max(plant.generator?.ratedKw ?? 0, plant.secondGenerator?.generator.ratedKw ?? 0);
  expect(Math.max(...perStep.generatorKw)).toBeLessThan(ratedKw + 1e-9);
}

/** No run for charge is asked for in a restricted step unless the battery is at its urgent threshold then. */
function checkRestricted({ plant, inputs, controls }: RandomSystem, { perStep, runs }: NaiveResult): void {
  const { battery, generator } = plant;
  if (!battery || !generator || !inputs.restricted) return;
  for (const run of runs) {
    const askedH = run.startH - generator.startDelayH;
    const askedStep = Math.floor((askedH * 60) / inputs.stepMin + 1e-10);
    if (run.cause !== CAUSE_CHARGE || inputs.restricted[askedStep] === 0) continue;
    const soc = askedStep === 0 ? battery.initialSoc : perStep.soc[askedStep - 1];
    expect(soc).toBeLessThanOrEqual(controls.urgentSoc + 1e-9);
  }
}

/** The daily energy of shiftable loads has run on surplus, had to run, was missed, or is left. */
function checkShifted({ plant, inputs }: RandomSystem, { totals }: NaiveResult): void {
  const givenKwh = sum(
    (plant.shiftable ?? []).map(({ kwhPerDay }, j) => kwhPerDay * (1 + sum([...inputs.shiftDeadline![j]]))),
  );
  const mostLeftKwh = sum((plant.shiftable ?? []).map(({ kwhPerDay }) => kwhPerDay));
  const leftKwh = givenKwh - totals.shiftedKwh - totals.shiftForcedKwh - totals.shiftMissedKwh;
  expect(leftKwh).toBeGreaterThanOrEqual(-1e-9 * Math.max(1, givenKwh));
  expect(leftKwh).toBeLessThanOrEqual(mostLeftKwh + 1e-9 * Math.max(1, givenKwh));
}

const simulateSystem = ({ plant, controls, inputs }: RandomSystem): NaiveResult =>
  simulateNaive(plant, controls, inputs);

it('energy, fuel and hours close, and states keep within their bounds', () => {
  fc.assert(
    fc.property(randomSystem, (system) => {
      const result = simulateSystem(system);
      checkTotals(system, result);
      checkStates(system, result);
      checkRestricted(system, result);
    }),
    { numRuns: 150, seed: 20_251_125 },
  );
});

it('so they do with every feature', () => {
  fc.assert(
    fc.property(featuredSystem, (system) => {
      const result = simulateSystem(system);
      checkTotals(system, result);
      checkStates(system, result);
      checkShifted(system, result);
    }),
    { numRuns: 150, seed: 20_251_125 },
  );
});

it.each([
  { kind: 'plain', systems: randomSystem, list: IN_PLAY },
  { kind: 'featured', systems: featuredSystem, list: FEATURES_IN_PLAY },
])('random $kind systems bring every rule into play', ({ systems, list }) => {
  const counts = new Map(Object.keys(list).map((rule) => [rule, 0]));
  for (const system of fc.sample(systems, { numRuns: 200, seed: 3 })) {
    const result = simulateSystem(system);
    for (const [rule, shows] of Object.entries(list)) {
      if (shows(result, system)) counts.set(rule, counts.get(rule)! + 1);
    }
  }
  for (const [rule, count] of counts) expect(count, rule).toBeGreaterThanOrEqual(5);
});
