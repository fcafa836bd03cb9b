import { arrayPowerKw } from './array-power.ts';
import { cellTempC, moduleTempC } from './cell-temperature.ts';

/** An array up to its controller or inverter. */
export interface ArraySpec {
  ratedKw: number;
  noctC: number;
  gammaPerK: number;
  /** share lost to soiling and to wiring, 0 to 1 */
  soilingFrac: number;
  wiringFrac: number;
  /** heat losses of Faiman's model, used where the wind is known: constant and per m/s of wind */
  windLoss?: { u0: number; u1: number } | null;
  /** share lost to soiling in each step, in place of the one for all; as long as the series */
  soilingByStep?: Float64Array | null;
}

/**
 * What an array could deliver in each step [kW], before its charge controller or inverter. Cells are as warm as the
 * irradiance through the dirt makes them: by Faiman's model where `spec.windLoss` and the wind are known, else by
 * the nominal operating cell temperature (Ross).
 * @param out       written, >= 0
 * @param poaWPerM2 irradiance that reaches the cells, incidence loss taken off (`planeOfArrayInto`) [W/m²]
 * @param airC      outside air [°C]
 * @param windMPerS wind speed [m/s], >= 0; null where not known; all as long as `out`, finite
 */
export function arrayPotentialKwInto(
  out: Float64Array,
  poaWPerM2: Float64Array,
  airC: Float64Array,
  windMPerS: Float64Array | null,
  spec: ArraySpec,
): void {
  const carried = 1 - spec.wiringFrac;
  for (let i = 0; i < out.length; i++) {
    const poa = poaWPerM2[i] * cleanAt(spec, i);
    out[i] = arrayPowerKw(spec.ratedKw, poa, cellAt(poa, airC, windMPerS, spec, i), spec.gammaPerK) * carried;
  }
}

/** The cell temperatures that `arrayPotentialKwInto` reckons with [°C]; arguments as there. */
export function arrayCellsInto(
  out: Float64Array,
  poaWPerM2: Float64Array,
  airC: Float64Array,
  windMPerS: Float64Array | null,
  spec: ArraySpec,
): void {
  for (let i = 0; i < out.length; i++)
    out[i] = cellAt(poaWPerM2[i] * cleanAt(spec, i), airC, windMPerS, spec, i);
}

function cleanAt({ soilingFrac, soilingByStep }: ArraySpec, i: number): number {
  return 1 - (soilingByStep ? soilingByStep[i] : soilingFrac);
}

function cellAt(
  poa: number,
  airC: Float64Array,
  windMPerS: Float64Array | null,
  { windLoss, noctC }: ArraySpec,
  i: number,
): number {
  return windLoss && windMPerS !== null
    ? moduleTempC(airC[i], poa, windMPerS[i], windLoss.u0, windLoss.u1)
    : cellTempC(airC[i], poa, noctC);
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
