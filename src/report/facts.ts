import type { AlternativeResult, Study } from '../scenarios/study.ts';
import type { Ledger } from '../sim/ledger.ts';
import { digits } from './numbers.ts';
import { counted } from './words.ts';

/** Loads measured at more than this are too coarse to see the peaks that start a generator [min]. */
const COARSE_LOAD_MIN = 15;

/**
 * Step of the coarsest load data, where peaks shorter than it cannot be seen.
 * @returns [min], more than 15; null where the data are fine enough or no alternative starts on a peak
 */
export function peaksUnderstatedMin(study: Study): number | null {
  if (!study.alternatives.some((result) => result.controls.peak !== null && hasGenerator(result)))
    return null;
  const loadSheets = study.sheets.filter((sheet) =>
    sheet.series.some(({ quantity }) => quantity === 'loadKw'),
  );
  const coarsest = Math.max(study.axis.stepMin, ...loadSheets.map((sheet) => sheet.axis.stepMin));
  return coarsest > COARSE_LOAD_MIN ? coarsest : null;
}

/**
 * Counted starts with the word that honesty needs: "at least 15" where starts on a peak are among them and the load
 * data are too coarse to show every peak.
 */
export function startCount(study: Study, result: AlternativeResult, starts: number): string {
  const number = digits(starts);
  return result.controls.peak !== null && peaksUnderstatedMin(study) !== null ? `at least ${number}` : number;
}

export function hasGenerator(result: AlternativeResult): boolean {
  return result.plant.generator !== null;
}

export function hasBattery(result: AlternativeResult): boolean {
  return result.plant.battery !== null;
}

export function hasArray(result: AlternativeResult): boolean {
  const { dcPotentialKwh, acPotentialKwh } = result.ledger.totals;
  return dcPotentialKwh + acPotentialKwh > 0;
}

/** True when anything was priced: a study without prices says nothing about money. */
export function hasMoney(study: Study): boolean {
  return study.alternatives.some(({ money }) => money.lifeCycleCost !== 0 || money.runningFirstYear !== 0);
}

function spanDays(ledger: Ledger): number {
  return (ledger.count * ledger.stepMin) / (24 * 60);
}

function isOneYear(ledger: Ledger): boolean {
  const days = spanDays(ledger);
  return days >= 364 && days <= 367;
}

/** The time that totals stand for, after a figure: "a year", "in 14 days", "in 20 years". */
export function spanWords(ledger: Ledger): string {
  return isOneYear(ledger) ? 'a year' : `in ${spanLength(ledger)}`;
}

/** The length of the run: "one year", "14 days". */
export function spanLength(ledger: Ledger): string {
  if (isOneYear(ledger)) return 'one year';
  const days = spanDays(ledger);
  if (days > 700) return counted(digits(days / 365.25, 0), 'year');
  if (days < 1) return counted(digits(days * 24, 0), 'hour');
  return counted(digits(days, Number.isInteger(days) ? 0 : 1), 'day');
}

/** Array energy used, DC- and AC-coupled [kWh]. */
export function arrayUsedKwh(totals: Ledger['totals']): number {
  return totals.dcUsedKwh + totals.acUsedKwh;
}
