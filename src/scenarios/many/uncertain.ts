import { valueOfPath } from '../apply-changes.ts';
import type { Site } from '../site-schema.ts';

/** Whole groups that are multiplied instead of a value that is replaced. */
const FACTOR_PATHS = ['load', 'arrays', 'generator.fuel'] as const;

export type FactorPath = (typeof FACTOR_PATHS)[number];

/** A value of the site between two ends. */
export interface Uncertain {
  path: string;
  low: number;
  high: number;
  /** as filed; 1 for what is multiplied; null where the site leaves the value out */
  filed: number | null;
  name: string | null;
}

export function isFactor(path: string): path is FactorPath {
  return (FACTOR_PATHS as readonly string[]).includes(path);
}

/** What is uncertain about a site: as it states, else usual ranges of what it has. */
export function uncertainOf(site: Site): Uncertain[] {
  const listed = site.uncertain ?? usualUncertain(site);
  return listed.map(({ path, low, high, name }) => {
    const value = isFactor(path) ? 1 : valueOfPath(site, path);
    return { path, low, high, filed: typeof value === 'number' ? value : null, name: name ?? null };
  });
}

type Listed = NonNullable<Site['uncertain']>;

/** Ranges of our own, wide enough that few designs are surprised by more; the site file may state better ones. */
function usualUncertain(site: Site): Listed {
  const { money, horizon, battery, inverter } = site;
  const listed: Listed = [{ path: 'load', low: 0.85, high: 1.2 }];
  const around = (path: string, value: number, less: number, more: number) => {
    if (value > 0) listed.push({ path, low: value * less, high: value * more });
  };
  const shifted = (path: string, value: number, less: number, more: number, least: number) =>
    listed.push({ path, low: Math.max(least, value - less), high: value + more });
  shifted('horizon.loadGrowth', horizon.loadGrowth, 0.01, 0.02, -0.2);
  if (site.arrays.length + site.sources.length > 0) listed.push({ path: 'arrays', low: 0.9, high: 1.05 });
  if (site.generator) {
    listed.push({ path: 'generator.fuel', low: 0.95, high: 1.1 });
    around('money.fuelPerL', money.fuelPerL, 0.75, 2);
    shifted('money.fuelEscalation', money.fuelEscalation, 0.01, 0.03, -0.2);
    around('money.serviceCost', money.serviceCost, 0.7, 1.5);
    around('money.overhaulCost', money.overhaulCost, 0.7, 1.5);
  }
  if (battery) {
    around('money.batteryPerModule', money.batteryPerModule, 0.6, 1.3);
    if (money.batteryYears !== null) around('money.batteryYears', money.batteryYears, 0.7, 1.3);
    else if (battery.wear) around('battery.wear.fadeFirstYear', battery.wear.fadeFirstYear, 0.6, 1.6);
  }
  around('money.unservedPerKwh', money.unservedPerKwh, 0.5, 2);
  around('money.visitCost', money.visitCost, 0.7, 1.5);
  around('inverter.idleW', inverter.idleW, 0.7, 1.5);
  shifted('money.discountRate', money.discountRate, 0.03, 0.03, 0);
  around('money.capital', money.capital, 0.9, 1.2);
  return listed.filter(({ low, high }) => low < high);
}
