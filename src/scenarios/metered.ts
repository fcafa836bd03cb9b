import type { Quantity } from './series.ts';

/** How an interval is known: counted by the meter, estimated or substituted, or spread from a register's rise. */
export const MEASURED = 0;
export const ESTIMATED = 1;
export const SPREAD = 2;

/** Metered intervals in a row, each as long as the other. */
export interface MeteredBlock {
  /** start of the first interval [s since 1970 UTC], a whole minute */
  startS: number;
  /** length of each interval [s], whole minutes */
  durationS: number;
  /** energy of each interval [kWh]; NaN where the source has none */
  kwh: Float64Array;
  /** MEASURED, ESTIMATED or SPREAD of each interval; null when all are measured */
  marks: Uint8Array | null;
  /** where the block begins in the file */
  line?: number;
  /** when the source last changed it, as a number that grows; 0 when it does not say */
  version: number;
}

/** The intervals of one register (channel) of a meter. */
export interface Register {
  name: string;
  quantity: Extract<Quantity, 'loadKw' | 'generationKw'>;
  blocks: MeteredBlock[];
}
