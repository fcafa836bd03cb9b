import { phaseRatedKw } from '../inverter-losses.ts';
import type { Site } from '../site-schema.ts';
import type { Rule } from './settings.ts';

/** Values worth trying: as a controller can be set, and as a person would set it (common practice). */
export function valuesOf(site: Site, rule: Rule): (number | null)[] {
  const { battery, inverter, generator } = site;
  const carriedKw = phaseRatedKw(inverter);
  switch (rule) {
    case 'startSoc':
      return shares(lowestStart(site), 0.8);
    case 'stopSoc':
      return [...shares((battery?.cutoffSoc ?? 0) + 0.15, 0.98), 1];
    case 'chargeDelayMin':
      return [1, 5, 15, 30, 60, 120];
    case 'chargeTargetKw':
      return [...parts(generator?.ratedKw ?? 0, 0.4, 0.95, 0.05), null];
    case 'peakStartKw':
      return [...parts(carriedKw, 0.4, 1, 0.05), null];
    case 'peakStopKw':
      return parts(carriedKw, 0.2, 0.9, 0.05);
    case 'peakDelayS':
      return [10, 30, 60, 120, 300, 600];
    case 'peakHoldMin':
      return [2, 5, 10, 15, 20, 30, 45, 60];
    case 'minRunMin':
      return [5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240];
  }
}

/** Above the cut-off, and above the urgent state of charge where restricted hours would mean nothing else. */
function lowestStart({ battery, control }: Site): number {
  const urgent = control.restrictedHours.length > 0 ? (control.urgentSoc ?? 0) : 0;
  return Math.max(battery?.cutoffSoc ?? 0, urgent) + 0.02;
}

/** Steps of two percent. */
function shares(from: number, to: number): number[] {
  const first = Math.ceil(from * 50 - 1e-9);
  const last = Math.floor(to * 50 + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) / 50);
}

/** Parts of a rating, to 0.1 kW. */
function parts(ratedKw: number, from: number, to: number, step: number): number[] {
  const count = Math.round((to - from) / step);
  return Array.from({ length: count + 1 }, (_, i) => Math.round(10 * ratedKw * (from + i * step)) / 10);
}
