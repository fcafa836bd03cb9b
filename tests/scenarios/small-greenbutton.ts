import { issueSentence } from '../../src/scenarios/issue.ts';
import { type GreenButtonOptions, readGreenButton } from '../../src/scenarios/read-greenbutton.ts';
import type { Quantity, ReadResult } from '../../src/scenarios/series.ts';

/** Makes small Green Button feeds, and says in short what came of reading them. */
export const bytes = (text: string) => new TextEncoder().encode(text);
export const espi = (text: string, options: GreenButtonOptions = {}) =>
  readGreenButton(bytes(text), 'f.xml', options);
const found = (result: ReadResult, severity: string) =>
  result.issues.filter((issue) => issue.severity === severity).map(issueSentence);
export const errors = (result: ReadResult) => found(result, 'error');
export const doubts = (result: ReadResult) => found(result, 'doubt');
export const codes = (result: ReadResult) => result.issues.map(({ code }) => code);
export const kwh = (result: ReadResult, quantity: Quantity = 'loadKw') =>
  result.sheet?.series.find((one) => one.quantity === quantity)?.total;
export const kw = (result: ReadResult, quantity: Quantity = 'loadKw') =>
  Array.from(result.series.find((one) => one.quantity === quantity)?.values ?? []);

/** A whole hour from which small feeds begin [s]: 2024-01-01T00:00Z. */
export const START_S = 1_704_067_200;

const ESPI = 'xmlns="http://naesb.org/espi"';

/** An entry with its links, each 'rel href'. */
function entry(links: string[], content: string, updated = '2024-02-01T00:00:00Z'): string {
  const tags = links.map((link) => `<link rel="${link.split(' ')[0]}" href="${link.split(' ')[1]}"/>`);
  return `<entry>${tags.join('')}<content>${content}</content><updated>${updated}</updated></entry>`;
}

/** Codes of a reading type; those of delivered Wh of an hour where nothing else is said. */
export function readingType(href: string, codesToChange: Record<string, number | null> = {}): string {
  const usual = { accumulationBehaviour: 4, commodity: 1, flowDirection: 1, intervalLength: 3600, kind: 12 };
  const all: Record<string, number | null> = { ...usual, powerOfTenMultiplier: 0, uom: 72, ...codesToChange };
  const tags = Object.entries(all).map(([name, code]) => (code === null ? '' : `<${name}>${code}</${name}>`));
  return entry([`self ${href}`], `<ReadingType ${ESPI}>${tags.join('')}</ReadingType>`);
}

export function meterReading(href: string, type: string): string {
  return entry([`self ${href}`, `related ${type}`], `<MeterReading ${ESPI}/>`);
}

/** A reading with its own time, `at` hours from the start. */
export function reading(at: number, value: number | string, hours = 1): string {
  const [startS, durationS] = [START_S + at * 3600, hours * 3600];
  return `<IntervalReading><timePeriod><duration>${durationS}</duration><start>${startS}</start></timePeriod><value>${value}</value></IntervalReading>`;
}

/** A block of a meter reading that begins at the start and lasts so many hours. */
export function block(owner: string, readings: string[], hours: number, updated?: string): string {
  const interval = `<interval><duration>${hours * 3600}</duration><start>${START_S}</start></interval>`;
  const content = `<IntervalBlock ${ESPI}>${interval}${readings.join('\n')}</IntervalBlock>`;
  return entry([`self ${owner}/IntervalBlock/1`, `up ${owner}/IntervalBlock`], content, updated);
}

export function feed(...entries: string[]): string {
  return `<feed xmlns="http://www.w3.org/2005/Atom">\n${entries.join('\n')}\n</feed>`;
}

/** One meter reading, its values hour after hour; null where one is missing. */
export function hourly(
  href: string,
  codesToChange: Record<string, number | null>,
  values: (number | null)[],
  hours = 1,
): string {
  const type = `Type/${href}`;
  const readings = values.flatMap((value, i) => (value === null ? [] : [reading(i * hours, value, hours)]));
  const codesOf = { intervalLength: 3600 * hours, ...codesToChange };
  return [
    readingType(type, codesOf),
    meterReading(href, type),
    block(href, readings, values.length * hours),
  ].join('\n');
}
