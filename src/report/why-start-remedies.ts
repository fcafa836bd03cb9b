import type { AlternativeResult } from '../scenarios/study.ts';
import type { StartStory } from '../scenarios/why-start.ts';
import type { Remedy } from '../scenarios/why-start-remedies.ts';
import type { StartCause } from '../sim/causes.ts';
import { spanWords } from './facts.ts';
import { alone, asEntered, digits, duration } from './numbers.ts';
import { localMs, type StudyView, timeOfDay } from './view.ts';
import { dayAndTime } from './why-start.ts';
import { capital, counted, listed, STARTED_BECAUSE } from './words.ts';

const UNITS: Partial<Record<Remedy['kind'], string>> = {
  kWp: ' kWp',
  peakKw: ' kW',
  ratedKva: ' kVA',
  heater: ' W',
  cooler: ' W',
};

/** Less unserved energy than this is rounding [kWh]. */
const NOTHING_KWH = 1e-6;

/** What would have avoided a start, what only moves it, and what does not help; found by running again. */
export function remedySentences(view: StudyView, result: AlternativeResult, story: StartStory): string[] {
  const { remedies } = story;
  const { cause } = result.ledger.runs[story.run];
  if (remedies.length === 0)
    return [`No other size or threshold was tried: it started because ${STARTED_BECAUSE[cause]}.`];
  const of = (outcome: Remedy['outcome']) => remedies.filter((remedy) => remedy.outcome === outcome);
  const no = of('stays');
  const [gone, moved] = [of('gone'), of('moved')];
  const sentences = [
    ...gone.map((remedy) => goneSentence(view, result, remedy)),
    ...moved.map((remedy) => movedSentence(view, result, remedy)),
  ];
  if (no.length === 0) return sentences;
  const list = no.map((remedy) => mostWords(view, remedy, cause));
  return [
    ...sentences,
    sentences.length > 0
      ? `Not avoided by ${listed(list)}, the most that was tried.`
      : `Nothing that was tried avoids it: neither ${list.join(' nor ')}.`,
  ];
}

function goneSentence(view: StudyView, result: AlternativeResult, remedy: Remedy): string {
  return `${capital(changeOf(view, remedy))} would have avoided it${oneLess(remedy)}${thenWords(result, remedy)}.`;
}

function movedSentence(view: StudyView, result: AlternativeResult, remedy: Remedy): string {
  const where =
    remedy.movedToH === null
      ? 'as many starts would be left in the days around it'
      : `it would come on ${dayAndTime(view, remedy.movedToH)}`;
  return `${capital(changeOf(view, remedy))} would only move it${oneLess(remedy)}: ${where}${thenWords(result, remedy)}.`;
}

/** That one unit less is not enough, where there is one: it was tried. */
function oneLess({ kind, from, to, unit }: Remedy): string {
  const less = Number((to > from ? to - unit : to + unit).toFixed(4));
  if (Math.abs(less - from) < unit / 2 || kind === 'notAlways') return '';
  return ` (${valueWords(kind, less)} would not)`;
}

/** What the whole period comes to, and what the change costs in unserved load. */
function thenWords({ ledger }: AlternativeResult, { whole }: Remedy): string {
  if (whole === null) return '';
  const { starts, fuelL, unservedKwh } = ledger.totals;
  const span = spanWords(ledger) === 'a year' ? 'the year' : 'the whole time';
  const sum = `; ${span} then has ${counted(digits(whole.starts), 'start')} and ${alone('litres', whole.fuelL)} instead of ${digits(starts)} and ${alone('litres', fuelL)}`;
  if (whole.unservedKwh <= unservedKwh + NOTHING_KWH) return sum;
  const before = unservedKwh < NOTHING_KWH ? 'none' : alone('kwh', unservedKwh);
  return `${sum}, but ${alone('kwh', whole.unservedKwh)} of load goes unserved instead of ${before}`;
}

/** "15 battery modules instead of 12" */
function changeOf(view: StudyView, remedy: Remedy): string {
  const { kind, from, to } = remedy;
  if (kind === 'block') return blockWords(view, remedy);
  if (kind === 'notAlways') return 'not running always';
  if (kind === 'heater' || kind === 'cooler') return nounOf(kind, valueWords(kind, to));
  return `${nounOf(kind, valueWords(kind, to))} instead of ${valueWords(kind, from)}`;
}

/** What did not help, and why it starts then if not for the same cause. */
function mostWords(view: StudyView, remedy: Remedy, cause: StartCause): string {
  const { kind, to, causeThen } = remedy;
  const then = causeThen === null || causeThen === cause ? '' : ` (it then starts by ${causeThen})`;
  if (kind === 'block') return blockWords(view, remedy) + then;
  if (kind === 'notAlways') return `not running always${then}`;
  return nounOf(kind, valueWords(kind, to)) + then;
}

function nounOf(kind: Remedy['kind'], value: string): string {
  const nouns: Partial<Record<Remedy['kind'], string>> = {
    startSoc: `a start at ${value}`,
    modules: `${value} battery modules`,
    kWp: `${value} of array`,
    peakKw: `a peak start at ${value} per phase`,
    heater: `a cabinet heater of ${value}`,
    cooler: `a cabinet cooler of ${value}`,
    ratedKva: `inverters of ${value} per phase`,
  };
  return nouns[kind] ?? value;
}

function valueWords(kind: Remedy['kind'], value: number): string {
  if (kind === 'startSoc' || kind === 'block') return `${asEntered(value * 100)} %`;
  return asEntered(value) + (UNITS[kind] ?? '');
}

/** "15 % of the load from 20:25 to 08:25 (3.9 kWh) used 12 h later" */
function blockWords(view: StudyView, { to, block }: Remedy): string {
  if (block === null) return 'load used at another time';
  const { stepMin } = view.study.axis;
  const hours = (steps: number) => (steps * stepMin) / 60;
  const at = (step: number) => timeOfDay(localMs(view, hours(step)));
  const all = view.study.alternatives[0].plant.phases === block.phases.length;
  const phases = all
    ? ''
    : ` on ${block.phases.length > 1 ? 'phases' : 'phase'} ${listed(block.phases.map((k) => String(k + 1)))}`;
  return `${valueWords('block', to)} of the load${phases} from ${at(block.fromStep)} to ${at(block.toStep)} (${alone('kwh', block.kwh)}) used ${duration(hours(block.intoStep - block.fromStep))} later`;
}

/** What is changed together with each value that is tried; to stand once beside the stories. */
export const REMEDY_NOTE =
  'Each change is tried by itself, by simulating the whole time again with it. Modules bring their mass into the cabinet; array grows in proportion on all roofs, with its controllers; larger inverters draw more when idle, and the threshold rises with them; a heater or cooler that is not there gets a typical size; load is moved on that day only. A start counts as the same within six hours, or half way to the next run; it is avoided where it is gone and the days around it have fewer starts, else it only moves.';
