import { type Findings, quoted, type Spot } from './findings.ts';
import { type Entry, type GreenButtonFeed, isXml, listOf, startOf, type Xml } from './greenbutton-feed.ts';

/** Quality codes of readings that were not measured: edited, estimated, interpolated, derived, projected, mixed. */
const ESTIMATED = new Set([7, 8, 9, 11, 12, 13]);
const QUESTIONABLE = 10;
/** End of the 21st century and some: later is no time of a reading [s]. */
const LATEST_S = 7_000_000_000;

/** One reading as it stands; NaN where the file leaves a time to be worked out. */
export interface Reading {
  startS: number;
  durationS: number;
  value: number;
  isEstimated: boolean;
  /** its place in the feed */
  at: number;
}

/** Readings in a row, before it is known what they measure. */
export interface RawBlock {
  /** what the block says it covers [s]; NaN when it does not say */
  startS: number;
  durationS: number;
  readings: Reading[];
  /** when its entry was last changed [s] */
  version: number;
  spot: Spot;
  at: number;
  questionable: number;
}

/** Takes the readings out of a block; those that hold no time or number are refused. */
export function rawBlock(block: Xml, entry: Entry, feed: GreenButtonFeed, list: Findings): RawBlock {
  const at = entry.at + startOf(block);
  const interval = isXml(block.interval) ? block.interval : {};
  const raw: RawBlock = {
    startS: seconds(interval.start),
    durationS: seconds(interval.duration),
    readings: [],
    version: entry.updatedS,
    spot: feed.spot(at),
    at,
    questionable: 0,
  };
  for (const xml of listOf(block.IntervalReading)) {
    if (list.isFull) break;
    const reading = rawReading(xml, entry.at + startOf(xml));
    if (reading === null) refuse(xml, feed.spot(entry.at + startOf(xml)), list);
    else raw.readings.push(reading);
    if (qualities(xml).includes(QUESTIONABLE)) raw.questionable++;
  }
  return raw;
}

function rawReading(xml: Xml, at: number): Reading | null {
  const period = isXml(xml.timePeriod) ? xml.timePeriod : {};
  const startS = seconds(period.start);
  const durationS = seconds(period.duration);
  const value = plainNumber(xml.value);
  const isTimed = (period.start === undefined || startS <= LATEST_S) && isAbsentOrGood(period.duration);
  if (!isTimed || Number.isNaN(value)) return null;
  return { startS, durationS, value, isEstimated: qualities(xml).some((code) => ESTIMATED.has(code)), at };
}

const isAbsentOrGood = (text: unknown) => text === undefined || !Number.isNaN(seconds(text));

function qualities(xml: Xml): number[] {
  return listOf(xml.ReadingQuality).map(({ quality }) => Number(quality));
}

function refuse(xml: Xml, spot: Spot, list: Findings): void {
  const period = isXml(xml.timePeriod) ? xml.timePeriod : {};
  const shown = (value: unknown) => (value === undefined ? 'none' : quoted(String(value)));
  const got = `start ${shown(period.start)}, duration ${shown(period.duration)}, value ${shown(xml.value)}`;
  list.error('reading', 'IntervalReading', got, 'seconds since 1970, seconds, and a number', spot);
}

/** Whole seconds; NaN for anything else. */
function seconds(text: unknown): number {
  return typeof text === 'string' && /^\d{1,10}$/.test(text) ? Number(text) : Number.NaN;
}

/** Digits with a sign and a point at most; NaN for anything else. */
function plainNumber(text: unknown): number {
  return typeof text === 'string' && /^-?\d{1,15}(\.\d{1,9})?$/.test(text) ? Number(text) : Number.NaN;
}
