import type { ByteCells } from './byte-cells.ts';
import { type Findings, quoted } from './findings.ts';
import { ESTIMATED, type MeteredBlock } from './metered.ts';
import type { Channel, Nem12Channels } from './nem12-channel.ts';
import { type DayRecord, dateSeconds, readDay } from './nem12-day.ts';
import { Nem12Quality } from './nem12-quality.ts';

/** Codes of what can be wrong with a day; anything else is a value. */
const BAD_CODES: Record<string, string> = { quality: 'quality', '300': 'cells' };
/** Damaged days that are listed one by one. */
const MOST_SHORT = 20;

/** Takes the records of a NEM12 file in order; what is wrong goes to the list, the days to the channels. */
export class Nem12Records {
  private channel: Channel | null = null;
  /** days of the channel since its 200 record */
  private days = new Map<number, MeteredBlock>();
  private lastDayS = Number.NEGATIVE_INFINITY;
  private readonly quality: Nem12Quality;
  private lastKind = '';
  private sawHeader = false;
  private sawOrphan = false;
  private sawNem13 = false;
  private shortDays = 0;
  private disorder = { count: 0, line: 0 };
  private badStamps = { count: 0, line: 0 };

  /** @param offsetS the file's time less UTC [s] */
  constructor(
    private readonly channels: Nem12Channels,
    private readonly list: Findings,
    private readonly offsetS: number,
  ) {
    this.quality = new Nem12Quality(list);
  }

  /** Takes one line; `cells` stands at its first. */
  record(cells: ByteCells, line: number): void {
    const kind = cells.text();
    if (kind === '' && cells.rest().every((cell) => cell === '')) return;
    this.lastKind = kind;
    if (kind !== '400') this.quality.endDay();
    if (kind === '300') this.readDay(cells, line);
    else if (kind === '400') this.quality.take(cells.rest(), line);
    else if (kind === '200') this.beginChannel(cells.rest(), line);
    else if (kind === '100') this.readHeader(cells.text(), line);
    else if (kind === '250' || kind === '550') this.refuseNem13(`a ${kind} record`, line);
    else if (kind === '900') this.channel = null;
    else if (kind !== '500')
      this.list.error('record', 'record', quoted(kind), 'a record 100, 200, 300, 400, 500 or 900', { line });
  }

  private readHeader(version: string, line: number): void {
    this.sawHeader = true;
    this.channel = null;
    if (/^NEM13$/i.test(version)) this.refuseNem13('the header of NEM13', line);
    else if (!/^NEM12$/i.test(version)) this.list.error('header', '100', quoted(version), 'NEM12', { line });
  }

  private refuseNem13(got: string, line: number): void {
    if (!this.sawNem13)
      this.list.error('nem13', 'file', got, 'NEM12: interval data, not readings of a register', { line });
    this.sawNem13 = true;
  }

  private beginChannel(cells: string[], line: number): void {
    this.channel = this.channels.begin(cells, line);
    this.days = new Map();
    this.lastDayS = Number.NEGATIVE_INFINITY;
  }

  private readDay(cells: ByteCells, line: number): void {
    const { channel } = this;
    if (channel === null) {
      if (!this.sawOrphan)
        this.list.error('no-channel', '300', 'a day without a channel', 'a 200 record before it', { line });
      this.sawOrphan = true;
      return;
    }
    if (channel.leftOut) channel.leftOut.days++;
    this.quality.passDay();
    if (channel.register === null) return;
    const date = cells.text();
    const dayS = dateSeconds(date);
    const day = readDay(cells, 1440 / channel.intervalMin);
    if (Number.isNaN(dayS)) this.list.error('date', 'date', quoted(date), 'CCYYMMDD', { line });
    else if (day.kind === 'bad')
      this.list.error(BAD_CODES[day.path] ?? 'value', day.path, day.got, day.want, { line });
    else this.keepDay(channel, day, dayS, date, line);
  }

  private keepDay(
    channel: Channel,
    day: Exclude<DayRecord, { kind: 'bad' }>,
    dayS: number,
    date: string,
    line: number,
  ) {
    if (dayS < this.lastDayS) {
      countAt(this.disorder, line);
    }
    this.lastDayS = dayS;
    const count = 1440 / channel.intervalMin;
    if (day.kind === 'short') {
      this.doubtShort(day.got, count, line);
      this.quality.beginDay(null, count, '', '', line);
      return;
    }
    const { values, flag, reason, version } = day;
    if (!day.hasStamps) countAt(this.badStamps, line);
    const block: MeteredBlock = {
      startS: dayS - this.offsetS,
      durationS: channel.intervalMin * 60,
      kwh: scaled(values, channel.kwhPerValue),
      marks: null,
      line,
      version,
    };
    if (flag === 'N') block.kwh.fill(Number.NaN);
    if (flag === 'E' || flag === 'F' || flag === 'S') block.marks = new Uint8Array(count).fill(ESTIMATED);
    this.quality.beginDay(block, count, flag, reason, line);
    this.checkTwice(block, date, line);
    this.days.set(dayS, block);
    channel.register?.blocks.push(block);
  }

  private doubtShort(got: string, count: number, line: number): void {
    if (this.shortDays++ >= MOST_SHORT) return;
    const want = `${count} values and a quality; the day is left out`;
    this.list.doubt('day-short', '300', got, want, { line });
  }

  /** Within one channel a day can be there once; with two that differ nothing says which is right. */
  private checkTwice(block: MeteredBlock, date: string, line: number): void {
    const before = this.days.get(block.startS + this.offsetS);
    if (!before || before.version !== block.version) return;
    const differs = block.kwh.some((value, i) => Math.abs(value - before.kwh[i]) > 1e-9);
    if (!differs) return;
    const got = `${date} with other values than in line ${before.line}, neither of them newer`;
    this.list.error('day-twice', '300', got, 'each day of a channel once', { line });
  }

  finish(lastLine: number): void {
    this.quality.finish();
    const { list, disorder, badStamps } = this;
    // not read to its end
    if (list.isFull) return;
    if (!this.sawHeader) list.doubt('no-header', '100', 'no 100 record', 'one at the top; read all the same');
    if (this.lastKind !== '900')
      list.doubt('no-end', '900', 'no 900 record at the end', 'one; the file may be cut short', {
        line: lastLine,
      });
    if (this.shortDays > MOST_SHORT)
      list.doubt('day-short', '300', `${this.shortDays - MOST_SHORT} more such days`, 'whole days; left out');
    if (disorder.count > 0)
      list.doubt(
        'order',
        '300',
        `${disorder.count} days before the one above them`,
        'days in order of date',
        {
          line: disorder.line,
        },
      );
    if (badStamps.count > 0)
      list.doubt(
        'stamps',
        '300',
        `${badStamps.count} days whose update times are not 14 digits`,
        'CCYYMMDDhhmmss',
        {
          line: badStamps.line,
        },
      );
  }
}

function countAt(tally: { count: number; line: number }, line: number): void {
  if (tally.count++ === 0) tally.line = line;
}

function scaled(values: Float64Array, factor: number): Float64Array {
  if (factor !== 1) for (let i = 0; i < values.length; i++) values[i] *= factor;
  return values;
}
