import { localMs, type StudyView } from './view.ts';

/** A stretch within one local day. */
export interface DaySpan {
  /** days since 1970-01-01, local */
  dayNumber: number;
  /** local hours of the day, 0 to 24 */
  fromHour: number;
  toHour: number;
}

const DAY_MS = 86_400_000;

/** Cuts a stretch of the run, in hours from its start, at local midnights. */
export function daySpans(view: StudyView, startH: number, endH: number): DaySpan[] {
  const spans: DaySpan[] = [];
  for (let h = startH; endH - h > 1e-6; ) {
    const ms = localMs(view, h);
    const dayNumber = Math.floor(ms / DAY_MS);
    const fromHour = (ms - dayNumber * DAY_MS) / 3_600_000;
    // looked up anew after each midnight, so that a change of the clock costs no more than its own day
    const length = Math.min(endH - h, 24 - fromHour);
    spans.push({ dayNumber, fromHour, toHour: fromHour + length });
    h += length;
  }
  return spans;
}
