import { type Calendar, type Clock, instantsOf } from './clock.ts';
import type { TimeAxis } from './series.ts';
import { WEEKDAYS } from './site-fields.ts';

/** Daily hours by the local clock, perhaps on some weekdays and months only. */
export interface HourSpan {
  /** left out: all day */
  from?: string;
  to?: string;
  weekdays?: readonly (typeof WEEKDAYS)[number][];
  months?: readonly number[];
}

/** 1 in steps that start within any of the spans. */
export function hoursFlags(calendar: Calendar, spans: readonly HourSpan[]): Uint8Array {
  const flags = new Uint8Array(calendar.minuteOfDay.length);
  for (const span of spans) markSpan(calendar, span, (i) => (flags[i] = 1));
  return flags;
}

/** For each step the place (from 1) of the first span that fits, or 0. */
export function firstSpan(calendar: Calendar, spans: readonly HourSpan[]): Uint8Array {
  const places = new Uint8Array(calendar.minuteOfDay.length);
  for (const [place, span] of spans.entries())
    markSpan(calendar, span, (i) => {
      if (places[i] === 0) places[i] = place + 1;
    });
  return places;
}

/** Calls back for each step within a span; one that passes midnight belongs to the day on which it begins. */
function markSpan(calendar: Calendar, span: HourSpan, mark: (i: number) => void): void {
  const from = span.from === undefined ? 0 : minuteOf(span.from);
  const to = span.to === undefined ? 1440 : minuteOf(span.to);
  const days = span.weekdays ?? WEEKDAYS;
  const onDay = WEEKDAYS.map((day) => days.includes(day));
  const inMonth = Array.from({ length: 12 }, (_, month) => span.months?.includes(month + 1) ?? true);
  const { minuteOfDay, weekday, dayNumber } = calendar;
  let day = Number.NaN;
  let fitsToday = false;
  let fitsYesterday = false;
  for (let i = 0; i < minuteOfDay.length; i++) {
    if (dayNumber[i] !== day) {
      day = dayNumber[i];
      fitsToday = onDay[weekday[i]] && inMonth[monthOf(day)];
      fitsYesterday = onDay[(weekday[i] + 6) % 7] && inMonth[monthOf(day - 1)];
    }
    const minute = minuteOfDay[i];
    const begunToday = minute >= from && (from > to || minute < to);
    const begunYesterday = from > to && minute < to;
    if ((begunToday && fitsToday) || (begunYesterday && fitsYesterday)) mark(i);
  }
}

/** Month, January 0, of a day counted since 1970-01-01. */
function monthOf(dayNumber: number): number {
  return new Date(dayNumber * 86_400_000).getUTCMonth();
}

/** 1 in the first step of every n-th day that reaches a time of day; the first day is day 0. */
export function dailyFlags(calendar: Calendar, stepMin: number, time: string, everyDays: number): Uint8Array {
  const at = minuteOf(time);
  const { minuteOfDay, dayNumber } = calendar;
  const flags = new Uint8Array(minuteOfDay.length);
  let flagged = Number.NaN;
  for (let i = 0; i < flags.length; i++) {
    const day = dayNumber[i];
    if (day === flagged || (day - dayNumber[0]) % everyDays !== 0) continue;
    if (minuteOfDay[i] + stepMin <= at) continue;
    flagged = day;
    // a run that begins later in the day waits for the next one
    if (i > 0 || minuteOfDay[0] <= at) flags[i] = 1;
  }
  return flags;
}

function minuteOf(time: string): number {
  const [hour, minute] = time.split(':').map(Number);
  return hour * 60 + minute;
}

const DELIVERY_HOUR = 8;

/** Steps at which the tank is filled on fixed dates, at 08:00 local time; dates outside the axis are left out. */
export function refillSteps(dates: readonly string[], clock: Clock, axis: TimeAxis): Int32Array {
  const steps = dates.map((date) => {
    const [atS] = instantsOf(clock, Date.parse(`${date}T00:00Z`) / 1000 + DELIVERY_HOUR * 3600);
    return Math.ceil((atS - axis.startS) / (axis.stepMin * 60));
  });
  const inside = steps.filter((step) => step >= 0 && step < axis.count);
  return Int32Array.from(new Set(inside.sort((a, b) => a - b)));
}
