/**
 * A module's voltage (or current) at a cell temperature.
 * @param at25 at 25 °C, from the data sheet [V or A]
 * @param perK temperature coefficient [1/K], negative for voltages
 * @returns in the unit of `at25`
 * Source: straight line about 25 °C as in IEC 60891 (from memory).
 */
export function atCellC(at25: number, perK: number, cellC: number): number {
  return at25 * (1 + perK * (cellC - 25));
}
