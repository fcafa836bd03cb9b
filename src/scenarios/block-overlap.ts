import type { MeteredBlock } from './metered.ts';

/** The time that blocks cover, to see what else falls in it. */
export class CoveredTime {
  private readonly startsS: number[] = [];
  private readonly endsS: number[] = [];

  constructor(blocks: readonly MeteredBlock[]) {
    const spans = blocks.map(({ startS, durationS, kwh }) => [startS, startS + durationS * kwh.length]);
    for (const [startS, endS] of spans.sort((a, b) => a[0] - b[0])) {
      const last = this.endsS.length - 1;
      if (last >= 0 && startS <= this.endsS[last]) this.endsS[last] = Math.max(this.endsS[last], endS);
      else {
        this.startsS.push(startS);
        this.endsS.push(endS);
      }
    }
  }

  /** True when any of this time is covered. */
  touches(fromS: number, toS: number): boolean {
    let [low, high] = [0, this.endsS.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.endsS[middle] <= fromS) low = middle + 1;
      else high = middle;
    }
    return low < this.startsS.length && this.startsS[low] < toS;
  }

  /** Share of the intervals of these blocks that fall in it, wholly or in part: 0 to 1. */
  shareOf(blocks: readonly MeteredBlock[]): number {
    let touched = 0;
    let all = 0;
    for (const { startS, durationS, kwh } of blocks)
      for (let i = 0; i < kwh.length; i++) {
        all++;
        if (this.touches(startS + i * durationS, startS + (i + 1) * durationS)) touched++;
      }
    return all === 0 ? 0 : touched / all;
  }

  /** These blocks, their intervals that fall in it missing (NaN); blocks with none left are dropped. */
  cutFrom(blocks: readonly MeteredBlock[]): MeteredBlock[] {
    return blocks.flatMap((block) => {
      const { startS, durationS } = block;
      const kwh = block.kwh.map((value, i) =>
        this.touches(startS + i * durationS, startS + (i + 1) * durationS) ? Number.NaN : value,
      );
      return kwh.every(Number.isNaN) ? [] : [{ ...block, kwh }];
    });
  }
}
