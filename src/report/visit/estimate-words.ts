import type { Estimate, Estimated, Visit } from '../../scenarios/visit/visit.ts';
import { digits } from '../numbers.ts';
import { counted } from '../words.ts';
import { withColumnNames } from './column-words.ts';
import { stretchWords } from './span.ts';

/** An estimate that has a value. */
export type Known = Extract<Estimate, { value: number }>;
export type Refused = Extract<Estimate, { value: null }>;

interface Words {
  name: string;
  /** as it is shown; the value is multiplied by `times` */
  unit: string;
  times: number;
}

const ESTIMATE_WORDS: Record<Estimated, Words> = {
  loadFactor: { name: 'Load, of the planned', unit: '%', times: 100 },
  arrayFactor: { name: 'Arrays, of what the sun allows', unit: '%', times: 100 },
  usableKwh: { name: 'Battery capacity', unit: 'kWh', times: 1 },
  oneWayEfficiency: { name: 'Battery efficiency, one way', unit: '%', times: 100 },
  standbyKw: { name: 'Standby draw', unit: 'W', times: 1000 },
  startSoc: { name: 'Start threshold in force', unit: '%', times: 100 },
  stopSoc: { name: 'Stop threshold in force', unit: '%', times: 100 },
  chargeKw: { name: 'Charging by the generator', unit: 'kW', times: 1 },
  fuelAtRest: { name: 'Fuel at no load', unit: 'L/h', times: 1 },
  fuelPerKwh: { name: 'Fuel for each kWh more', unit: 'L/kWh', times: 1 },
  coolingWPerK: { name: 'Cabinet air to outside', unit: 'W/K', times: 1 },
  timeConstantH: { name: 'Cells follow the outside in', unit: 'h', times: 1 },
};

export function estimateName(key: Estimated): string {
  return ESTIMATE_WORDS[key].name;
}

export function estimateUnit(key: Estimated): string {
  return ESTIMATE_WORDS[key].unit;
}

/** Value, ends of the interval and the designed value, without the unit, with the digits that the interval allows. */
export function estimateTexts(known: Known): { value: string; low: string; high: string; designed: string } {
  const { times } = ESTIMATE_WORDS[known.key];
  const most = Math.max(Math.abs(known.value), Math.abs(known.designed ?? 0)) * times;
  const decimals = Math.min(decimalsOf(((known.high - known.low) / 2) * times), decimalsWorth(most));
  const text = (value: number) => digits(value * times, decimals);
  return {
    value: text(known.value),
    low: text(known.low),
    high: text(known.high),
    designed: known.designed === null ? '–' : text(known.designed),
  };
}

/** So many that a value has no more than four digits. */
function decimalsWorth(value: number): number {
  return value > 0 ? Math.max(0, 3 - Math.floor(Math.log10(value))) : 4;
}

/** So many that half the interval has one digit that counts, or two where the first is a 1 or a 2. */
function decimalsOf(half: number): number {
  if (!(half > 0)) return 1;
  const power = Math.floor(Math.log10(half));
  const leading = half / 10 ** power;
  return Math.min(4, Math.max(0, (leading < 3 ? 1 : 0) - power));
}

/** "from 212 nights, since 3 April 2025" */
export function basisWords({ basis, fromS, toS }: Known, visit: Visit): string {
  const rests = counted(digits(basis.count), basis.of.slice(0, -1));
  const stretch = stretchWords(visit, fromS, toS);
  return stretch === null ? rests : `${rests}, ${stretch}`;
}

/** Why there is no value. */
export function refusalWords({ why, lacks }: Refused): string {
  const what = withColumnNames(lacks);
  if (why === 'no-column') return `the log lacks ${what}`;
  if (why === 'too-little') return `too little in the log: ${what}`;
  return what === '' ? 'not told apart from others' : `not told apart: ${what}`;
}

export function isKnown(estimate: Estimate): estimate is Known {
  return estimate.value !== null;
}
