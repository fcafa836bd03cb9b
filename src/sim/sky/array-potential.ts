import { arrayPowerKw, cellTempC } from './cell-temperature.ts';

/** An array up to its controller or inverter. */
export interface ArraySpec {
  ratedKw: number;
  noctC: number;
  gammaPerK: number;
  /** share lost to soiling and to wiring, 0 to 1 */
  soilingFrac: number;
  wiringFrac: number;
}

/**
 * What an array could deliver in each step [kW], before its charge controller or inverter.
 * @param out written, as long as `poa`
 * @param poaWPerM2 irradiance that reaches the cells; airC outside air, same length
 */
export function arrayPotentialInto(
  out: Float64Array,
  poaWPerM2: Float64Array,
  airC: Float64Array,
  spec: ArraySpec,
): void {
  const clean = 1 - spec.soilingFrac;
  const carried = 1 - spec.wiringFrac;
  for (let i = 0; i < out.length; i++) {
    const poa = poaWPerM2[i] * clean;
    const cellC = cellTempC(airC[i], poa, spec.noctC);
    out[i] = arrayPowerKw(spec.ratedKw, poa, cellC, spec.gammaPerK) * carried;
  }
}

/**
 * Adds an array to a total behind its converter: output at most `limitKw`, times nothing more.
 * @param limitKw for a charge controller its output current times the bus voltage, for an inverter its rating
 * @returns energy cut off by the limit [kW-steps], to be multiplied by the step in hours
 */
export function addBehindConverter(
  total: Float64Array,
  potentialKw: Float64Array,
  efficiency: number,
  limitKw: number,
): number {
  let clipped = 0;
  for (let i = 0; i < total.length; i++) {
    const kw = potentialKw[i] * efficiency;
    const out = Math.min(kw, limitKw);
    clipped += kw - out;
    total[i] += out;
  }
  return clipped;
}
