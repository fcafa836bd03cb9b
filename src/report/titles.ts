import type { AlternativeResult } from '../scenarios/study.ts';
import { hasArray, startCount } from './facts.ts';
import { busiestHours, type HourOfDay } from './hour-of-day.ts';
import { type MonthRow, wholeOf } from './months.ts';
import { alone, digits, duration } from './numbers.ts';
import { dayMonth, daySpan, hoursOfStep, localMs, type StudyView, timeOfDay } from './view.ts';
import { counted, listed } from './words.ts';

/** What the drawings of one alternative show, as findings with their numbers. */

const SOC_WORTH_TELLING = 0.4;

/** @param fromStep @param toStep the span drawn, end not included */
export function darkWeekTitle(view: StudyView, result: AlternativeResult): string {
  const week = result.darkWeek;
  if (week === null) return 'The whole run, which is shorter than a week';
  const span = daySpan(
    localMs(view, hoursOfStep(view, week.fromStep)),
    localMs(view, hoursOfStep(view, week.toStep) - 0.01),
  );
  const runs = runsWithin(result, hoursOfStep(view, week.fromStep), hoursOfStep(view, week.toStep));
  const parts = [`the load takes ${alone('kwh', week.loadKwh)}`];
  if (hasArray(result)) parts.push(`the array has ${alone('kwh', week.arrayKwh)} to give`);
  if (result.plant.generator)
    parts.push(
      runs === 0
        ? 'the generator does not run'
        : `the generator adds ${alone('kwh', week.generatorKwh)} in ${counted(digits(runs), 'run')}`,
    );
  const unserved =
    week.unservedKwh > 1e-6 ? `; ${alone('kwh', week.unservedKwh)} goes unserved` : '; all load is served';
  return `${span}: ${listed(parts)}${unserved}`;
}

function runsWithin(result: AlternativeResult, fromH: number, toH: number): number {
  return result.ledger.runs.filter(({ startH, endH }) => endH > fromH && startH < toH).length;
}

export function yearRunsTitle(
  view: StudyView,
  result: AlternativeResult,
  months: readonly MonthRow[],
): string {
  const { runH, starts } = result.ledger.totals;
  if (starts === 0) return 'The generator never runs';
  const all = `The generator runs ${alone('hours', runH)} in ${counted(startCount(view.study, result, starts), 'start')}`;
  const most = greatest(months, (row) => row.runH);
  const when = most && most.runH > 0 ? `, most in ${most.name} (${alone('hours', most.runH)})` : '';
  const quiet = longestQuiet(result);
  const still =
    quiet.hours >= 48
      ? `; longest standstill ${duration(quiet.hours)}, from ${dayMonth(localMs(view, quiet.fromH))}`
      : '';
  return `${all}${when}${still}`;
}

/** Of a site without a generator. */
export function yearOutagesTitle(view: StudyView, result: AlternativeResult): string {
  const { outages, totals } = result.ledger;
  const longest = greatest(outages, ({ startH, endH }) => endH - startH);
  if (!longest) return 'All load is served';
  const when = dayMonth(localMs(view, longest.startH));
  return `Load goes unserved for ${duration(totals.unservedH)} in ${counted(digits(outages.length), 'interruption')}; the longest, ${duration(longest.endH - longest.startH)}, from ${when}`;
}

/** The longest time without the engine running, the ends of the run counting as ends of it. */
export function longestQuiet(result: AlternativeResult): { fromH: number; hours: number } {
  const endH = (result.ledger.count * result.ledger.stepMin) / 60;
  let best = { fromH: 0, hours: 0 };
  let from = 0;
  for (const run of [...result.ledger.runs, { startH: endH, endH }]) {
    if (run.startH - from > best.hours) best = { fromH: from, hours: run.startH - from };
    from = run.endH;
  }
  return best;
}

export function yearSocTitle(view: StudyView, result: AlternativeResult): string {
  const { socFrac } = result.columns;
  let low = 0;
  let lowest = 0;
  for (let step = 0; step < socFrac.length; step++) {
    if (socFrac[step] < SOC_WORTH_TELLING) low++;
    if (socFrac[step] < socFrac[lowest]) lowest = step;
  }
  const ms = localMs(view, hoursOfStep(view, lowest + 1));
  const least = `lowest, at ${alone('share', socFrac[lowest])}, on ${dayMonth(ms)} at ${timeOfDay(ms)}`;
  if (low === 0) return `The battery is never below 40 %; it is ${least}`;
  return `The battery is below 40 % for ${alone('hours', hoursOfStep(view, low))}; it is ${least}`;
}

/** @param rows hours of the day by cause, as drawn */
export function hoursOfDayTitle(result: AlternativeResult, rows: readonly HourOfDay[]): string {
  const totals = Array.from({ length: 24 }, (_, hour) =>
    rows.filter((row) => row.hour === hour).reduce((sum, row) => sum + row.runH, 0),
  );
  const whole = totals.reduce((sum, hours) => sum + hours, 0);
  const { fromHour, toHour, sum } = busiestHours(totals);
  const clock = (hour: number) => `${String(hour).padStart(2, '0')}:00`;
  const most = `${alone('share', sum / whole)} of the run hours lie between ${clock(fromHour)} and ${clock(toHour)}`;
  if (!result.inputs.night?.includes(1)) return most;
  const { nightH } = result.ledger.totals;
  return `${most}; ${nightH > 0 ? alone('hours', nightH) : 'none'} of ${alone('hours', whole)} at night`;
}

export function loadingTitle(result: AlternativeResult): string {
  const { generatorKwh, onLoadH, lowLoadH, runH } = result.ledger.totals;
  const ratedKw = result.plant.generator?.ratedKw ?? 1;
  const mean = onLoadH > 0 ? generatorKwh / onLoadH / ratedKw : 0;
  const low = lowLoadH > 0 ? `${alone('hours', lowLoadH)} of ${alone('hours', runH)}` : 'never';
  return `On load it gives ${alone('share', mean)} of its ${digits(ratedKw, ratedKw % 1 === 0 ? 0 : 1)} kW on average; ${low} below 30 %, warm-up and cool-down counted`;
}

export function monthsEnergyTitle(result: AlternativeResult, rows: readonly MonthRow[]): string {
  const share = (row: Omit<MonthRow, 'name' | 'short'>) => row.arrayKwh / (row.arrayKwh + row.generatorKwh);
  const supplied = rows.filter((row) => row.arrayKwh + row.generatorKwh > 0);
  if (!hasArray(result) || supplied.length === 0)
    return result.plant.generator
      ? 'All energy comes from the generator'
      : 'There is neither array nor generator to supply the load';
  if (!result.plant.generator) return 'All energy comes from the array';
  const best = greatest(supplied, share) as MonthRow;
  const worst = greatest(supplied, (row) => -share(row)) as MonthRow;
  const range =
    alone('share', share(best)) === alone('share', share(worst))
      ? ''
      : `: ${alone('share', share(best))} in ${best.name}, ${alone('share', share(worst))} in ${worst.name}`;
  return `The array gives ${alone('share', share(wholeOf(rows)))} of the energy${range}`;
}

export function monthsFuelTitle(rows: readonly MonthRow[]): string {
  const whole = wholeOf(rows);
  const most = greatest(rows, (row) => row.fuelL);
  if (!most || whole.fuelL === 0) return 'No fuel is burnt';
  const none = rows.filter((row) => row.fuelL === 0).length;
  const without = none > 0 ? `; none in ${counted(digits(none), 'month')}` : '';
  return `${most.name} takes ${alone('litres', most.fuelL)} of the ${alone('litres', whole.fuelL)}${without}`;
}

function greatest<Row>(rows: readonly Row[], of: (row: Row) => number): Row | undefined {
  return rows.reduce<Row | undefined>(
    (best, row) => (best === undefined || of(row) > of(best) ? row : best),
    undefined,
  );
}
