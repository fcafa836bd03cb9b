import type { StepColumns } from '../../sim/columns.ts';
import type { Controls } from '../../sim/controls.ts';
import type { Inputs } from '../../sim/inputs.ts';
import type { Totals } from '../../sim/ledger.ts';
import type { Cabinet, Plant } from '../../sim/plant.ts';
import type { Limits } from './limits.ts';
import type { StepGiven } from './step-modes.ts';

/** A run as it was simulated. */
export interface SimulatedRun {
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
  columns: StepColumns;
}

/** Steps `from` to `to` (not included) of a run, with what was booked in them. */
export interface Block {
  run: SimulatedRun;
  limits: Limits;
  from: number;
  to: number;
  hours: number;
  sums: Totals;
}

/** Energies below this are rounding [kWh]. */
export const NOTHING_KWH = 1e-9;

/** What the step is given, without own use and shifted load. */
export function readStep({ plant, inputs }: SimulatedRun, i: number, isShed: boolean): StepGiven {
  const { inverter, phases, acArrayShare, battery } = plant;
  const bypassed = inputs.bypass?.[i] === 1;
  const given: StepGiven = {
    wantKw: [],
    besideKw: [],
    inService: [],
    acArrayKw: [],
    bypassed,
    dcArrayKw: inputs.dcArrayKw?.[i] ?? 0,
    standingKw: battery?.standbyKw ?? 0,
  };
  for (let k = 0; k < phases; k++) {
    const out = (inputs.unitsOut?.[k][i] ?? 0) / (inverter.units ?? 1);
    const inService = bypassed ? 0 : Math.max(0, 1 - out);
    given.inService.push(inService);
    given.standingKw += inverter.idleKw * inService;
    given.wantKw.push(Math.max(0, inputs.loadKw[k][i] - (isShed ? (inputs.sheddableKw?.[k][i] ?? 0) : 0)));
    given.besideKw.push(0);
    given.acArrayKw.push(inService > 0 ? (inputs.acArrayKw?.[i] ?? 0) * acArrayShare[k] : 0);
  }
  return given;
}

/** Most that own use and shifted load draw on a phase. */
export function mostBesideKw(plant: Plant, k: number): number {
  const shiftable = plant.shiftable ?? [];
  return (
    ratedOwnKw(plant) / plant.phases +
    shiftable.reduce((sum, { phase, kw }) => sum + (phase === k ? kw : 0), 0)
  );
}

/** All that heaters, coolers and the generator set can draw at once. */
export function ratedOwnKw({ cabinet, batteryCabinets, generator }: Plant): number {
  const cabinets: (Cabinet | null)[] = [cabinet, ...(batteryCabinets ?? []).map((more) => more.cabinet)];
  const climateKw = cabinets.reduce((sum, it) => sum + (it ? it.heaterKw + it.coolerKw : 0), 0);
  return climateKw + (generator?.standingKw ?? 0) + (generator?.blockHeaterKw ?? 0);
}
