import { Findings, someOf } from './findings.ts';
import { chooseRegisters } from './greenbutton-choice.ts';
import { clockText } from './greenbutton-clock.ts';
import { openFeed } from './greenbutton-feed.ts';
import { GreenButtonIntervals, type MeterReadings } from './greenbutton-intervals.ts';
import { GreenButtonLinks } from './greenbutton-links.ts';
import { guesses } from './greenbutton-type.ts';
import { headText, refuseNoText } from './plain-text.ts';
import type { ReadResult } from './series.ts';
import { sumRegisters } from './sum-registers.ts';

export interface GreenButtonOptions {
  /** longest gap that is filled [min] */
  maxGapMin?: number;
}

/** Why these bytes look like a Green Button file; null when they do not. */
export function looksLikeGreenButton(head: Uint8Array): string | null {
  return /naesb\.org\/espi/.test(headText(head, 8000)) ? 'names the namespace http://naesb.org/espi' : null;
}

/**
 * Reads energy readings of a Green Button (ESPI) Atom feed.
 *
 * Entries are linked by their hrefs, not nested; times are seconds in UTC; a value counts 10^powerOfTenMultiplier of
 * its unit, Wh (72) or W (38, the mean over the interval). Readings delivered to the customer are loadKw, readings
 * received from the customer generationKw; net readings are split by their sign; a running register is read at the
 * start of each period and differenced. Energy that a usage point gives in several ways counts once; usage points
 * are added up.
 * @returns kW on an axis in UTC; issues with line and column
 * Source: NAESB REQ.21, espi.xsd 4.0.
 */
export function readGreenButton(
  bytes: Uint8Array,
  file: string,
  options: GreenButtonOptions = {},
): ReadResult {
  const { maxGapMin = 2880 } = options;
  const list = new Findings(file);
  const failed = () => ({ series: [], sheet: null, issues: list.issues });
  const feed = refuseNoText(bytes, list) ? null : openFeed(bytes, list);
  if (feed === null) return failed();
  const links = new GreenButtonLinks(feed, list);
  for (const entry of feed.entries()) {
    links.take(entry);
    if (list.isFull) break;
  }
  links.refuseStrays();
  const intervals = new GreenButtonIntervals(feed, list, maxGapMin);
  const readings = links.readings();
  doubtGuesses(readings, list);
  const sources = readings.map((one) => ({ ...one, blocks: intervals.of(one), spot: one.raw[0].spot }));
  if (list.hasErrors) return failed();
  const filled = sources.filter(({ blocks }) => blocks.length > 0);
  const registers = chooseRegisters(filled, list);
  const points = new Set(filled.map(({ usagePoint }) => usagePoint));
  if (points.size > 1)
    list.doubt('several-meters', 'usage points', someOf([...points]), 'one; all were added up');
  if (registers.length === 0)
    list.error('no-load', 'readings', 'no readings of electric energy or power', 'Wh (uom 72) or W (38)');
  if (list.hasErrors) return failed();
  if (registers.every(({ quantity }) => quantity !== 'loadKw'))
    list.doubt('no-load', 'readings', 'nothing delivered', 'what is drawn; only what is sent was read');
  const chosenBecause = looksLikeGreenButton(bytes) ?? 'an Atom feed';
  const timeZone = `UTC seconds${clockText(links.clock)}`;
  return sumRegisters(registers, { file, reader: 'greenbutton', chosenBecause, timeZone, maxGapMin }, list);
}

/** What reading the types takes for granted, each once. */
function doubtGuesses(readings: readonly MeterReadings[], list: Findings): void {
  const told = new Set<string>();
  for (const { type, name, raw } of readings)
    for (const { path, got, want } of guesses(type)) {
      if (told.has(`${path} ${got}`)) continue;
      told.add(`${path} ${got}`);
      list.doubt('reading-type', `${path} of ${name}`, got, want, raw[0].spot);
    }
}
