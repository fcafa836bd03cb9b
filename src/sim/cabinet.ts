import { expMatrix } from './exp.ts';
import type { Cabinet } from './plant.ts';

/** How the two temperatures at the end of a step follow from those at its start and what acted on them. */
export interface ThermalStep {
  /** 2 × 2, row by row: air and battery node from air and battery node [K/K] */
  phi: number[];
  /** 2 × 3, row by row: from outside temperature [K/K], heat into the air, heat into the battery [K/kW] */
  gamma: number[];
}

/**
 * Exact step of the two-node cabinet for inputs constant over it:
 * C_air dA/dt = G_ao (out − A) + G_ab (B − A) + q_air, C_bat dB/dt = G_ab (A − B) + G_bo (out − B) + q_bat.
 * The matrix exponential of the system with its inputs as further (constant) states gives both matrices.
 * Source: Van Loan, IEEE Trans. Automatic Control 23(3), 1978 (from memory).
 * @param stepH step [h], > 0
 */
export function thermalStep(cabinet: Cabinet, stepH: number): ThermalStep {
  const { airKwhPerK: cA, batteryKwhPerK: cB } = cabinet;
  const { airToOutsideKwPerK: ao, airToBatteryKwPerK: ab, batteryToOutsideKwPerK: bo } = cabinet;
  const rates = [
    ...[-(ao + ab) / cA, ab / cA, ao / cA, 1 / cA, 0],
    ...[ab / cB, -(ab + bo) / cB, bo / cB, 0, 1 / cB],
    ...new Array<number>(15).fill(0),
  ];
  const e = expMatrix(
    rates.map((rate) => rate * stepH),
    5,
  );
  return { phi: [e[0], e[1], e[5], e[6]], gamma: [e[2], e[3], e[4], e[7], e[8], e[9]] };
}

/**
 * Share of the step that a heater (or cooler) runs.
 * @param wanted   rise (fall) from where the node would end without it to the switching temperature [K]
 * @param reach    rise (fall) with it on all through the step [K], > 0
 * @param on       running at the start: it goes on to the switch-off temperature, else it starts when needed
 */
export function dutyTowards(wanted: number, reach: number, on: boolean): number {
  if (on && reach <= wanted) return 1;
  return Math.min(1, Math.max(0, wanted / reach));
}
