import { type Register, registersToSeries } from './interval-grid.ts';
import type { Issue } from './issue.ts';
import type { ReadResult } from './series.ts';

export interface Nem12Options {
  /** the meter to read where a file holds several; default: all, added up */
  meter?: string;
  /** market time less UTC [s] */
  offsetS?: number;
  maxGapMin?: number;
}

/** Market time is UTC+10 all the year, in every state. */
const MARKET_OFFSET_S = 36_000;
const LONGEST_LINE = 100_000;

/** Energy units and their kWh; powers and others are left out. */
const KWH_PER_UNIT: Record<string, number> = { WH: 0.001, KWH: 1, MWH: 1000 };

interface Channel {
  meter: string;
  suffix: string;
  kwhPerUnit: number | null;
  intervalMin: number;
  line: number;
}

/** Why these bytes look like a NEM12 file; null when they do not. */
export function looksLikeNem12(head: Uint8Array): string | null {
  const text = new TextDecoder('latin1').decode(head.subarray(0, 4000)).replace(/^ï»¿/, '');
  if (/^\s*100,NEM12\b/i.test(text)) return 'first record is 100,NEM12';
  if (/^\s*200,[^,]{1,11},[^\n]*\n\s*300,\d{8},/.test(text)) return 'a 200 record followed by 300 records';
  return null;
}

/**
 * Reads interval meter data of the NEM12 format.
 * Format: AEMO, Meter Data File Format Specification NEM12 & NEM13, v2.6 (as transcribed in public code, second
 * hand): 200 begins a channel, 300 is a day of intervals that end at multiples of the interval length, 400 gives
 * the quality of stretches of the day before. Channels E are drawn from the grid and added up as load; channels
 * B are sent to the grid and kept apart as generation; reactive and other units are counted and left out.
 */
export function readNem12(bytes: Uint8Array, file: string, options: Nem12Options = {}): ReadResult {
  const reader = new Nem12Reader(file, options);
  let line = 0;
  let from = bytes[0] === 0xef ? 3 : 0;
  const decoder = new TextDecoder('latin1');
  while (from < bytes.length) {
    line++;
    let to = bytes.indexOf(10, from);
    if (to < 0) to = bytes.length;
    if (to - from > LONGEST_LINE)
      reader.refuse(line, 'record', `a line of ${to - from} characters`, 'a record');
    else reader.record(decoder.decode(bytes.subarray(from, to)).trim(), line);
    from = to + 1;
  }
  return reader.finish();
}

class Nem12Reader {
  private readonly issues: Issue[] = [];
  private readonly registers = new Map<string, Register>();
  private readonly meters = new Set<string>();
  private readonly unread = new Map<string, number>();
  private channel: Channel | null = null;
  private day: { line: number; count: number; variable: boolean; covered: number } | null = null;
  private estimated = 0;
  private sawHeader = false;

  constructor(
    private readonly file: string,
    private readonly options: Nem12Options,
  ) {}

  record(text: string, line: number): void {
    if (text === '') return;
    const cells = text.split(',');
    const kind = cells[0];
    if (kind !== '400') this.endDay();
    if (kind === '100') this.sawHeader = true;
    else if (kind === '200') this.beginChannel(cells, line);
    else if (kind === '300') this.readDay(cells, line);
    else if (kind === '400') this.readQuality(cells, line);
    else if (kind !== '500' && kind !== '900')
      this.refuse(line, 'record', `'${kind.slice(0, 20)}'`, 'a record 100, 200, 300, 400, 500 or 900');
  }

  refuse(line: number, path: string, got: string, want: string): void {
    if (this.issues.length >= 100) return;
    this.issues.push({ severity: 'error', code: 'nem12', path, got, want, at: { file: this.file, line } });
  }

  private doubt(path: string, got: string, want: string): void {
    this.issues.push({ severity: 'doubt', code: 'nem12', path, got, want, at: { file: this.file } });
  }

  private beginChannel(cells: string[], line: number): void {
    const [, meter = '', , , suffix = '', , , unit = '', length = ''] = cells;
    const intervalMin = Number(length);
    this.channel = null;
    if (![5, 10, 15, 30, 60].includes(intervalMin)) {
      this.refuse(line, 'interval length', `'${length}'`, '5, 15 or 30 minutes');
      return;
    }
    const kwhPerUnit = KWH_PER_UNIT[unit.toUpperCase()] ?? null;
    this.channel = { meter, suffix: suffix.toUpperCase(), kwhPerUnit, intervalMin, line };
    this.meters.add(meter);
  }

  private readDay(cells: string[], line: number): void {
    const { channel } = this;
    if (channel === null) {
      this.refuse(line, '300', 'a day without a channel', 'a 200 record before it');
      return;
    }
    const count = 1440 / channel.intervalMin;
    this.day = { line, count, variable: false, covered: 0 };
    const quality = cells[2 + count] ?? '';
    const dayS = dateSeconds(cells[1] ?? '');
    if (Number.isNaN(dayS)) this.refuse(line, 'date', `'${cells[1] ?? ''}'`, 'CCYYMMDD');
    if (cells.length < count + 3 || !/^[AEFSVN]/.test(quality)) {
      this.refuse(line, '300', `${cells.length} cells`, `${count} values and a quality flag after the date`);
      return;
    }
    const kwh = Float64Array.from({ length: count }, (_, i) => plainNumber(cells[2 + i]));
    const bad = kwh.findIndex((value) => Number.isNaN(value));
    if (bad >= 0) {
      this.refuse(line, `interval ${bad + 1}`, `'${cells[2 + bad]}'`, 'a number of at least 0');
      return;
    }
    if (quality[0] !== 'A' && quality[0] !== 'V') this.estimated += this.isRead(channel) ? count : 0;
    this.day.variable = quality[0] === 'V';
    this.keep(channel, dayS, kwh);
  }

  private isRead({ suffix, kwhPerUnit, meter }: Channel): boolean {
    const wanted = !this.options.meter || this.options.meter === meter;
    return wanted && kwhPerUnit !== null && /^[EB]/.test(suffix);
  }

  private keep(channel: Channel, dayS: number, values: Float64Array): void {
    const { meter, suffix, intervalMin, kwhPerUnit } = channel;
    if (!this.isRead(channel) || kwhPerUnit === null) {
      this.unread.set(suffix, (this.unread.get(suffix) ?? 0) + 1);
      return;
    }
    const key = `${meter} ${suffix}`;
    const quantity = suffix.startsWith('E') ? ('loadKw' as const) : ('generationKw' as const);
    let register = this.registers.get(key);
    if (!register) {
      register = { name: key, quantity, blocks: [] };
      this.registers.set(key, register);
    }
    const startS = dayS - (this.options.offsetS ?? MARKET_OFFSET_S);
    register.blocks.push({
      startS,
      durationS: intervalMin * 60,
      kwh: values.map((value) => value * kwhPerUnit),
    });
  }

  private readQuality(cells: string[], line: number): void {
    const [from, to] = [Number(cells[1]), Number(cells[2])];
    const flag = (cells[3] ?? '')[0] ?? '';
    if (this.day === null) {
      this.refuse(line, '400', 'a quality without a day', 'a 300 record before it');
      return;
    }
    if (!(from === this.day.covered + 1) || !(to >= from) || to > this.day.count || !/^[AEFSN]/.test(flag)) {
      const want = `intervals from ${this.day.covered + 1}, at most to ${this.day.count}, and a flag but V`;
      this.refuse(line, '400', cells.slice(1, 4).join(','), want);
      return;
    }
    this.day.covered = to;
    if (flag !== 'A' && this.channel && this.isRead(this.channel)) this.estimated += to - from + 1;
  }

  /** A day of variable quality must be covered by its 400 records to the end. */
  private endDay(): void {
    const { day } = this;
    this.day = null;
    if (day === null || !(day.variable || day.covered > 0) || day.covered === day.count) return;
    this.refuse(day.line, '400', `quality of ${day.covered} intervals`, `of all ${day.count}`);
  }

  finish(): ReadResult {
    this.endDay();
    if (!this.sawHeader) this.doubt('100', 'no 100 record', 'one at the top; read all the same');
    if (this.meters.size > 1 && !this.options.meter)
      this.doubt('meters', [...this.meters].join(', '), 'one meter (meter: ...); all were added up');
    for (const [suffix, days] of this.unread)
      this.doubt(
        `channel ${suffix}`,
        `${days} days that are not energy drawn or sent, or of another meter`,
        'left out',
      );
    const { offsetS = MARKET_OFFSET_S, maxGapMin = 2880 } = this.options;
    return registersToSeries([...this.registers.values()], {
      file: this.file,
      reader: 'nem12',
      chosenBecause: 'records 200 and 300',
      timeZone: `market time UTC+${offsetS / 3600} all year, intervals stamped at their end`,
      estimated: this.estimated,
      maxGapMin,
      issues: this.issues,
    });
  }
}

/** Digits with at most one point and no exponent, as the format has them; NaN for anything else. */
function plainNumber(text: string): number {
  return /^\d{1,12}(\.\d*)?$/.test(text) ? Number(text) : Number.NaN;
}

/** CCYYMMDD as seconds; NaN for no date. */
function dateSeconds(text: string): number {
  if (!/^(19|20|21)\d{6}$/.test(text)) return Number.NaN;
  const [year, month, day] = [Number(text.slice(0, 4)), Number(text.slice(4, 6)), Number(text.slice(6))];
  const at = new Date(Date.UTC(year, month - 1, day));
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === day ? at.getTime() / 1000 : Number.NaN;
}

/**
 * The check digit of a meter identifier of ten characters: every other character code from the right, the last
 * first, doubled, the digits of all added up, and what is missing to the next ten.
 * Source: AEMO, National Metering Identifier Procedure (as transcribed in public code, second hand).
 */
export function meterCheckDigit(meter: string): number {
  let sum = 0;
  for (let i = 0; i < meter.length; i++) {
    const fromRight = meter.length - 1 - i;
    const code = meter.charCodeAt(i) * (fromRight % 2 === 0 ? 2 : 1);
    for (const digit of String(code)) sum += Number(digit);
  }
  return (10 - (sum % 10)) % 10;
}
