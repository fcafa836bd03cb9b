import { type ESTIMATED, MEASURED, type MeteredBlock, type SPREAD } from './metered.ts';

type Mark = typeof MEASURED | typeof ESTIMATED | typeof SPREAD;

/** Joins intervals that come one after the other to blocks: a year of them is a few blocks, not thousands. */
export class BlockRuns {
  private readonly done: MeteredBlock[] = [];
  private startS = 0;
  private durationS = 0;
  private kwh: number[] = [];
  private marks: Mark[] = [];

  /** @param line where they stand in the file */
  constructor(
    private readonly version: number,
    private readonly line?: number,
  ) {}

  /** Adds an interval [s, s, kWh]. */
  add(startS: number, durationS: number, kwh: number, mark: Mark): void {
    const isNext = durationS === this.durationS && startS === this.startS + this.durationS * this.kwh.length;
    if (!isNext) {
      this.endRun();
      this.startS = startS;
      this.durationS = durationS;
    }
    this.kwh.push(kwh);
    this.marks.push(mark);
  }

  /** All that was added. */
  blocks(): MeteredBlock[] {
    this.endRun();
    return this.done;
  }

  private endRun(): void {
    const { startS, durationS, version, line } = this;
    if (this.kwh.length > 0) {
      const marks = this.marks.some((mark) => mark !== MEASURED) ? Uint8Array.from(this.marks) : null;
      this.done.push({ startS, durationS, kwh: Float64Array.from(this.kwh), marks, line, version });
    }
    this.kwh = [];
    this.marks = [];
  }
}
