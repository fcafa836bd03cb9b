import type { Inputs } from '../sim/inputs.ts';
import type { Cache } from './cache.ts';
import type { Calendar, Clock } from './clock.ts';
import { momentFlags, startFails, unitsOut } from './fault-flags.ts';
import { dailyFlags, firstSpan, type HourSpan, hoursFlags } from './local-hours.ts';
import type { TimeAxis } from './series.ts';
import { shiftableParts } from './shiftable-parts.ts';
import type { Site } from './site-schema.ts';

/** Flags of a run: hours of the day and of the week, people, faults, what falls due. Absent where nothing is said. */
export function flagsFromSite(
  site: Site,
  calendar: Calendar,
  clock: Clock,
  axis: TimeAxis,
  cache: Cache,
): Partial<Inputs> {
  const { control, people, faults, generator } = site;
  const { exercise } = control;
  const hours = (spans: readonly HourSpan[]) =>
    cache.once(['hours', spans, axis], () => hoursFlags(calendar, spans));
  const daily = (time: string, everyDays: number) =>
    cache.once(['daily', time, everyDays, axis], () => dailyFlags(calendar, axis.stepMin, time, everyDays));
  const bypass = momentFlags(faults.bypass, clock, axis);
  const flags: { [K in keyof Inputs]?: Inputs[K] | null } = {
    restricted: hours(control.restrictedHours),
    night: hours([control.nightHours]),
    attended: attendedFlags(people, hours, clock, axis),
    outOfOrder: momentFlags(faults.generator, clock, axis),
    bypass,
    unitsOut: unitsOut(faults.units, site.inverter.phases, clock, axis),
    runWindow: control.runHours.length > 0 ? hours(control.runHours) : null,
    exerciseDue: exercise && daily(exercise.at, exercise.everyDays),
    thresholdSet: control.calendar.length > 0 ? firstSpan(calendar, control.calendar.map(spanOf)) : null,
    shiftDeadline: shiftableParts(site).map(({ deadline }) => daily(deadline, 1)),
    startFails: startFails(generator),
  };
  return Object.fromEntries(Object.entries(flags).filter(([, series]) => series !== null)) as Partial<Inputs>;
}

/** Somebody is there in the attended hours (always, where none are given), but not while away; null: always. */
function attendedFlags(
  { attended, away }: Site['people'],
  hours: (spans: readonly HourSpan[]) => Uint8Array,
  clock: Clock,
  axis: TimeAxis,
): Uint8Array | null {
  const gone = momentFlags(away, clock, axis);
  if (attended.length === 0 && gone === null) return null;
  const there = attended.length === 0 ? null : hours(attended);
  return Uint8Array.from({ length: axis.count }, (_, i) =>
    Number((there?.[i] ?? 1) === 1 && gone?.[i] !== 1),
  );
}

function spanOf({ hours, weekdays, months }: Site['control']['calendar'][number]): HourSpan {
  return { ...hours, weekdays, months };
}
