import seedrandom from 'seedrandom';
import type { Calendar } from './clock.ts';
import type { Appliance } from './site-schema.ts';

/** What an appliance list comes to, by arithmetic: watts times hours times duty. */
export interface ApplianceSum {
  name: string;
  /** mean over the days of the axis [kWh a day] */
  kwhPerDay: number;
  /** all of them running [kW] */
  runningKw: number;
  /** one of them starting [kVA] */
  startKva: number;
}

/** Seconds that a motor takes to start; its mean over the first minute is that much higher. Common practice: 1 to 3. */
const START_S = 2;

/**
 * Load of an appliance list, minute by minute, with seeded randomness.
 * Each appliance runs in its hours (of its weekdays and months) in cycles of about `cycleMin`, on for its duty of
 * each; a cycle's length is drawn within ±30 %. Duty rises with the air temperature where `dutyPerK` says so
 * (refrigeration), about 20 °C. A rule of our own; its energy is the arithmetic of `applianceSums`, to the cycles
 * cut off at the ends of hours.
 * @param airC outside air of each minute; null: 20 °C
 * @param out  load per phase of each minute [kW], added to
 */
export function addAppliances(
  out: Float64Array[],
  appliances: readonly Appliance[],
  calendar: Calendar,
  airC: Float64Array | null,
  seed: string,
): void {
  for (const [index, appliance] of appliances.entries())
    for (let piece = 0; piece < appliance.quantity; piece++) {
      const draw = seedrandom(`${seed} ${index} ${piece}`);
      const active = activeMinutes(appliance, calendar);
      const kw = appliance.watts / 1000;
      const shares = out.map((_, k) => phaseShare(appliance, k, out.length));
      const surge = (kw * (appliance.startMultiple - 1) * START_S) / 60;
      let wasOn = false;
      forEachCycle(appliance, active, airC, draw, (minute, on) => {
        if (on > 0)
          for (const [k, share] of shares.entries())
            out[k][minute] += share * (kw * on + (wasOn ? 0 : surge));
        wasOn = on > 0;
      });
    }
}

/** Calls back for each minute with the share of it that the appliance is on. */
function forEachCycle(
  appliance: Appliance,
  active: Uint8Array,
  airC: Float64Array | null,
  draw: () => number,
  each: (minute: number, on: number) => void,
): void {
  const length = () => appliance.cycleMin * (0.7 + 0.6 * draw());
  let cycle = length();
  // begin somewhere within a cycle
  let at = cycle * draw();
  for (let minute = 0; minute < active.length; minute++) {
    if (active[minute] === 0) {
      each(minute, 0);
      continue;
    }
    const duty = dutyAt(appliance, airC === null ? 20 : airC[minute]);
    let on = 0;
    let left = 1;
    while (left > 1e-9) {
      const step = Math.min(left, cycle - at);
      const until = Math.min(at + step, duty * cycle);
      if (until > at) on += until - at;
      at += step;
      left -= step;
      if (at >= cycle - 1e-9) {
        at = 0;
        cycle = length();
      }
    }
    each(minute, on);
  }
}

function dutyAt(appliance: Appliance, airC: number): number {
  return Math.min(1, Math.max(0, (appliance.dutyPercent + appliance.dutyPerK * (airC - 20)) / 100));
}

function phaseShare(appliance: Appliance, phase: number, phases: number): number {
  if (appliance.phase === 'all') return 1 / phases;
  return appliance.phase === phase + 1 ? 1 : 0;
}

/** 1 in the minutes of its hours, weekdays and months. */
function activeMinutes(appliance: Appliance, calendar: Calendar): Uint8Array {
  const spans = appliance.hours.map(({ from, to }) => [minuteOf(from), to === '24:00' ? 1440 : minuteOf(to)]);
  const byMinute = Uint8Array.from({ length: 1440 }, (_, minute) =>
    Number(
      spans.some(([from, to]) => (from < to ? minute >= from && minute < to : minute >= from || minute < to)),
    ),
  );
  const weekdays = new Set(appliance.weekdays.map((day) => WEEKDAYS.indexOf(day)));
  const months = new Set(appliance.months);
  const { minuteOfDay, weekday, monthIndex } = calendar;
  return Uint8Array.from(minuteOfDay, (minute, i) =>
    Number(byMinute[minute] === 1 && weekdays.has(weekday[i]) && months.has((monthIndex[i] % 12) + 1)),
  );
}

const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

function minuteOf(time: string): number {
  const [hour, minute] = time.split(':').map(Number);
  return hour * 60 + minute;
}

/** Daily energy, running and starting power of each entry, by arithmetic, at 20 °C unless air is given. */
export function applianceSums(
  appliances: readonly Appliance[],
  calendar: Calendar,
  airC: Float64Array | null,
): ApplianceSum[] {
  const days = calendar.minuteOfDay.length / 1440;
  return appliances.map((appliance) => {
    const active = activeMinutes(appliance, calendar);
    let dutyMinutes = 0;
    for (let i = 0; i < active.length; i++)
      if (active[i] === 1) dutyMinutes += dutyAt(appliance, airC === null ? 20 : airC[i]);
    const runningKw = (appliance.quantity * appliance.watts) / 1000;
    const runningKva = appliance.watts / 1000 / appliance.powerFactor;
    return {
      name: appliance.name,
      kwhPerDay: (runningKw * dutyMinutes) / 60 / days,
      runningKw,
      startKva: runningKva * appliance.startMultiple,
    };
  });
}
