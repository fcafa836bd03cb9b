import { type Findings, quoted } from './findings.ts';
import { ESTIMATED, MEASURED, type MeteredBlock } from './metered.ts';

/** Reasons with which even an actual day must have 400 records. */
const DETAILED_REASONS = new Set(['79', '89', '61']);

interface Day {
  /** null for a day that is left out: its 400 records still belong to it */
  block: MeteredBlock | null;
  count: number;
  flag: string;
  reason: string;
  line: number;
  covered: number;
}

/** Follows the 400 records of a day: they must cover it from the first interval to the last, in order. */
export class Nem12Quality {
  private day: Day | null = null;
  /** true after a day that is not read, whose 400 records are of no interest */
  private isPassing = false;
  private undetailed = { count: 0, line: 0 };

  constructor(private readonly list: Findings) {}

  passDay(): void {
    this.isPassing = true;
  }

  beginDay(block: MeteredBlock | null, count: number, flag: string, reason: string, line: number): void {
    this.isPassing = false;
    this.day = { block, count, flag, reason, line, covered: 0 };
  }

  /** Takes the cells of a 400 record after the first. */
  take(cells: readonly string[], line: number): void {
    const { day } = this;
    if (day === null) {
      if (!this.isPassing)
        this.list.error('quality', '400', 'a quality without a day', 'a 300 record before it', { line });
      return;
    }
    const [fromText = '', toText = '', quality = ''] = cells;
    const [from, to] = [wholeNumber(fromText), wholeNumber(toText)];
    const isNext = from === day.covered + 1 && to >= from && to <= day.count;
    if (!isNext || !/^([AN]|[AEFSN]\d\d|[EFS])$/i.test(quality)) {
      const want = `intervals from ${day.covered + 1}, at most to ${day.count}, and a flag but V`;
      this.list.error('quality', '400', quoted(`${fromText},${toText},${quality}`), want, { line });
      this.passOn();
      return;
    }
    day.covered = to;
    if (day.block) markRange(day.block, from - 1, to, quality[0].toUpperCase());
  }

  /** One bad 400 record makes those after it no worse. */
  private passOn(): void {
    this.day = null;
    this.isPassing = true;
  }

  /** A day of variable quality, or one with any 400 record, must be covered to its end. */
  endDay(): void {
    const { day } = this;
    this.day = null;
    if (day === null) return;
    if (day.covered === 0 && day.flag === 'A' && DETAILED_REASONS.has(day.reason)) {
      if (this.undetailed.count === 0) this.undetailed.line = day.line;
      this.undetailed.count++;
    }
    if (!(day.flag === 'V' || day.covered > 0) || day.covered === day.count) return;
    const want = `of all ${day.count}`;
    this.list.error('quality', '400', `quality of ${day.covered} intervals`, want, { line: day.line });
  }

  finish(): void {
    this.endDay();
    const { count, line } = this.undetailed;
    if (count === 0) return;
    const want = '400 records that tell which intervals the reason is about';
    this.list.doubt('quality', '300', `${count} days with reason 79, 89 or 61 alone`, want, { line });
  }
}

function markRange(block: MeteredBlock, from: number, to: number, flag: string): void {
  if (flag === 'N') block.kwh.fill(Number.NaN, from, to);
  const mark = flag === 'A' ? MEASURED : ESTIMATED;
  if (block.marks === null && mark === MEASURED) return;
  block.marks ??= new Uint8Array(block.kwh.length);
  block.marks.fill(mark, from, to);
}

function wholeNumber(text: string): number {
  return /^\d{1,4}$/.test(text) ? Number(text) : Number.NaN;
}
