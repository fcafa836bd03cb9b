import { type ThermalStep, thermalStep } from '../../../sim/cabinet.ts';
import type { Cabinet } from '../../../sim/plant.ts';

/** A cabinet may let through so much more, or less, than named: own choice. */
const PATHS_OFF = 0.3;

/** Steps of the two-node model with the ways to the outside larger and smaller than named. */
export function looserAndTighter(
  cabinet: Cabinet,
  stepH: number,
): { looser: ThermalStep; tighter: ThermalStep } {
  const scaled = (factor: number) =>
    thermalStep(
      {
        ...cabinet,
        airToOutsideKwPerK: cabinet.airToOutsideKwPerK * factor,
        batteryToOutsideKwPerK: cabinet.batteryToOutsideKwPerK * factor,
      },
      stepH,
    );
  return { looser: scaled(1 + PATHS_OFF), tighter: scaled(1 - PATHS_OFF) };
}

/** Air and cells at the end of a step [°C], from those at its start, the outside [°C] and the heat into each [kW]. */
export function nextNodes(
  { phi, gamma }: ThermalStep,
  [airC, cellC]: readonly [number, number],
  outsideC: number,
  airHeatKw: number,
  cellHeatKw: number,
): [number, number] {
  return [
    phi[0] * airC + phi[1] * cellC + gamma[0] * outsideC + gamma[1] * airHeatKw + gamma[2] * cellHeatKw,
    phi[2] * airC + phi[3] * cellC + gamma[3] * outsideC + gamma[4] * airHeatKw + gamma[5] * cellHeatKw,
  ];
}
