import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { type MeteredBlock, type Register, registersToSeries } from './interval-grid.ts';
import type { Issue } from './issue.ts';
import type { ReadResult } from './series.ts';

export interface GreenButtonOptions {
  maxGapMin?: number;
}

const LARGEST_BYTES = 400_000_000;

/** Quality codes of readings that were not measured: edited, estimated, interpolated, derived, projected, mixed. */
const ESTIMATED = new Set([7, 8, 9, 11, 12, 13]);

/** Why these bytes look like a Green Button file; null when they do not. */
export function looksLikeGreenButton(head: Uint8Array): string | null {
  const text = new TextDecoder('latin1').decode(head.subarray(0, 8000));
  if (/naesb\.org\/espi/.test(text)) return 'names the namespace http://naesb.org/espi';
  return null;
}

type Xml = Record<string, unknown>;

interface Entry {
  self: string;
  up: string;
  related: string[];
  content: Xml;
}

interface ReadingType {
  accumulation: number;
  commodity: number;
  direction: number;
  lengthS: number;
  power: number;
  uom: number;
}

/**
 * Reads energy readings of a Green Button (ESPI) Atom feed.
 * Format: NAESB REQ.21, espi.xsd 4.0: entries are linked by their hrefs, not nested; times are seconds in UTC; a
 * value counts 10^powerOfTenMultiplier of its unit, Wh (72) or W (38). Readings delivered to the customer are
 * load, readings received from the customer are generation; a running register is differenced. Document types
 * and entities are refused.
 */
export function readGreenButton(
  bytes: Uint8Array,
  file: string,
  options: GreenButtonOptions = {},
): ReadResult {
  const issues: Issue[] = [];
  const refuse = (path: string, got: string, want: string, line?: number, column?: number) => {
    issues.push({ severity: 'error', code: 'greenbutton', path, got, want, at: { file, line, column } });
    return { series: [], sheet: null, issues };
  };
  if (bytes.length > LARGEST_BYTES) return refuse('file', `${bytes.length} bytes`, 'at most 400 MB');
  const text = new TextDecoder('utf-8').decode(bytes);
  if (/<!DOCTYPE|<!ENTITY/i.test(text)) return refuse('file', 'a document type or entity', 'a plain feed');
  const valid = XMLValidator.validate(text);
  if (valid !== true) return refuse('file', valid.err.msg, 'well-formed XML', valid.err.line, valid.err.col);
  const entries = entriesOf(text);
  if (entries === null) return refuse('feed', 'no Atom feed', 'a feed with entries');
  const types = new Map<string, ReadingType>();
  for (const entry of entries)
    if (isXml(entry.content.ReadingType)) types.set(entry.self, readingType(entry.content.ReadingType));
  const registers = new Map<string, Register>();
  let estimated = 0;
  let left = 0;
  for (const entry of entries)
    for (const block of listOf(entry.content.IntervalBlock)) {
      const typeHref = typeOfBlock(entry, entries, types);
      const type = typeHref === null ? undefined : types.get(typeHref);
      if (typeHref === null || !type || !isEnergy(type)) {
        left++;
        continue;
      }
      const read = readBlock(block, type, issues, file);
      estimated += read.estimated;
      const key = `${blockOwner(entry)} ${typeHref}`;
      const quantity = type.direction === 19 ? ('generationKw' as const) : ('loadKw' as const);
      const register = registers.get(key) ?? { name: nameOf(key), quantity, blocks: [] };
      for (const reading of read.readings) register.blocks.push(reading);
      registers.set(key, register);
    }
  const doubt = (path: string, got: string, want: string) =>
    issues.push({ severity: 'doubt', code: 'greenbutton', path, got, want, at: { file } });
  if (left > 0) doubt('IntervalBlock', `${left} blocks that are not electric energy or power`, 'left out');
  if ([...types.values()].some(({ direction }) => direction === 4))
    doubt('flowDirection', 'net readings (4)', 'energy delivered; what was generated is already taken off');
  for (const [key, register] of registers)
    if (isRegister(types.get(key.slice(key.indexOf(' ') + 1))))
      register.blocks = differences(register.blocks);
  if (registers.size > 1)
    doubt('readings', `${registers.size} meter readings`, 'one; those of a kind were added up');
  return registersToSeries([...registers.values()], {
    file,
    reader: 'greenbutton',
    chosenBecause: 'namespace http://naesb.org/espi',
    timeZone: `UTC seconds${localNote(entries)}`,
    estimated,
    maxGapMin: options.maxGapMin ?? 2880,
    issues,
  });
}

function entriesOf(text: string): Entry[] | null {
  const lists = new Set(['entry', 'link', 'IntervalBlock', 'IntervalReading', 'ReadingQuality']);
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '@',
    removeNSPrefix: true,
    processEntities: false,
    parseTagValue: false,
    isArray: (name) => lists.has(name),
  });
  let tree: Xml;
  try {
    tree = parser.parse(text) as Xml;
  } catch {
    // what the validator let through and the parser does not take
    return null;
  }
  if (!isXml(tree.feed)) return null;
  return listOf(tree.feed.entry).map((entry) => {
    const links = listOf(entry.link);
    const href = (rel: string) =>
      links.filter((link) => link['@rel'] === rel).map((link) => String(link['@href'] ?? ''));
    return {
      self: href('self')[0] ?? '',
      up: href('up')[0] ?? '',
      related: href('related'),
      content: isXml(entry.content) ? entry.content : {},
    };
  });
}

/** The reading type of a block: through its meter reading's links; the only one there is, without links. */
function typeOfBlock(
  block: Entry,
  entries: readonly Entry[],
  types: Map<string, ReadingType>,
): string | null {
  const owner = blockOwner(block);
  const reading = entries.find(
    (entry) => 'MeterReading' in entry.content && owner !== '' && entry.self === owner,
  );
  const href = reading?.related.find((related) => types.has(related));
  if (href !== undefined) return href;
  return types.size === 1 ? [...types.keys()][0] : null;
}

/** The href of the meter reading that a block belongs to. */
function blockOwner({ up, self }: Entry): string {
  return (up || self).replace(/\/IntervalBlock.*$/, '');
}

function nameOf(key: string): string {
  const owner = key.slice(0, key.indexOf(' '));
  return owner === '' ? 'meter reading' : owner.split('/').slice(-4).join('/');
}

function readingType(xml: Xml): ReadingType {
  const number = (name: string, otherwise: number) =>
    xml[name] === undefined ? otherwise : Number(xml[name]);
  return {
    accumulation: number('accumulationBehaviour', 4),
    commodity: number('commodity', 1),
    direction: number('flowDirection', 1),
    lengthS: number('intervalLength', 3600),
    power: number('powerOfTenMultiplier', 0),
    uom: number('uom', 72),
  };
}

const isEnergy = ({ uom, commodity }: ReadingType) =>
  (uom === 72 || uom === 38) && (commodity === 1 || commodity === 0);
const isRegister = (type: ReadingType | undefined) =>
  type !== undefined && [1, 3, 9].includes(type.accumulation);

function readBlock(block: Xml, type: ReadingType, issues: Issue[], file: string) {
  const readings: MeteredBlock[] = [];
  const scale = 10 ** type.power / 1000;
  let estimated = 0;
  let nextS = Number(isXml(block.interval) ? block.interval.start : Number.NaN);
  for (const reading of listOf(block.IntervalReading)) {
    const period = isXml(reading.timePeriod) ? reading.timePeriod : {};
    const durationS = Number(period.duration ?? type.lengthS);
    const startS = Number(period.start ?? nextS);
    const value = Number(reading.value ?? Number.NaN);
    nextS = startS + durationS;
    const good =
      Number.isSafeInteger(startS) && durationS > 0 && Number.isFinite(value) && Math.abs(type.power) <= 12;
    if (!good || startS < 0 || startS > 7_000_000_000) {
      const got = `start ${period.start ?? 'none'}, duration ${durationS}, value ${reading.value ?? 'none'}`;
      if (issues.length < 100)
        issues.push({
          severity: 'error',
          code: 'greenbutton',
          path: 'IntervalReading',
          got,
          want: 'seconds and a number',
          at: { file },
        });
      continue;
    }
    const quality = listOf(reading.ReadingQuality).map(({ quality: code }) => Number(code));
    if (quality.some((code) => ESTIMATED.has(code))) estimated++;
    const kwh = type.uom === 38 ? (value * scale * durationS) / 3600 : value * scale;
    readings.push({ startS, durationS, kwh: [kwh] });
  }
  return { readings, estimated };
}

/** Energy between the readings of a running register; a reading below the one before is a new start. */
function differences(readings: readonly MeteredBlock[]): MeteredBlock[] {
  const sorted = [...readings].sort((a, b) => a.startS - b.startS);
  return sorted.slice(1).map(({ startS, durationS, kwh }, i) => {
    const now = kwh[0];
    const before = sorted[i].kwh[0];
    return { startS: startS - durationS, durationS, kwh: [now >= before ? now - before : now] };
  });
}

/** The clock that the file names, for information. */
function localNote(entries: readonly Entry[]): string {
  const local = entries.map((entry) => entry.content.LocalTimeParameters).find(isXml);
  if (!local) return '';
  const hours = Number(local.tzOffset) / 3600;
  const dst =
    Number(local.dstOffset) > 0
      ? `, summer time from ${ruleText(local.dstStartRule)} to ${ruleText(local.dstEndRule)}`
      : '';
  return `; local standard time UTC${hours >= 0 ? '+' : ''}${hours}${dst}`;
}

const WEEKDAYS = ['', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];
const WHICH: Record<number, string> = {
  1: 'on or after',
  2: 'first',
  3: 'second',
  4: 'third',
  5: 'fourth',
  7: 'last',
};

/** A rule of 32 bits: second 0-11, hour 12-16, weekday 17-19, day 20-24, operator 25-27, month 28-31. */
export function ruleText(hex: unknown): string {
  const bits = Number.parseInt(String(hex), 16);
  if (Number.isNaN(bits)) return String(hex);
  const part = (from: number, width: number) => Math.floor(bits / 2 ** from) % 2 ** width;
  return `${WHICH[part(25, 3)] ?? '?'} ${WEEKDAYS[part(17, 3)] ?? '?'} of month ${part(28, 4)}, ${String(part(12, 5)).padStart(2, '0')}:00`;
}

function isXml(value: unknown): value is Xml {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function listOf(value: unknown): Xml[] {
  if (Array.isArray(value)) return value.filter(isXml);
  return isXml(value) ? [value] : [];
}
