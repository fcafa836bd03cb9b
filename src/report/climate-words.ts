import type { ClimateDecision, ClimateRow, ClimateVariant } from '../scenarios/climate-decision.ts';
import type { AlternativeResult } from '../scenarios/study.ts';
import { hasGenerator, hasMoney, spanWords } from './facts.ts';
import { alone, digits, figure } from './numbers.ts';
import type { StudyView } from './view.ts';
import { capital, counted, listed } from './words.ts';

/** Head of a variant's column; sizes of what is not there in fact are named. */
export function variantHead({ variant, changes }: ClimateRow): string {
  const part = variant === 'with heater' ? 'heater' : variant === 'with cooler' ? 'cooler' : null;
  if (part === null) return capital(variant);
  return `With ${sizeOf(changes, part)}`;
}

/** "a heater of 150 W"; "heaters of 450 W in all", where several cabinets get one. */
function sizeOf(changes: ClimateRow['changes'], part: 'heater' | 'cooler'): string {
  const sizes = Object.values(changes).map((each) => (each as { ratedW: number }).ratedW);
  const watts = `${digits(sizes.reduce((sum, ratedW) => sum + ratedW, 0))} W`;
  return sizes.length > 1 ? `${part}s of ${watts} in all` : `a ${part} of ${watts}`;
}

/** What each variant costs and saves, in a sentence: "The heater takes 92 kWh a year and saves 598 L …". */
export function climateSentences(
  view: StudyView,
  result: AlternativeResult,
  { rows }: ClimateDecision,
): string[] {
  const [base, ...others] = rows;
  return others.map((other) => {
    const sentence = SENTENCES[other.variant];
    return `${capital(sentence(base, other, effectWords(view, result)))}.`;
  });
}

/** Words for what going from one row to another changes. */
interface Effects {
  span: string;
  /** "saves 598 L and 572 h of generator running" */
  fuel: (from: ClimateRow, to: ClimateRow) => string;
  /** what else changes, after a semicolon; empty where nothing does */
  more: (from: ClimateRow, to: ClimateRow) => string;
}

type Sentence = (base: ClimateRow, other: ClimateRow, effects: Effects) => string;

const SENTENCES: Record<Exclude<ClimateVariant, 'as it is'>, Sentence> & Record<string, Sentence> = {
  'no heater': (base, other, { span, fuel, more }) =>
    `the heater takes ${alone('kwh', base.heaterKwh)} ${span} and ${fuel(other, base)}${more(other, base)}`,
  'with heater': (base, other, { span, fuel, more }) =>
    `${sizeOf(other.changes, 'heater')} would take ${alone('kwh', other.heaterKwh)} ${span}; that ${fuel(base, other)}${more(base, other)}`,
  'no cooler': (base, other, { span, fuel, more }) =>
    `the cooler takes ${alone('kwh', base.coolerKwh)} ${span} and ${fuel(other, base)}${more(other, base)}`,
  'with cooler': (base, other, { span, fuel, more }) =>
    `${sizeOf(other.changes, 'cooler')} would take ${alone('kwh', other.coolerKwh)} ${span}; that ${fuel(base, other)}${more(base, other)}`,
  'half the heat loss': (base, other, { fuel, more }) =>
    `insulation that halves the heat loss ${fuel(base, other)}${more(base, other)}`,
  'full shade': (base, other, { fuel, more }) =>
    `shading the cabinet fully ${fuel(base, other)}${more(base, other)}`,
};

function effectWords(view: StudyView, result: AlternativeResult): Effects {
  const { currency } = view.study.site;
  const money = hasMoney(view.study);
  return {
    span: spanWords(result.ledger),
    fuel: (from, to) => (hasGenerator(result) ? fuelWords(from, to) : supplyWords(from, to)),
    more: (from, to) => {
      const parts = [
        ...change('charging refused by cold or hot cells', 'kwh', from.frostKwh, to.frostKwh),
        ...change('load above the derated inverters', 'kwh', from.deratedKwh, to.deratedKwh),
        ...(hasGenerator(result) ? change('load unserved', 'kwh', from.unservedKwh, to.unservedKwh) : []),
        ...(from.batteryLifeYears !== null && to.batteryLifeYears !== null
          ? change('battery life', 'years', from.batteryLifeYears, to.batteryLifeYears)
          : []),
      ];
      const cost = money ? costWords(result, from, to, currency) : '';
      return (parts.length > 0 ? `: ${listed(parts)}` : '') + cost;
    },
  };
}

/** Less than this share of what there is, is next to nothing. */
const NOTHING_SHARE = 0.001;

function isNothing(from: number, to: number): boolean {
  return Math.abs(to - from) <= NOTHING_SHARE * Math.max(Math.abs(from), Math.abs(to));
}

function fuelWords(from: ClimateRow, to: ClimateRow): string {
  const verb = (a: number, b: number) => (a < b ? 'saves' : 'costs');
  const litres = `${verb(to.fuelL, from.fuelL)} ${alone('litres', Math.abs(to.fuelL - from.fuelL))}`;
  const hours = `${alone('hours', Math.abs(to.runH - from.runH))} of generator running`;
  const sameFuel = isNothing(from.fuelL, to.fuelL);
  const sameHours = isNothing(from.runH, to.runH);
  if (sameFuel && sameHours) return 'makes next to no difference to fuel and generator hours';
  if (sameHours) return `${litres}`;
  const verbOfHours = verb(to.runH, from.runH);
  if (sameFuel) return `${verbOfHours} ${hours}`;
  return verb(to.fuelL, from.fuelL) === verbOfHours
    ? `${litres} and ${hours}`
    : `${litres}, and ${verbOfHours} ${hours}`;
}

function supplyWords(from: ClimateRow, to: ClimateRow): string {
  const [part] = change('load unserved', 'kwh', from.unservedKwh, to.unservedKwh);
  return part ? `changes ${part}` : 'leaves all load served as it was';
}

/** Energies that differ by less are not told [kWh]. */
const LEAST_KWH = 1;

/** "charging refused … 2 kWh instead of 591 kWh"; nothing where both are written alike, or nearly. */
function change(name: string, kind: 'kwh' | 'years', from: number, to: number): string[] {
  if (kind === 'kwh' && Math.abs(to - from) < LEAST_KWH) return [];
  const decimals = kind === 'kwh' && Math.max(Math.abs(from), Math.abs(to)) >= 9.95 ? 0 : 1;
  const [a, b] = [from, to].map((value) => figure(kind, value < 0.05 ? 0 : value, decimals));
  return a === b ? [] : [`${name} ${b} instead of ${a}`];
}

function costWords(result: AlternativeResult, from: ClimateRow, to: ClimateRow, currency: string): string {
  const difference = to.lifeCycleCost - from.lifeCycleCost;
  if (isNothing(from.lifeCycleCost, to.lifeCycleCost)) return '';
  const years = counted(String(result.money.years), 'year');
  return `; over ${years} that is ${alone('money', Math.abs(difference), currency)} ${difference < 0 ? 'less' : 'more'}`;
}
