/**
 * Current in each line of a balanced load.
 * @param kva apparent power of all phases together [kVA], >= 0
 * @param phaseV voltage from line to neutral [V], > 0
 * @returns [A]
 * Source: definition of apparent power, S = n · U · I.
 */
export function lineCurrentA(kva: number, phaseV: number, phases: number): number {
  return (kva * 1000) / (phases * phaseV);
}

/**
 * Reactive power of a load that lags.
 * @param powerFactor above 0, to 1
 * @returns [kvar]
 */
export function reactiveKvar(kw: number, powerFactor: number): number {
  return kw * Math.sqrt(Math.max(0, 1 / (powerFactor * powerFactor) - 1));
}

/**
 * Apparent power of loads together, added as vectors: active with active, reactive with reactive.
 * @param loads active power [kW] and power factor of each
 * @returns [kVA], at most the plain sum of the loads' kVA
 * Source: vector summation as in IEEE 3006.4 (seen second hand).
 */
export function vectorSumKva(loads: readonly { kw: number; powerFactor: number }[]): number {
  let kw = 0;
  let kvar = 0;
  for (const load of loads) {
    kw += load.kw;
    kvar += reactiveKvar(load.kw, load.powerFactor);
  }
  return Math.sqrt(kw * kw + kvar * kvar);
}

/**
 * Current in the neutral of a four-wire board whose phases have the same power factor and no harmonics: the length
 * of the sum of three currents 120° apart.
 * @returns [A], at most the highest of the three
 * Source: Fortescue's components (three times the zero sequence), elementary.
 */
export function neutralA(a: number, b: number, c: number): number {
  return Math.sqrt(Math.max(0, a * a + b * b + c * c - a * b - b * c - c * a));
}

/**
 * Rating that a source with equal phases needs to carry unequal loads: its phases are all as strong as the highest.
 * @param phaseKw load of each phase [kW]
 * @returns [kW]
 */
export function balancedSourceKw(phaseKw: readonly number[]): number {
  return phaseKw.length * Math.max(...phaseKw);
}

/**
 * Unbalance: the greatest deviation from the mean, over the mean.
 * @param values one for each phase, mean above 0
 * @returns 0 where all are equal, 2 where one of three carries all
 * Source: the form that NEMA MG 1 gives for voltages (from memory).
 */
export function greatestDeviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.max(...values.map((value) => Math.abs(value - mean))) / mean;
}
