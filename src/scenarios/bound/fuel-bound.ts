import type { Ledger } from '../../sim/ledger.ts';
import type { Generator } from '../../sim/plant.ts';
import type { AlternativeResult, Study } from '../study.ts';
import { type Foresight, foresightOf } from './foresight.ts';
import { bestLPerKwh, fuelHull } from './fuel-hull.ts';
import { loadSolver, type Solver } from './solver.ts';

/** What a run burnt beside the least with which the same could have been served, and where the difference went. */
export interface FuelBound extends FuelGap {
  /** what the rules burnt [L] */
  ranL: number;
  /** nothing that serves the same burns less [L] */
  leastL: number;
  foresight: Foresight;
}

/** The difference in three parts that add up to it [L]; a part may be negative where another is more. */
interface FuelGap {
  /** warming up and cooling down */
  aroundStartsL: number;
  /** on load, litres a kWh above those of foresight, for what was generated */
  loadingL: number;
  /** generated beyond what foresight needs, at its litres a kWh */
  moreGeneratedL: number;
  moreGeneratedKwh: number;
}

/** The bound of a simulated alternative; null where there is no generator. */
function fuelBound(result: AlternativeResult, solver: Solver): FuelBound | null {
  const { generator } = result.plant;
  if (generator === null) return null;
  const foresight = foresightOf(result, solver);
  const ranL = result.ledger.totals.fuelL;
  return { ranL, leastL: foresight.fuelL, foresight, ...gapOf(result.ledger, generator, foresight) };
}

/** Where the fuel beyond the bound went. */
function gapOf({ totals }: Ledger, generator: Generator, foresight: Foresight): FuelGap {
  const hull = fuelHull([generator]);
  // of a second set it is not known how long it stood warming up: its fuel counts as that of running on load
  const aroundStartsL = totals.secondRunH > 0 ? 0 : hull[0].lPerH * (totals.runH - totals.onLoadH);
  const { generatedKwh, fuelL } = foresight;
  const lPerKwh = generatedKwh > 0 ? fuelL / generatedKwh : bestLPerKwh(hull);
  const moreGeneratedKwh = totals.generatorKwh - generatedKwh;
  const moreGeneratedL = moreGeneratedKwh * lPerKwh;
  const loadingL = totals.fuelL - fuelL - aroundStartsL - moreGeneratedL;
  return { aroundStartsL, loadingL, moreGeneratedL, moreGeneratedKwh };
}

/** A study with the bound of every alternative that has a generator. */
export async function withBounds(study: Study): Promise<Study> {
  const solver = await loadSolver();
  const alternatives = study.alternatives.map((result) => ({
    ...result,
    bound: fuelBound(result, solver) ?? undefined,
  }));
  return { ...study, alternatives };
}
