import { FAULT_TERMS, NIGHT_SHARE, TANK_SHARE } from '../../scenarios/visit/faults/fault-terms.ts';
import type { Fault, FaultKind } from '../../scenarios/visit/visit.ts';
import { digits } from '../numbers.ts';
import { counted } from '../words.ts';
import { FAULT_CHECKS } from './fault-checks.ts';

const TITLES: Record<FaultKind, string> = {
  'dead-string': 'an array gives less from one day on, as if a string of it gave nothing',
  'phase-missing': 'a phase carried nothing',
  'weak-charging': 'the generator does not reach its charging power',
  'soc-drift': 'the meter of charge drifts',
  'soc-jump': 'the meter of charge jumps',
  'heater-off': 'the heater does not keep the battery warm',
  'cooler-off': 'the cooler does not keep the cabinet cool',
  'night-load': 'a load does not switch off at night',
  'fuel-loss': 'fuel leaves the tank while the engine stands',
};

/** What may be wrong; begins small, so that a sentence may go on with it. */
export function faultTitle(kind: FaultKind): string {
  return TITLES[kind];
}

/** What speaks for it: a sentence in small letters without a full stop, with what is seen against what is expected. */
export function faultEvidence({ kind, evidence }: Fault): string {
  return EVIDENCE[kind](evidence);
}

/** What to check first, in sentences; where it is work for licensed people, that is said. */
export function faultCheck(kind: FaultKind): string {
  return FAULT_CHECKS[kind];
}

/** From what size and how long on it is found in nine cases of ten: "from 12 % on, with 7 days on either side of it". */
export function faultTermsWords(kind: FaultKind): string {
  const { statedSize, duration } = FAULT_TERMS[kind];
  return TERMS[kind](statedSize, duration);
}

type Told = Fault['evidence'];

const kw = (value: number) => `${digits(value, Math.abs(value) < 10 ? 2 : 1)} kW`;
const percent = (share: number, decimals = 0) => `${digits(100 * share, decimals)} %`;
const celsius = (value: number) => `${digits(value, 1)} °C`;
const litres = (value: number) => `${digits(value, Math.abs(value) < 10 ? 1 : 0)} L`;
const days = (count: number) => counted(digits(count), 'day');
const hours = (count: number) => counted(digits(count, count < 10 ? 1 : 0), 'hour');

const EVIDENCE: Record<FaultKind, (evidence: Told) => string> = {
  'dead-string': ({ shareBefore, shareAfter, stringsLost, strings, days: known }) =>
    `it gave ${percent(shareBefore)} of what the logged sun would give, and since then ${percent(shareAfter)}, on ${days(known)} on which it was not held back` +
    (strings === undefined
      ? ''
      : `; that is what ${digits(stringsLost, 1)} of its ${counted(digits(strings), 'string')} would give`),
  'phase-missing': (told) =>
    `for ${hours(told.hours)} it carried ${kw(told.seenKw)} where ${kw(told.expectedKw)} is usual at such times, while the other phases carried ${kw(told.othersKw)} (usually ${kw(told.othersUsualKw)})`,
  'weak-charging': ({ expectedKw, seenKw, weakRuns, runs, steps }) =>
    `below the taper and with warm cells it charges with ${kw(seenKw)} where chargers, AC input limit and rating allow ${kw(expectedKw)}, in ${digits(weakRuns)} of ${counted(digits(runs), 'run')} that tell it (${counted(digits(steps), 'step')} of the log)`,
  'soc-drift': ({ perDay, fullCharges, explained }) =>
    `it shows ${percent(Math.abs(perDay), 1)} ${perDay > 0 ? 'more' : 'less'} each day than the energy into and out of the battery makes, and is right again when full, over ${counted(digits(fullCharges), 'full charge')}; that explains ${percent(explained)} of what counting leaves`,
  'soc-jump': ({ jumps, largest, explained }) =>
    `${counted(digits(jumps), 'time')} it changed within one step of the log, at most by ${percent(largest, 1)} where the battery’s power makes ${percent(explained, 1)}`,
  'heater-off': ({ hours: off, seenC, expectedC }) =>
    `for ${hours(off)}, with charge enough to heat, the cells were at ${celsius(seenC)} or so; a working heater would have kept at least ${celsius(expectedC)}, even in a cabinet that loses more heat than named`,
  'cooler-off': ({ hours: off, seenC, expectedC }) =>
    `for ${hours(off)} the air was at ${celsius(seenC)} or so; a working cooler would have kept it to ${celsius(expectedC)}, even with more heat than reckoned`,
  'night-load': ({ beforeKw, designedKw, afterKw, nights, kwhADay }) =>
    (beforeKw === undefined
      ? `the least load of nights is ${kw(afterKw)}, all through ${counted(digits(nights), 'night')}, where the design with the same growth has ${kw(designedKw)}`
      : `the least load of nights rose from ${kw(beforeKw)} to ${kw(afterKw)} and has stayed for ${counted(digits(nights), 'night')}`) +
    `; if it is on all day it takes ${digits(kwhADay, 1)} kWh a day`,
  'fuel-loss': ({ atOnceL, litresPerDay, standingH, days: count, noiseL }) =>
    atOnceL !== undefined
      ? `the level fell by ${litres(atOnceL)} at once with the engine stopped; one reading is off by ${litres(noiseL)} or so`
      : `the level falls by ${litres(litresPerDay)} a day with the engine stopped, over ${days(count)}, beyond what temperature does to it (${hours(standingH)} of standing in each five days)`,
};

const TERMS: Record<FaultKind, (size: number, duration: number) => string> = {
  'dead-string': (size, count) =>
    `from one of its strings on, or ${percent(size)} of the array where a string is less, with ${days(count)} on either side on which it is not held back`,
  'phase-missing': (size, count) =>
    `from ${hours(count)} on, in which it usually carries ${kw(size)} or more`,
  'weak-charging': (size, count) =>
    `from ${percent(size)} less than it should be on, in ${counted(digits(count), 'run')} with 20 minutes each in which nothing else limits it`,
  'soc-drift': (size, count) =>
    `from ${percent(size, 1)} a day on, through two thirds of the log or more, with ${counted(digits(count), 'full charge')}`,
  'soc-jump': (size) => `from ${percent(size)} on, away from full and empty`,
  'heater-off': (size, count) =>
    `from ${digits(size, 1)} K on, for ${hours(count)} in all, two or more together`,
  'cooler-off': (size, count) =>
    `from ${digits(size, 1)} K on, for ${hours(count)} in all, two or more together`,
  'night-load': (size, count) =>
    `from ${kw(size)} on (or ${percent(2 * NIGHT_SHARE)} of the night load, if that is more), with ${counted(digits(count), 'night')} on either side`,
  'fuel-loss': (size, count) =>
    `from ${litres(size)} a day on (or ${percent(2 * TANK_SHARE, 1)} of the tank, if that is more), for ${days(count)}`,
};
