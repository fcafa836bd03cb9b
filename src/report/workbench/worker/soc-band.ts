import type { Site } from '../../../scenarios/site-schema.ts';
import type { AlternativeResult } from '../../../scenarios/study.ts';
import { perPixel } from '../../charts/per-pixel.ts';
import type { LeverFacts, SocBand } from '../messages.ts';

/**
 * State of charge through the period, its lowest and highest of each day; of several days where they would be
 * narrower than a pixel. null without a battery.
 */
export function socBand({ plant, columns, inputs }: AlternativeResult, width: number): SocBand | null {
  if (!plant.battery) return null;
  const days = Math.ceil((inputs.count * inputs.stepMin) / 1440);
  const { lowest, highest } = perPixel(columns.socFrac, 0, columns.socFrac.length, bands(days, width));
  return { lowest: Float32Array.from(lowest), highest: Float32Array.from(highest) };
}

function bands(days: number, width: number): number {
  const perBand = Math.max(1, Math.ceil(days / width));
  // a few days are looked at hour by hour
  return days < 32 ? days * 24 : Math.ceil(days / perBand);
}

/** Where the levers stand in a site. */
export function leverFacts({ control, battery, arrays, generator, money }: Site): LeverFacts {
  const { charge } = control;
  return {
    startSoc: charge?.startSoc ?? null,
    stopSoc: charge?.stopSoc ?? null,
    urgentSoc: control.urgentSoc ?? null,
    cutoffSoc: battery?.cutoffSoc ?? null,
    modules: battery?.modules ?? null,
    arrays: arrays.map(({ name, kWp }) => ({ name, kWp })),
    ratedKw: generator?.ratedKw ?? null,
    fuel: generator?.fuel ?? [],
    fuelPerL: money.fuelPerL,
  };
}
