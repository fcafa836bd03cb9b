import type { Inputs } from '../../../sim/inputs.ts';
import type { VisitGround } from '../ground.ts';
import type { LogSeries } from './log-series.ts';

type Arrays = Pick<Inputs, 'dcArrayKw' | 'acArrayKw'>;

/** Arrays offered to a run, and how much of it was not measured. */
export interface OfferedArrays {
  arrays: Arrays;
  filledSteps: number;
}

/** Charge near the taper holds an array back, this far below it already: a shown state of charge is rounded. */
const TAPER_MARGIN = 0.02;
/** An hour with less than this share of the array's best has too little light to tell its day by. */
const LIGHT_FRAC = 0.05;

/**
 * What the arrays offer by the sun that was logged; where it was not, by the designed weather.
 * @returns null without a column for the sun
 */
export function arraysBySun(ground: VisitGround): OfferedArrays | null {
  const { sunArraysKw, designedArraysKw, site } = ground;
  if (sunArraysKw === null) return null;
  const first = site.arrays[0] && sunArraysKw[site.arrays[0].name];
  const filledSteps = first?.reduce((count, kw) => count + Number(Number.isNaN(kw)), 0) ?? 0;
  const offered = (name: string, i: number) =>
    Number.isNaN(sunArraysKw[name][i]) ? designedArraysKw[name][i] : sunArraysKw[name][i];
  return { arrays: exchanged(ground, offered), filledSteps };
}

/**
 * What the arrays offered by their own output, for a log without the sun: what each gave, and where something held it
 * back (a battery that is nearly full or too cold, an AC-coupled array beside the generator) or nothing is known, the
 * designed output times that day's ratio of what was given to what was designed while nothing held it back.
 * @returns null where the log has no output of arrays
 */
export function arraysByOutput(ground: VisitGround, series: LogSeries): OfferedArrays | null {
  const { site, record, designedArraysKw } = ground;
  const { arrayKw } = series;
  if (arrayKw === null || site.arrays.length === 0) return null;
  const designedKw = Float64Array.from(arrayKw, (_, i) =>
    site.arrays.reduce((sum, { name }) => sum + designedArraysKw[name][i], 0),
  );
  const isFree = freeSteps(ground, series);
  const ratio = dayRatios(ground, arrayKw, designedKw, isFree);
  let filledSteps = 0;
  for (const one of isFree) filledSteps += Number(one === 0);
  const offered = (name: string, i: number) => {
    const own = record.arraysKw[name]?.[i] ?? Number.NaN;
    const share = designedKw[i] > 0 ? designedArraysKw[name][i] / designedKw[i] : 1 / site.arrays.length;
    const gave = Number.isNaN(own) ? arrayKw[i] * share : own;
    const expected = designedArraysKw[name][i] * ratio[i];
    if (isFree[i] === 1) return Math.max(0, gave);
    return Math.max(0, expected, Number.isNaN(gave) ? 0 : gave);
  };
  return { arrays: exchanged(ground, offered), filledSteps };
}

/** 1 where nothing held the arrays back and their output is known. */
function freeSteps({ site, record }: VisitGround, { arrayKw, socFrac, on }: LogSeries): Uint8Array {
  const { battery, arrays } = site;
  const { cellC } = record.columns;
  const hasAc = arrays.some(({ coupling }) => coupling === 'ac');
  const full = (battery?.taperStartSoc ?? 1) - TAPER_MARGIN;
  return Uint8Array.from({ length: record.axis.count }, (_, i) => {
    if (arrayKw === null || Number.isNaN(arrayKw[i])) return 0;
    if (socFrac !== null && !(socFrac[i] < full)) return 0;
    if (cellC && battery && cellC[i] < battery.fullChargeC) return 0;
    if (hasAc && on !== null && on[i] !== 0) return 0;
    return 1;
  });
}

/** What was given over what was designed, by the day of each step; of the whole log on days without light to tell by. */
function dayRatios(
  { calendar }: VisitGround,
  gaveKw: Float64Array,
  designedKw: Float64Array,
  isFree: Uint8Array,
): Float64Array {
  const leastKw = LIGHT_FRAC * designedKw.reduce((most, kw) => Math.max(most, kw), 0);
  const ofDay = new Map<number, { gave: number; designed: number; steps: number }>();
  const whole = { gave: 0, designed: 0 };
  for (const [i, day] of calendar.dayNumber.entries()) {
    if (isFree[i] === 0 || designedKw[i] < leastKw) continue;
    const known = ofDay.get(day) ?? { gave: 0, designed: 0, steps: 0 };
    known.gave += gaveKw[i];
    known.designed += designedKw[i];
    known.steps++;
    ofDay.set(day, known);
    whole.gave += gaveKw[i];
    whole.designed += designedKw[i];
  }
  const usual = whole.designed > 0 ? whole.gave / whole.designed : 1;
  return Float64Array.from(calendar.dayNumber, (day) => {
    const known = ofDay.get(day);
    return known ? known.gave / known.designed : usual;
  });
}

/** The designed arrays with each array's output exchanged; other sources stay as designed. */
function exchanged(
  { site, designed, designedArraysKw }: VisitGround,
  offered: (name: string, i: number) => number,
): Arrays {
  const of = (coupling: 'dc' | 'ac', whole: Float64Array | undefined) => {
    const names = site.arrays.filter((array) => array.coupling === coupling).map(({ name }) => name);
    if (names.length === 0 || !whole) return whole;
    return whole.map((kw, i) => {
      const change = names.reduce((sum, name) => sum + offered(name, i) - designedArraysKw[name][i], 0);
      return Math.max(0, kw + change);
    });
  };
  return { dcArrayKw: of('dc', designed.dcArrayKw), acArrayKw: of('ac', designed.acArrayKw) };
}
