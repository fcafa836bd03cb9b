/** The two wells of a lead-acid battery in the step loop; the model itself is in wear/kinetic-battery.ts. */
import * as slot from './slots.ts';
import { kineticMostChargeKw, kineticMostDischargeKw, kineticStepInto } from './wear/kinetic-battery.ts';

/** Most that the well at hand gives all through a segment [kW, from the store]. */
export function mostFromWells(p: Float64Array, s: Float64Array, dt: number): number {
  const atHand = s[slot.S_AT_HAND];
  return kineticMostDischargeKw(atHand, s[slot.S_E] - atHand, dt, p[slot.P_KINETIC_C], p[slot.P_KINETIC_K]);
}

/** Most that the well at hand takes all through a segment [kW, into the store]. */
export function mostIntoWells(p: Float64Array, s: Float64Array, dt: number): number {
  const atHand = s[slot.S_AT_HAND];
  return kineticMostChargeKw(
    atHand,
    s[slot.S_E] - atHand,
    p[slot.P_CAPACITY],
    dt,
    p[slot.P_KINETIC_C],
    p[slot.P_KINETIC_K],
  );
}

const wells = new Float64Array(2);

/** The well at hand after a segment in which the store goes evenly to `nextE` [kWh]. */
export function evenOut(p: Float64Array, s: Float64Array, nextE: number, dt: number): void {
  const atHand = s[slot.S_AT_HAND];
  const e = s[slot.S_E];
  kineticStepInto(wells, atHand, e - atHand, (e - nextE) / dt, dt, p[slot.P_KINETIC_C], p[slot.P_KINETIC_K]);
  s[slot.S_AT_HAND] = Math.max(0, Math.min(nextE, wells[0]));
}
