import type { Controls } from '../../src/sim/controls.ts';
import type { Plant } from '../../src/sim/plant.ts';
import type { Measure } from './dispatch-measures.ts';
import { type Daily, dailyInputs, plainControls, plainPlant, type System } from './plain-site.ts';

/**
 * Closed-form dispatch cases: the answer of each follows on paper from a few lines of arithmetic, which are its
 * `derivation`. Source of all of them: derived for this project, and found again exactly by a simulation in
 * rational numbers that shares nothing with this one.
 *
 * Store E between the start and the stop threshold [kWh, stored], one-way efficiencies hc and hd, load L [kW],
 * generator output Pg [kW] while charging: off for E·hd/L, on for E/(hc·(Pg − L)); fuel 2 L/h + 0.25 L/kWh.
 */
export interface DispatchCase {
  name: string;
  derivation: string;
  /** step lengths at which the answer is exact [min] */
  exactAtMin: readonly number[];
  system(stepMin: number): System;
  expected: Partial<Record<Measure, number>>;
}

const YEAR_H = 8760;
/** Steps that divide an hour in the usual ways [min]. */
export const BY_THE_HOUR = [60, 30, 15, 5];

/** Puts a case together from what differs from a plain site; a year unless `hours` says otherwise. */
export function dispatchCase(
  name: string,
  derivation: string,
  exactAtMin: readonly number[],
  site: {
    plant: Partial<Plant>;
    controls?: Partial<Controls>;
    load: Daily;
    arrays?: { dc?: Daily; ac?: Daily };
    hours?: number;
  },
  expected: DispatchCase['expected'],
): DispatchCase {
  const system = (stepMin: number): System => ({
    plant: plainPlant(site.plant),
    controls: plainControls(site.controls),
    inputs: dailyInputs(stepMin, site.hours ?? YEAR_H, site.load, site.arrays),
  });
  return { name, derivation, exactAtMin, system, expected };
}
