import type { ArrayLoss } from '../scenarios/array-yields.ts';
import type { OutageCause, StartCause } from '../sim/causes.ts';
import type { LossGroup } from './array-losses.ts';

const SMALL = [
  ...[
    'no',
    'one',
    'two',
    'three',
    'four',
    'five',
    'six',
    'seven',
    'eight',
    'nine',
    'ten',
    'eleven',
    'twelve',
  ],
  ...['thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen'],
];
const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];

/** Whole numbers below a hundred in words ("twenty-four"); others in digits. 0 is "no". */
export function numberWord(n: number): string {
  if (!Number.isInteger(n) || n < 0 || n > 99) return String(n);
  if (n < 20) return SMALL[n];
  return n % 10 === 0 ? TENS[n / 10] : `${TENS[Math.floor(n / 10)]}-${SMALL[n % 10]}`;
}

/** "1 start", "2 starts", "at least 1 start". @param shown the number as it is written */
export function counted(shown: string, one: string, many = `${one}s`): string {
  return `${shown} ${/(^| )1$/.test(shown) ? one : many}`;
}

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "the meter drifts": a sentence's beginning within a list. */
export function small(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** A name that a person gave, in quotation marks. */
export function quoted(name: string): string {
  return `“${name}”`;
}

/** Why the generator started, to follow "because". */
export const START_REASONS: Record<StartCause, string> = {
  bypass: 'the inverters are out of service',
  hand: 'a person starts it',
  charge: 'the battery is low',
  peak: 'the load is high',
  full: 'a full charge is due',
  exercise: 'an exercise run is due',
  continuous: 'it is set to run always',
};

/** The same of one start that has been. */
export const STARTED_BECAUSE: Record<StartCause, string> = {
  bypass: 'the inverters were out of service',
  hand: 'a person started it',
  charge: 'the battery was low',
  peak: 'the load was high',
  full: 'a full charge was due',
  exercise: 'an exercise run was due',
  continuous: 'it was set to run always',
};

/** The cause with its reason, short enough for a table or a legend. */
export const START_LABELS: Record<StartCause, string> = {
  bypass: 'bypass (inverters out of service)',
  hand: 'hand (a person)',
  charge: 'charge (battery low)',
  peak: 'peak (load high)',
  full: 'full (full charge due)',
  exercise: 'exercise (test run)',
  continuous: 'continuous (always on)',
};

/** What keeps array energy from the site before it is offered, told in three. */
export const LOSS_LABELS: Record<LossGroup, string> = {
  snow: 'Array energy lost to snow',
  horizon: 'Array energy lost behind the horizon',
  converter: 'Array energy above what converters take',
};

/** To follow "array energy lost". */
export const LOSS_WHERE: Record<LossGroup, string> = {
  snow: 'to snow',
  horizon: 'behind the horizon',
  converter: 'above what converters take',
};

/** The same one by one, for the head of a column. */
export const ARRAY_LOSS_LABELS: Record<ArrayLoss, string> = {
  horizon: 'Behind the horizon',
  snow: 'Under snow',
  belowWindow: 'Strings below the voltage window',
  aboveWindow: 'Strings above the voltage window',
  inputCurrent: 'Above the input current',
  inputPower: 'Above the input power',
  output: 'Above the output limit',
};

/** Why load went unserved, to follow "because". */
export const OUTAGE_REASONS: Record<OutageCause, string> = {
  power: 'the load is more than can be carried',
  energy: 'there is no energy left to supply it',
  trip: 'an overload trips the inverters',
  'start failure': 'the generator fails to start',
  'tank dry': 'the fuel tank is dry',
  'person away': 'nobody is there to start it',
};
