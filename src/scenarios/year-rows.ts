import { DAYS, NOMINAL_YEAR, stampWords } from './common-year.ts';
import type { StepNames } from './lay-rows.ts';

/** Days of a 365-day year that a file covers. */
export interface DaySpan {
  /** from 0 */
  firstDay: number;
  days: number;
}

export const WHOLE_YEAR: DaySpan = { firstDay: 0, days: DAYS };

/** Steps of a span of days, stamped at their beginning (0) or their end (1). */
export function yearSteps(
  span: DaySpan,
  stepMin: number,
  stampAt: 0 | 1,
  words: { rows: string; whole: string },
): StepNames {
  const perDay = 1440 / stepMin;
  return {
    count: span.days * perDay,
    stepMin,
    dayOf: (step) => span.firstDay + Math.floor(step / perDay) + 1,
    stampOf: (step) =>
      stampWords(span.firstDay + Math.floor(step / perDay), ((step % perDay) + stampAt) * stepMin),
    ...words,
  };
}

/** The calendar years that a typical year is put together from. */
export class YearsSeen {
  private least = Number.POSITIVE_INFINITY;
  private most = Number.NEGATIVE_INFINITY;

  see(year: number): void {
    this.least = Math.min(this.least, year);
    this.most = Math.max(this.most, year);
  }

  /** What became of them. */
  words(): string {
    const years = this.least < this.most ? `years ${this.least} to ${this.most}` : `the year ${this.least}`;
    return `${years} laid on any calendar year, shown on ${NOMINAL_YEAR}`;
  }
}
