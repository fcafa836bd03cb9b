import type { Xml } from './greenbutton-feed.ts';

/** Codes of espi.xsd 4.0 (NAESB REQ.21). */
const [WATTS, WATT_HOURS] = [38, 72];
const DEMAND = 8;
const DELTA = 4;
const REGISTERS = new Set([1, 3, 9]);
/** Accumulations that say no more than that a power was read. */
const LEVELS = new Set([6, 12]);
export const [UNTOLD, FORWARD, NET, REVERSE] = [0, 1, 4, 19];
/** One conductor of several. */
const PART_PHASES = new Set([128, 129, 64, 65, 32, 33, 256, 257, 512, 513]);

/** What the values of a meter reading are; numbers that are absent are NaN, codes that are absent 0. */
export interface ReadingType {
  href: string;
  accumulation: number;
  commodity: number;
  direction: number;
  kind: number;
  /** length of its intervals [s] */
  lengthS: number;
  phase: number;
  /** values count 10 to this power of their unit */
  power: number;
  uom: number;
}

export function readingType(href: string, xml: Xml): ReadingType {
  const number = (name: string, otherwise: number) =>
    xml[name] === undefined ? otherwise : Number(xml[name]);
  return {
    href,
    accumulation: number('accumulationBehaviour', 0),
    commodity: number('commodity', 0),
    direction: number('flowDirection', UNTOLD),
    kind: number('kind', 0),
    lengthS: number('intervalLength', Number.NaN),
    phase: number('phase', 0),
    power: number('powerOfTenMultiplier', 0),
    uom: number('uom', 0),
  };
}

/** Why values of a type are left out; null when they are read. */
export function whyLeftOut(type: ReadingType): string | null {
  const { uom, commodity, direction, accumulation, power } = type;
  if (commodity !== 1 && commodity !== 0) return `commodity ${commodity}`;
  if (uom !== WATTS && uom !== WATT_HOURS) return uom === 0 ? 'no unit (uom)' : `unit (uom) ${uom}`;
  if (![UNTOLD, FORWARD, NET, REVERSE].includes(direction)) return `flowDirection ${direction}`;
  const isKnown = isLevel(type) ? LEVELS.has(accumulation) : isRunning(type);
  if (accumulation !== 0 && accumulation !== DELTA && !isKnown)
    return `accumulationBehaviour ${accumulation}${isLevel(type) ? ' of power' : ' of energy'}`;
  return Number.isInteger(power) && Math.abs(power) <= 12 ? null : `powerOfTenMultiplier ${power}`;
}

/** Guesses that reading a type takes: what was found, and how it is read. */
export function guesses(type: ReadingType): { path: string; got: string; want: string }[] {
  const { accumulation, direction } = type;
  const found: { path: string; got: string; want: string }[] = [];
  const add = (path: string, got: string, want: string) => found.push({ path, got, want });
  if (direction === UNTOLD)
    add('flowDirection', 'none or 0', '1 (delivered); read as that, negative values as sent out');
  if (direction === NET)
    add('flowDirection', 'net values (4)', '1 (delivered); what was made and used at once is not in them');
  if (accumulation === 0)
    add('accumulationBehaviour', 'none or 0', '4; read as energy or mean power of each interval');
  if (isRunning(type))
    add(
      'accumulationBehaviour',
      `a running register (${accumulation})`,
      '4; each value read as the register at the start of its period',
    );
  if (isLevel(type)) {
    const got = type.kind === DEMAND ? 'demand' : LEVELS.has(accumulation) ? 'power at an instant' : 'power';
    add('uom', got, 'energy; read as the mean over each interval');
  }
  return found;
}

export const isLevel = ({ uom }: ReadingType) => uom === WATTS;
export const isRunning = ({ uom, accumulation }: ReadingType) =>
  uom === WATT_HOURS && REGISTERS.has(accumulation);
/** One conductor of several, of which a meter may give the sum as well. */
export const isPartPhase = ({ phase }: ReadingType) => PART_PHASES.has(phase);

/** Which of two types says more of the same energy: the lower. */
export function rank(type: ReadingType): number {
  if (isLevel(type)) return type.kind === DEMAND ? 3 : 2;
  return isRunning(type) ? 1 : 0;
}
