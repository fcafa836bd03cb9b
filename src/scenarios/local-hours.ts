import { type Calendar, type Clock, instantsOf } from './clock.ts';
import type { TimeAxis } from './series.ts';

/** 1 in steps that start within any of the daily spans, by the local clock; a span may pass midnight. */
export function hoursFlags(calendar: Calendar, spans: readonly { from: string; to: string }[]): Uint8Array {
  const minutes = spans.map(({ from, to }) => [minuteOf(from), minuteOf(to)]);
  const within = (minute: number) =>
    minutes.some(([from, to]) =>
      from <= to ? minute >= from && minute < to : minute >= from || minute < to,
    );
  const byMinute = Uint8Array.from({ length: 1440 }, (_, minute) => Number(within(minute)));
  const flags = new Uint8Array(calendar.minuteOfDay.length);
  for (let i = 0; i < flags.length; i++) flags[i] = byMinute[calendar.minuteOfDay[i]];
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
