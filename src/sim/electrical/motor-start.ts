/** How a motor is started. */
export type StartMethod =
  | 'direct'
  | 'starDelta'
  | 'autotransformer65'
  | 'autotransformer80'
  | 'soft'
  | 'variableSpeed';

/**
 * Share of the direct starting current that the supply sees. Star-delta a third and autotransformers 0.42 and 0.64
 * (taps of 65 and 80 %) as seen second hand; a soft starter leaves about half (common practice).
 */
const SHARES: Record<Exclude<StartMethod, 'variableSpeed'>, number> = {
  direct: 1,
  starDelta: 1 / 3,
  autotransformer65: 0.42,
  autotransformer80: 0.64,
  soft: 0.5,
};

/** A variable-speed drive ramps up at little more than the running current: common practice. */
const DRIVE_TIMES = 1.2;

/**
 * Apparent power of a motor at its rated output.
 * @param ratedKw at the shaft [kW]; @param efficiency, @param powerFactor above 0, to 1
 * @returns [kVA]
 */
export function runningKva(ratedKw: number, efficiency: number, powerFactor: number): number {
  return ratedKw / (efficiency * powerFactor);
}

/**
 * Apparent power that a motor draws while it starts.
 * @param running [kVA] at rated output
 * @param direct [kVA] started direct on line
 * @returns [kVA]
 */
export function startKva(running: number, direct: number, method: StartMethod): number {
  if (method === 'variableSpeed') return Math.min(direct, DRIVE_TIMES * running);
  return SHARES[method] * direct;
}

/** Highest locked-rotor kVA per horsepower of each code letter; there is no I, O or Q, and V has no upper end. */
const CODE_LETTERS: Record<string, number> = {
  A: 3.14,
  B: 3.54,
  C: 3.99,
  D: 4.49,
  E: 4.99,
  F: 5.59,
  G: 6.29,
  H: 7.09,
  J: 7.99,
  K: 8.99,
  L: 9.99,
  M: 11.19,
  N: 12.49,
  P: 13.99,
  R: 15.99,
  S: 17.99,
  T: 19.99,
  U: 22.39,
};

const KW_PER_HP = 0.745699872;

/**
 * Apparent power of a motor with its rotor locked, by the code letter on its plate: the highest of the letter.
 * @param ratedKw at the shaft [kW]
 * @returns [kVA]; null for a letter that is not in the table, or has no upper end
 * Source: NEC table 430.7(B), after NEMA MG 1 (seen second hand).
 */
export function lockedRotorKva(ratedKw: number, letter: string): number | null {
  if (!Object.hasOwn(CODE_LETTERS, letter)) return null;
  return (CODE_LETTERS[letter] * ratedKw) / KW_PER_HP;
}

/**
 * First-cut dip of a generator's voltage when a motor starts: the motor and the transient reactance as a divider.
 * @param start [kVA] of the start, >= 0
 * @param sourceKva rating of the generator [kVA], > 0
 * @param transientReactance X'd of the data sheet, per unit
 * @returns 0 to 1 of the voltage
 * Source: the usual estimate S/(S + S_gen/X'd); it knows no regulator and no other load (common practice).
 */
export function voltageDip(start: number, sourceKva: number, transientReactance: number): number {
  return start / (start + sourceKva / transientReactance);
}
