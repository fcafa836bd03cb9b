import type { ThresholdSet } from '../../src/sim/controls.ts';
import type { Site } from './site.ts';

/** The thresholds that hold in this step (section 0). */
export function thresholdsNow({ controls, inputs, step }: Site): ThresholdSet {
  const number = inputs.thresholdSet?.[step] ?? 0;
  if (number > 0 && controls.sets) return controls.sets[number - 1];
  return {
    startSoc: controls.charge?.startSoc ?? 0,
    stopSoc: controls.charge?.stopSoc ?? 0,
    urgentSoc: controls.urgentSoc,
    peakStartKw: controls.peak?.startKw ?? 0,
    peakStopKw: controls.peak?.stopKw ?? 0,
  };
}
