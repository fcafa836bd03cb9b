import type { AlternativeResult, Study } from '../scenarios/study.ts';
import type { StartCause } from '../sim/causes.ts';
import type { GeneratorRun } from '../sim/ledger.ts';
import { hasArray, hasBattery, startCount } from './facts.ts';
import { busiestHours } from './hour-of-day.ts';
import { alone, digits } from './numbers.ts';
import { rowOf, shownText } from './shown.ts';
import { localMs, type StudyView } from './view.ts';
import { capital, counted, quoted } from './words.ts';

/** Generator energy that the sun would have given soon after is worth telling above this share of it. */
const WORTH_TELLING = 0.03;

/**
 * Why the generator of an alternative starts, counted from what happened in the run. What would have avoided single
 * starts is found by running again: see why-start.ts.
 */
export function whyAndWhatThen(view: StudyView, result: AlternativeResult): string[] {
  const { runs } = result.ledger;
  if (result.plant.generator === null) return [];
  if (runs.length === 0) return ['It never starts: no cause arose in the time simulated.'];
  return [
    ...aboutCharge(
      view,
      result,
      runs.filter(({ cause }) => cause === 'charge'),
    ),
    ...aboutPeak(
      view,
      result,
      runs.filter(({ cause }) => cause === 'peak'),
    ),
    ...aboutContinuous(runs),
    ...aboutLowLoad(result),
    ...aboutFrost(result),
    ...aboutTank(runs),
    ...aboutAlternatives(view.study, result),
  ];
}

function aboutCharge(view: StudyView, result: AlternativeResult, runs: readonly GeneratorRun[]): string[] {
  const rule = result.controls.charge;
  if (runs.length === 0 || rule === null) return [];
  const when = startHours(view, runs);
  const sentences = [
    `${counted(digits(runs.length), 'start')} with the battery low (at or below ${alone('share', rule.startSoc)})${when}.`,
  ];
  const early = sunSoonAfter(result, 'charge');
  const kwh = runs.reduce((sum, run) => sum + run.kwh, 0);
  if (early.kwh > WORTH_TELLING * kwh)
    sentences.push(
      `After ${early.runs === runs.length ? 'each' : digits(early.runs)} of these ${counted(digits(runs.length), 'run')} the array was turned away within a day, before the next start: up to ${alone('kwh', early.kwh)} of the ${alone('kwh', kwh)} that the generator gave in them could have come from the sun. Stopping below ${alone('share', rule.stopSoc)} would leave it room.`,
    );
  return sentences;
}

/**
 * For each run, the array energy turned away in the day after it (and before the next run), at most what the run
 * itself gave: an upper bound for what an earlier stop saves.
 */
export function sunSoonAfter(result: AlternativeResult, cause: StartCause): { runs: number; kwh: number } {
  const { curtailedKw } = result.columns;
  const { stepMin, count, runs } = result.ledger;
  const stepOf = (hours: number) => Math.min(count, Math.ceil((hours * 60) / stepMin - 1e-9));
  const early = { runs: 0, kwh: 0 };
  for (const [i, run] of runs.entries()) {
    if (run.cause !== cause) continue;
    const to = stepOf(Math.min(run.endH + 24, runs[i + 1]?.startH ?? Number.POSITIVE_INFINITY));
    let turnedAway = 0;
    for (let step = stepOf(run.endH); step < to; step++) turnedAway += curtailedKw[step];
    const kwh = Math.min(run.kwh, (turnedAway * stepMin) / 60);
    if (kwh > 0.01 * run.kwh) early.runs++;
    early.kwh += kwh;
  }
  return early;
}

function aboutPeak(view: StudyView, result: AlternativeResult, runs: readonly GeneratorRun[]): string[] {
  if (runs.length === 0) return [];
  const low = result.controls.charge?.startSoc ?? 0;
  const full = runs.filter(({ socStart }) => socStart > low).length;
  const enough =
    hasBattery(result) && full > 0
      ? `; at ${full === runs.length ? 'all' : digits(full)} of them the battery was not low`
      : '';
  return [
    `${capital(counted(startCount(view.study, result, runs.length), 'start'))} on a high load${startHours(view, runs)}${enough}.`,
  ];
}

/** Where at least half of the starts lie in three hours of the day. */
function startHours(view: StudyView, runs: readonly GeneratorRun[]): string {
  if (runs.length < 4) return '';
  const byHour = new Array<number>(24).fill(0);
  for (const { startH } of runs) byHour[new Date(localMs(view, startH)).getUTCHours()]++;
  const { fromHour, toHour, sum } = busiestHours(byHour);
  const clock = (hour: number) => `${String(hour).padStart(2, '0')}:00`;
  if (sum * 2 < runs.length) return ', at all hours';
  const share = sum === runs.length ? 'all' : digits(sum);
  return `, ${share} of them between ${clock(fromHour)} and ${clock(toHour)}`;
}

function aboutContinuous(runs: readonly GeneratorRun[]): string[] {
  return runs.some(({ cause }) => cause === 'continuous')
    ? [
        'It is set to run always. A start threshold would let it stand whenever battery or array carry the load.',
      ]
    : [];
}

function aboutLowLoad(result: AlternativeResult): string[] {
  const { lowLoadH, runH } = result.ledger.totals;
  if (lowLoadH < 0.2 * runH) return [];
  return [
    `${alone('share', lowLoadH / runH)} of its time it runs below 30 % of its rating, which diesel engines do not like for long: a smaller set, or fewer and fuller charges, would load it better.`,
  ];
}

function aboutFrost(result: AlternativeResult): string[] {
  const { frostKwh, loadKwh } = result.ledger.totals;
  if (!hasArray(result) || !hasBattery(result) || frostKwh < 0.005 * loadKwh) return [];
  return [
    `${alone('kwh', frostKwh)} of array output was refused because the battery’s cells were too cold or too hot to charge.`,
  ];
}

function aboutTank(runs: readonly GeneratorRun[]): string[] {
  const dry = runs.filter(({ ranDry }) => ranDry).length;
  return dry === 0
    ? []
    : [
        `The tank ran dry ${counted(digits(dry), 'time')} with the engine running: a larger tank or an earlier delivery would prevent it.`,
      ];
}

function aboutAlternatives(study: Study, result: AlternativeResult): string[] {
  const row = rowOf(study, 'runH');
  const [best] = row?.best ?? [];
  if (
    best === undefined ||
    study.alternatives[best] === result ||
    row?.best.includes(study.alternatives.indexOf(result))
  )
    return [];
  const other = study.alternatives[best];
  return [
    `Of the alternatives on this page ${quoted(other.name)} runs it least: ${shownText(study, other, 'runH')} instead of ${shownText(study, result, 'runH')}.`,
  ];
}
