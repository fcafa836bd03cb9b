import { ByteCells } from './byte-cells.ts';
import { Findings, someOf } from './findings.ts';
import { Nem12Channels } from './nem12-channel.ts';
import { Nem12Records } from './nem12-records.ts';
import { readNmi } from './nmi.ts';
import { headText, refuseNoText } from './plain-text.ts';
import type { ReadResult } from './series.ts';
import { sumRegisters } from './sum-registers.ts';

export interface Nem12Options {
  /** the meter (NMI) to read where a file holds several; default: all, added up */
  meter?: string;
  /** the file's time less UTC [s]; default market time, UTC+10 */
  offsetS?: number;
  /** longest gap that is filled [min] */
  maxGapMin?: number;
}

/** Market time is UTC+10 all the year, in every state. */
const MARKET_OFFSET_S = 36_000;
const LONGEST_LINE = 100_000;
const NEWLINE = 10;

/** Why these bytes look like a NEM12 file; null when they do not. */
export function looksLikeNem12(head: Uint8Array): string | null {
  const text = headText(head, 4000);
  const header = /^\s*100,(NEM1[23])\b/i.exec(text);
  if (header) return `first record is 100,${header[1].toUpperCase()}`;
  if (/^\s*200,[^,\n]{1,11},[^\n]*\n\s*300,\d{8},/.test(text)) return 'a 200 record followed by 300 records';
  return null;
}

/**
 * Reads interval meter data of the NEM12 format.
 *
 * A 200 record begins a channel, a 300 record is a day of intervals whose first ends one interval after midnight,
 * 400 records give the quality of stretches of the day. Channels E are drawn from the grid and added up as loadKw;
 * channels B are sent to the grid and kept apart as generationKw; reactive and other channels are counted and left
 * out. kWh, Wh and MWh are energy of an interval; kW, W and MW are its mean power. Flags E, F and S count as
 * estimated, N as missing. A row that lost values or its quality is left out, and filled like any gap.
 * @returns kW on an axis in UTC; issues with the line of each
 * Source: AEMO, Meter Data File Format Specification NEM12 & NEM13, v2.6 (as transcribed in public code, second
 * hand); power channels read as means: our own reading.
 */
export function readNem12(bytes: Uint8Array, file: string, options: Nem12Options = {}): ReadResult {
  const { meter, offsetS = MARKET_OFFSET_S, maxGapMin = 2880 } = options;
  const list = new Findings(file);
  const failed = () => ({ series: [], sheet: null, issues: list.issues });
  if (refuseNoText(bytes, list)) return failed();
  const wanted = meter ? readNmi(meter).nmi : null;
  const channels = new Nem12Channels(list, wanted);
  const records = new Nem12Records(channels, list, offsetS);
  const lastLine = readLines(bytes, records, list);
  records.finish(lastLine);
  const registers = channels.finish();
  const added = [...new Set(registers.map(({ nmi }) => nmi))];
  if (wanted !== null && !channels.nmis.has(wanted))
    list.error(
      'meter',
      'meter',
      `none of ${wanted}`,
      `one of ${someOf([...channels.nmis]) || 'the file, which names none'}`,
    );
  else if (added.length > 1)
    list.doubt('several-meters', 'meters', someOf(added), 'one meter (meter: ...); all were added up');
  if (registers.length === 0 && !list.hasErrors)
    list.error('no-load', 'channels', 'no days of a channel E or B', 'kWh or kW drawn (E) or sent (B)');
  if (list.hasErrors) return failed();
  if (registers.every(({ quantity }) => quantity !== 'loadKw'))
    list.doubt('no-load', 'channels', 'no channel E', 'what is drawn; only what is sent was read');
  const timeZone = `market time ${offsetName(offsetS)} all year, intervals stamped at their end`;
  const chosenBecause = looksLikeNem12(bytes) ?? 'records 200 and 300';
  return sumRegisters(registers, { file, reader: 'nem12', chosenBecause, timeZone, maxGapMin }, list);
}

/** @returns the number of the last line */
function readLines(bytes: Uint8Array, records: Nem12Records, list: Findings): number {
  const cells = new ByteCells(bytes);
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  let line = 0;
  let from = hasMark ? 3 : 0;
  while (from < bytes.length && !list.isFull) {
    line++;
    let to = bytes.indexOf(NEWLINE, from);
    if (to < 0) to = bytes.length;
    if (to - from > LONGEST_LINE)
      list.error('line-length', 'record', `a line of ${to - from} characters`, 'a record', { line });
    else {
      cells.begin(from, to);
      records.record(cells, line);
    }
    from = to + 1;
  }
  return line;
}

function offsetName(offsetS: number): string {
  const minutes = Math.round(Math.abs(offsetS) / 60);
  const hours = `${Math.floor(minutes / 60)}${minutes % 60 ? `:${String(minutes % 60).padStart(2, '0')}` : ''}`;
  return `UTC${offsetS < 0 ? '-' : '+'}${hours}`;
}
