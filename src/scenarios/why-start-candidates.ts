import type { StartCause } from '../sim/causes.ts';
import type { SiteChanges } from './apply-changes.ts';
import { typicalCooler, typicalHeater } from './climate-sizes.ts';
import type { Site } from './site-schema.ts';
import type { AlternativeResult } from './study.ts';
import type { StartState } from './why-start-state.ts';

/** A kind of change of which more and more is tried, in whole units. */
export interface Candidate {
  kind: 'startSoc' | 'modules' | 'kWp' | 'peakKw' | 'ratedKva' | 'heater' | 'cooler' | 'notAlways';
  /** most units tried */
  most: number;
  /** the value that a reader knows it by, with so many units */
  valueAt: (units: number) => number;
  changes: (units: number) => SiteChanges;
}

/** Changes that may avoid a start of a cause; none where nothing of the site's sizes would. */
export function candidatesFor(
  site: Site,
  result: AlternativeResult,
  cause: StartCause,
  { thresholds }: StartState,
): Candidate[] {
  // what a calendar sets is not the value that holds otherwise, and is not tried
  const own = !thresholds.byCalendar;
  const all: (Candidate | null)[] =
    cause === 'charge'
      ? [
          own ? lowerStart(site) : null,
          moreModules(site),
          moreArray(site),
          withClimate('heater', site, result),
        ]
      : cause === 'hand'
        ? [lowerStart(site, 'hand'), moreModules(site), moreArray(site), withClimate('heater', site, result)]
        : cause === 'peak'
          ? [
              own ? higherPeak(site) : null,
              largerInverters(site),
              moreModules(site),
              withClimate('cooler', site, result),
            ]
          : cause === 'continuous'
            ? [notAlways]
            : [];
  return all.filter((candidate) => candidate !== null && candidate.most > 0) as Candidate[];
}

/** A heater or cooler of a typical size for a cabinet that has none. */
function withClimate(kind: 'heater' | 'cooler', site: Site, result: AlternativeResult): Candidate | null {
  if (!site.cabinet || site.cabinet[kind]) return null;
  const made = kind === 'heater' ? typicalHeater(site, result) : typicalCooler(site, result);
  if (made === null) return null;
  const changes = { [`cabinet.${kind}`]: made };
  return { kind, most: 1, valueAt: (units) => units * made.ratedW, changes: () => changes };
}

/** A hundredth of the battery at a time, to just above the cut-off. */
function lowerStart({ control, battery }: Site, rule: 'charge' | 'hand' = 'charge'): Candidate | null {
  const startSoc = control[rule]?.startSoc;
  if (startSoc === undefined || !battery) return null;
  const valueAt = (units: number) => rounded(startSoc - units * 0.01);
  return {
    kind: 'startSoc',
    most: Math.ceil((startSoc - battery.cutoffSoc) / 0.01 - 1e-9) - 1,
    valueAt,
    changes: (units) => ({ [`control.${rule}.startSoc`]: valueAt(units) }),
  };
}

/** A module at a time, up to twice the bank; the mass in the cabinet grows with them, its walls do not. */
function moreModules({ battery, cabinet }: Site): Candidate | null {
  if (!battery) return null;
  const valueAt = (units: number) => battery.modules + units;
  return {
    kind: 'modules',
    most: Math.max(4, battery.modules),
    valueAt,
    changes: (units) => ({
      'battery.modules': valueAt(units),
      ...(cabinet && {
        'cabinet.batteryKjPerK': rounded((cabinet.batteryKjPerK * valueAt(units)) / battery.modules),
      }),
    }),
  };
}

/** All arrays in the same proportion, their controllers and inverters with them, up to twice the rating. */
function moreArray({ arrays }: Site): Candidate | null {
  const whole = rounded(arrays.reduce((sum, { kWp }) => sum + kWp, 0));
  if (whole <= 0) return null;
  const unit = whole >= 10 ? 1 : whole >= 2 ? 0.5 : 0.1;
  const valueAt = (units: number) => rounded(whole + units * unit);
  return {
    kind: 'kWp',
    most: Math.ceil(whole / unit - 1e-9),
    valueAt,
    changes: (units) => {
      const factor = valueAt(units) / whole;
      const changes: SiteChanges = {};
      for (const [i, array] of arrays.entries())
        for (const key of ['kWp', 'controllerA', 'inverterKw'] as const)
          if (array[key] !== undefined) changes[`arrays.${i}.${key}`] = rounded(array[key] * factor);
      return changes;
    },
  };
}

/** A tenth of a kilowatt at a time, up to what a cool inverter carries. */
function higherPeak({ control, inverter }: Site): Candidate | null {
  const startKw = control.peak?.startKw;
  if (startKw === undefined || startKw === null) return null;
  const valueAt = (units: number) => rounded(startKw + units * 0.1);
  return {
    kind: 'peakKw',
    most: Math.floor((inverter.ratedKva * inverter.powerFactor - startKw) / 0.1 + 1e-9),
    valueAt,
    changes: (units) => ({ 'control.peak.startKw': valueAt(units) }),
  };
}

/** Half a kVA (a whole one from 10) at a time, up to twice the rating; idle draw and start threshold rise with it. */
function largerInverters({ inverter, control }: Site): Candidate {
  const { ratedKva, idleW } = inverter;
  const unit = ratedKva >= 10 ? 1 : 0.5;
  const startKw = control.peak?.startKw ?? null;
  const valueAt = (units: number) => rounded(ratedKva + units * unit);
  return {
    kind: 'ratedKva',
    most: Math.ceil(ratedKva / unit - 1e-9),
    valueAt,
    changes: (units) => {
      const factor = valueAt(units) / ratedKva;
      return {
        'inverter.ratedKva': valueAt(units),
        'inverter.idleW': rounded(idleW * factor),
        ...(startKw !== null && { 'control.peak.startKw': rounded(startKw * factor) }),
      };
    },
  };
}

const notAlways: Candidate = {
  kind: 'notAlways',
  most: 1,
  valueAt: (units) => units,
  changes: () => ({ 'control.continuous': false }),
};

/** What a person would write into a site file. */
function rounded(value: number): number {
  return Number(value.toFixed(4));
}
