/**
 * What must hold for every run, with the naive simulator on random systems; and that these systems bring every
 * rule into play, so that a comparison on them means something.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { CAUSE_CHARGE, CAUSE_CONTINUOUS, CAUSE_PEAK } from '../../src/sim/causes.ts';
import { type RandomSystem, randomSystem } from './random-system.ts';
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
  same(totals.servedKwh + totals.unservedKwh, loadKwh, loadKwh);
  same(sum(totals.unservedByPhaseKwh), totals.unservedKwh, loadKwh);
  same(sum(totals.unservedByCauseKwh), totals.unservedKwh, loadKwh);
  same(sum(outages.map(({ kwh }) => kwh)), totals.unservedKwh, 100 * loadKwh);
  same(sum(runs.map(({ kwh }) => kwh)), totals.generatorKwh, totals.generatorKwh);
  same(sum(runs.map(({ litres }) => litres)), totals.fuelL, totals.fuelL);
  same(sum(runs.map(({ startH, endH }) => endH - startH)), totals.runH, hours);
  same(sum(runs.map(({ onLoadH }) => onLoadH)), totals.onLoadH, hours);
  same(sum(totals.loadingH), totals.onLoadH, hours);
  same(sum(totals.startsByCause), runs.length);
  same(totals.heaterKwh + totals.coolerKwh, totals.climateServedKwh, loadKwh);
  expect(totals.dcUsedKwh).toBeLessThanOrEqual(totals.dcPotentialKwh + 1e-9);
  expect(totals.acUsedKwh).toBeLessThanOrEqual(totals.acPotentialKwh + 1e-9);
  expect(totals.unservedH).toBeLessThanOrEqual(hours + 1e-9);
  const levelL = (plant.tank?.initialL ?? 0) + totals.deliveredL - (plant.tank ? totals.fuelL : 0);
  same(levelL, totals.tankEndL, totals.fuelL);
  if (plant.tank && plant.tank.initialL >= plant.tank.reserveL) {
    expect(totals.tankEndL).toBeGreaterThanOrEqual(plant.tank.reserveL - 1e-9);
  }
}

function checkStates({ plant }: RandomSystem, { perStep }: NaiveResult): void {
  expect(Math.min(...perStep.soc)).toBeGreaterThan(-1e-12);
  expect(Math.max(...perStep.soc)).toBeLessThanOrEqual(1);
  expect(Math.min(...perStep.generatorKw)).toBeGreaterThan(-1e-9);
  expect(Math.max(...perStep.generatorKw)).toBeLessThan((plant.generator?.ratedKw ?? 0) + 1e-9);
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

it('energy, fuel and hours close, and states keep within their bounds', () => {
  fc.assert(
    fc.property(randomSystem, (system) => {
      const result = simulateNaive(system.plant, system.controls, system.inputs);
      checkTotals(system, result);
      checkStates(system, result);
      checkRestricted(system, result);
    }),
    { numRuns: 150, seed: 20_251_125 },
  );
});

/** What a run shows of each rule. */
const IN_PLAY: Record<string, (result: NaiveResult, system: RandomSystem) => boolean> = {
  'charge run': ({ totals }) => totals.startsByCause[CAUSE_CHARGE] > 0,
  'peak run': ({ totals }) => totals.startsByCause[CAUSE_PEAK] > 0,
  'continuous run': ({ totals }) => totals.startsByCause[CAUSE_CONTINUOUS] > 0,
  'several runs': ({ runs }) => runs.length > 2,
  'ran dry': ({ runs }) => runs.some(({ ranDry }) => ranDry),
  delivery: ({ totals }) => totals.deliveries > 0,
  'unserved: power': ({ totals }) => totals.unservedByCauseKwh[0] > 0.01,
  'unserved: energy': ({ totals }) => totals.unservedByCauseKwh[1] > 0.01,
  'unserved: trip': ({ totals }) => totals.unservedByCauseKwh[2] > 0.01,
  'unserved: tank dry': ({ totals }) => totals.unservedByCauseKwh[4] > 0.01,
  'hardly any unserved': ({ totals }) => totals.unservedKwh < 0.01 * totals.loadKwh,
  'cut off': ({ totals }) => totals.cutoffH > 0,
  'dead and visited': ({ totals }, { controls }) => totals.deadH > controls.deadVisitH - 1e-6,
  'held back by frost': ({ totals }) => totals.frostKwh > 0.01,
  'derated by heat': ({ totals }) => totals.deratedKwh > 0.01,
  heater: ({ totals }) => totals.heaterKwh > 0.01,
  cooler: ({ totals }) => totals.coolerKwh > 0.01,
  'battery helps the generator': ({ totals }, { controls }) =>
    controls.peakAssist && totals.onLoadH > 0 && totals.dischargeKwh > 0.01,
  'hours at low load': ({ totals }) => totals.lowLoadH > 0,
  'night hours': ({ totals }) => totals.nightH > 0,
  'curtailed array': ({ totals }) => totals.acUsedKwh < totals.acPotentialKwh - 0.01,
};

it('random systems bring every rule into play', () => {
  const counts = new Map(Object.keys(IN_PLAY).map((rule) => [rule, 0]));
  for (const system of fc.sample(randomSystem, { numRuns: 200, seed: 3 })) {
    const result = simulateNaive(system.plant, system.controls, system.inputs);
    for (const [rule, shows] of Object.entries(IN_PLAY)) {
      if (shows(result, system)) counts.set(rule, counts.get(rule)! + 1);
    }
  }
  for (const [rule, count] of counts) expect(count, rule).toBeGreaterThanOrEqual(5);
});
