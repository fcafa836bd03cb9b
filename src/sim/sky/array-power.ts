/**
 * Array power at a cell temperature, from its rating at 1000 W/m² and 25 °C.
 * @param ratedKw   peak power of the array [kWp], >= 0
 * @param poaWPerM2 irradiance that reaches the cells [W/m²], >= 0
 * @param gammaPerK temperature coefficient of power, negative [1/K]
 * @returns [kW], >= 0
 * Source: standard test conditions of IEC 60904-3 with the temperature coefficient of IEC 60891 (from memory).
 */
export function arrayPowerKw(ratedKw: number, poaWPerM2: number, cellC: number, gammaPerK: number): number {
  return Math.max(0, ((ratedKw * poaWPerM2) / 1000) * (1 + gammaPerK * (cellC - 25)));
}
