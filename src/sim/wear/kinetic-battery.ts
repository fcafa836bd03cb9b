/**
 * The kinetic battery model, for lead-acid: charge stands in two wells, one at hand (share c of the whole) and one
 * bound, and flows between them in proportion (k) to the difference of their levels. Drawn fast, the first well
 * runs dry while the second still holds much: capacity falls with the current, and comes back at rest.
 * Here in kWh and kW with a voltage that stays; with Ah and A in their place the numbers are the same.
 * All through a step of constant power the charge at hand runs up or down, or rises and then falls, but never
 * falls and then rises while discharging (nor the reverse while charging): limits that hold at both ends of a step
 * hold within it.
 * Source: Manwell and McGowan, Lead acid battery storage model for hybrid energy systems, Solar Energy 50(5), 1993,
 * 399-405.
 */
import { decayedShare } from '../exp.ts';

/**
 * Both wells after a step of constant power.
 * @param out          written: [0] at hand, [1] bound [kWh]
 * @param atHandKwh    [kWh], >= 0
 * @param boundKwh     [kWh], >= 0
 * @param dischargeKw  [kW], negative while charging; within the limits below, or a well is overdrawn
 * @param dt           duration [h], >= 0
 * @param c            share of the charge that is at hand when at rest, 0 to 1, ends excluded
 * @param k            rate constant [1/h], > 0
 */
export function kineticStepInto(
  out: Float64Array,
  atHandKwh: number,
  boundKwh: number,
  dischargeKw: number,
  dt: number,
  c: number,
  k: number,
): void {
  const whole = atHandKwh + boundKwh;
  const gone = decayedShare(k * dt);
  const atHand =
    atHandKwh * (1 - gone) +
    ((whole * k * c - dischargeKw) * gone) / k -
    (dischargeKw * c * (k * dt - gone)) / k;
  out[0] = atHand;
  // as the remainder, so that the energy account closes
  out[1] = whole - dischargeKw * dt - atHand;
}

/**
 * Largest constant power that empties the well at hand just at the end of a step.
 * @param dt duration [h], > 0; other parameters as for `kineticStepInto`
 * @returns [kW], >= 0
 */
export function kineticMostDischargeKw(
  atHandKwh: number,
  boundKwh: number,
  dt: number,
  c: number,
  k: number,
): number {
  const gone = decayedShare(k * dt);
  const atHand = k * (atHandKwh * (1 - gone) + (atHandKwh + boundKwh) * c * gone);
  return Math.max(0, atHand / (gone + c * (k * dt - gone)));
}

/**
 * Largest constant power that fills the well at hand just at the end of a step.
 * @param capacityKwh both wells together when full [kWh]
 * @param dt          duration [h], > 0; other parameters as for `kineticStepInto`
 * @returns charging power as it reaches the wells [kW], >= 0
 */
export function kineticMostChargeKw(
  atHandKwh: number,
  boundKwh: number,
  capacityKwh: number,
  dt: number,
  c: number,
  k: number,
): number {
  const gone = decayedShare(k * dt);
  const room = k * (c * capacityKwh - atHandKwh * (1 - gone) - (atHandKwh + boundKwh) * c * gone);
  return Math.max(0, room / (gone + c * (k * dt - gone)));
}

/**
 * What a full battery gives when a constant power empties it in a stated time.
 * @param capacityKwh both wells together when full [kWh], which is given at a vanishing power
 * @param dischargeH  [h], > 0
 * @returns [kWh], between c·capacity (at once) and capacity
 */
export function kineticCapacityKwh(capacityKwh: number, dischargeH: number, c: number, k: number): number {
  return dischargeH * kineticMostDischargeKw(c * capacityKwh, (1 - c) * capacityKwh, dischargeH, c, k);
}
