import type { SiteRank } from '../../scenarios/visit/site-rank.ts';
import { alone, digits, duration, figure } from '../numbers.ts';
import { tellsNothing } from '../visit/answer.ts';
import { causeWords } from '../visit/cause-words.ts';
import { isKnown } from '../visit/estimate-words.ts';
import { faultLines } from '../visit/fault-lines.ts';
import { isMaterial } from '../visit/material.ts';
import type { Measure } from '../visit/measure.ts';
import { comparedMonths } from '../visit/span.ts';
import { capital, counted, small } from '../words.ts';
import { fadedBattery, LISTED_DAYS, type Ranking, URGENT_DAYS, type Visited } from './rank.ts';

/** What to know of all sites together, in a few sentences. */
export function sitesSentences(ranking: Ranking): string[] {
  const { visited, unread, burning, drying, fading } = ranking;
  const asDesigned = visited.filter(
    ({ visit: { comparison } }) => comparison.asDesigned && !tellsNothing(comparison.ran),
  ).length;
  const faulty = visited.filter(({ visit }) => visit.faults.length > 0).length;
  const noLog = unread.filter((site) => site.noLog).length;
  const wrong = unread.length - noLog;
  return [
    `Of ${counted(digits(visited.length), 'site')}${unread.length > 0 ? ' looked at' : ''}, ${does(asDesigned, 'runs', 'run')} as designed and ${does(burning.length, 'burns', 'burn')} more than was promised.`,
    `${capital(things(drying.length, 'tank', 'runs', 'run'))} dry within ${LISTED_DAYS} days, ${things(fading.length, 'battery', 'holds', 'hold', 'batteries')} less than named, and ${things(faulty, 'site', 'has', 'have')} a likely fault.`,
    ...(noLog > 0 ? [`${things(noLog, 'site', 'has', 'have')} no log.`] : []),
    ...(wrong > 0
      ? [
          `${counted(digits(wrong), 'site')} could not be looked at; ${wrong === 1 ? 'it is' : 'they are'} listed with the reason.`,
        ]
      : []),
  ];
}

/** "none runs", "1 runs", "2 run" */
function does(count: number, one: string, many: string): string {
  return count === 0 ? `none ${one}` : `${digits(count)} ${count === 1 ? one : many}`;
}

/** "no tank lasts", "1 tank lasts", "2 tanks last" */
function things(count: number, noun: string, one: string, many: string, plural = `${noun}s`): string {
  if (count === 0) return `no ${noun} ${one}`;
  return `${counted(digits(count), noun, plural)} ${count === 1 ? one : many}`;
}

/** Why a site was not looked at, a sentence each. */
export function unreadReasons({ noLog, problems }: SiteRank): string[] {
  if (noLog) return ['It has no log: nothing tells how it runs.'];
  return problems.length > 0 ? problems : ['no reason was given'];
}

/** How the table of all sites is sorted. */
export const ORDER_WORDS = `Worst first: tanks that last no longer than ${URGENT_DAYS} days; then sites that burn more than promised, whose battery holds less than named, or that have a likely fault; then others that do not run as designed. Within each, what is most above the promise comes first, litres before hours.`;

/** "186 L, 65 L more (53 % more)" */
export function moreWords({ kind, designed, ran, decimals }: Measure): {
  used: string;
  promised: string;
  more: string;
  share: string;
} {
  return {
    used: figure(kind, ran, decimals),
    promised: figure(kind, designed, decimals),
    more: figure(kind, Number(ran.toFixed(decimals)) - Number(designed.toFixed(decimals)), decimals),
    share: designed > 0 ? `${digits(100 * (ran / designed - 1))} %` : '–',
  };
}

/** Why a site stands where it stands, in one sentence. */
export function whyLine(site: Visited): string {
  const { visit } = site;
  const parts = [
    tankPart(site),
    burnPart(site),
    batteryPart(site),
    settingsPart(site),
    faultPart(site),
  ].filter((part) => part !== null);
  if (parts.length > 0) return `${capital(parts.join('; '))}.`;
  if (comparedMonths(visit) <= 0) return 'Nothing in its log can be compared with the design.';
  if (visit.comparison.asDesigned && tellsNothing(visit.comparison.ran))
    return 'Its log has too little to hold against the design.';
  if (visit.comparison.asDesigned) return 'As designed.';
  return site.measure === null
    ? 'Not as designed.'
    : 'Not as designed, but its generator does no more than was promised.';
}

function tankPart({ visit: { tank, parts } }: Visited): string | null {
  if (!parts.generator || tank === null || tank.daysLeft === null || tank.daysLeft > LISTED_DAYS) return null;
  return `the tank lasts ${duration(24 * tank.daysLeft)} at ${alone('litres', tank.litresADay)} a day`;
}

function burnPart({ visit, measure }: Visited): string | null {
  if (measure === null || visit.comparison.asDesigned) return null;
  const { kind, decimals, designed, ran, steps } = measure;
  const over = Number(ran.toFixed(decimals)) - Number(designed.toFixed(decimals));
  if (over <= 0) return null;
  const largest = largestCause(visit, steps);
  const why = largest && largest.step > 0 ? `, mostly ${causeWords(largest.kind, largest.step, visit)}` : '';
  const share = designed > 0 ? ` (+${digits(100 * (ran / designed - 1))} %)` : '';
  return `${figure(kind, over, decimals)} a month above the promise${share}${why}`;
}

/** Settings that are in force, where they are not what raises the generator's work most. */
function settingsPart(site: Visited): string | null {
  const { visit, measure } = site;
  const others = visit.estimates
    .filter(isKnown)
    .filter((known) => (known.key === 'startSoc' || known.key === 'stopSoc') && isMaterial(known));
  const isSaid = burnPart(site) !== null && largestCause(visit, measure?.steps ?? [])?.kind === 'thresholds';
  return others.length === 0 || isSaid ? null : 'other start or stop settings in force than on the sheet';
}

function largestCause({ comparison: { causes } }: Visited['visit'], steps: readonly number[]) {
  return causes.map((cause, i) => ({ kind: cause.kind, step: steps[i] })).sort((a, b) => b.step - a.step)[0];
}

function batteryPart(site: Visited): string | null {
  const known = fadedBattery(site);
  return known && `the battery holds ${digits((100 * known.value) / known.designed)} % of the named`;
}

function faultPart({ visit }: Visited): string | null {
  const [first, ...rest] = visit.faults;
  if (first === undefined) return null;
  const more = rest.length > 0 ? ` and ${counted(digits(rest.length), 'other')}` : '';
  return `likely fault: ${small(faultLines(first, visit).title)}${more}`;
}
