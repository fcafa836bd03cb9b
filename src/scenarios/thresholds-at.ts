import type { Controls } from '../sim/controls.ts';
import type { Inputs } from '../sim/inputs.ts';

/** Thresholds in force in one step; null where there is no such rule. */
export interface Thresholds {
  startSoc: number | null;
  stopSoc: number | null;
  urgentSoc: number;
  /** per phase [kW] */
  peakStartKw: number | null;
  /** they are those of a calendar, not those that hold otherwise */
  byCalendar: boolean;
}

/** The thresholds of a step, which a calendar may have changed. */
export function thresholdsAt(
  { charge, peak, urgentSoc, sets }: Controls,
  inputs: Inputs,
  step: number,
): Thresholds {
  const set = sets?.[(inputs.thresholdSet?.[step] ?? 0) - 1];
  return {
    startSoc: charge && (set ?? charge).startSoc,
    stopSoc: charge && (set ?? charge).stopSoc,
    urgentSoc: set?.urgentSoc ?? urgentSoc,
    peakStartKw: peak && (set?.peakStartKw ?? peak.startKw),
    byCalendar: set !== undefined,
  };
}
