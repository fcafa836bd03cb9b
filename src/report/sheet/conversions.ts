/** What a technician reads on a clamp meter or enters at a panel, from the powers that a design is made in. */

/**
 * Current of one phase.
 * @param kw power of the phase [kW]; @param phaseV voltage phase to neutral [V], > 0
 * @param powerFactor 0 to 1, > 0
 * @returns [A]: P = U · I · cos φ
 */
export function phaseAmps(kw: number, phaseV: number, powerFactor: number): number {
  return (kw * 1000) / (phaseV * powerFactor);
}

/** Current on the battery side of a power there [kW] at a bus voltage [V]. @returns [A] */
export function busAmps(kw: number, busV: number): number {
  return (kw * 1000) / busV;
}

/**
 * Current that a charger gives the battery.
 * @param acKw drawn from the AC side [kW]; @param efficiency AC to DC, 0 to 1; @param busV bus voltage [V]
 */
export function chargerAmps(acKw: number, efficiency: number, busV: number): number {
  return busAmps(acKw * efficiency, busV);
}

/** A limit as it is entered: whole amperes, never more than was worked out. */
export function wholeAmpsBelow(amps: number): number {
  return Math.floor(amps + 1e-9);
}

/** Voltages of a battery that stand for "nearly empty", at the bus [V]. */
export interface EmptyVoltages {
  /** cells in series */
  cells: number;
  /** start of the generator, under load */
  startV: number;
  /** inverters stop, under load */
  cutoffV: number;
}

/** Nominal, and under load near empty, of a cell [V]. Common practice, from memory; its maker's figures go before. */
const LITHIUM = { nominal: 3.2, start: 3.0, cutoff: 2.8 };
const LEAD = { nominal: 2, start: 1.95, cutoff: 1.85 };

/**
 * The only voltages that say something about charge: near empty and under load.
 * @param busV nominal voltage of the bus [V]; @param isLead lead-acid, else lithium iron phosphate
 */
export function emptyVoltages(busV: number, isLead: boolean): EmptyVoltages {
  const cell = isLead ? LEAD : LITHIUM;
  const cells = Math.max(1, Math.round(busV / cell.nominal));
  return { cells, startV: cells * cell.start, cutoffV: cells * cell.cutoff };
}
