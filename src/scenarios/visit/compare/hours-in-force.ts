import { upperMedianOf } from '../../middle-values.ts';
import type { Site } from '../../site-schema.ts';
import type { VisitGround } from '../ground.ts';
import type { LogSeries } from './log-series.ts';

/** Hours in which the generator is held back and exercise runs, as the log shows them, where they are not as set. */
export interface HoursInForce {
  /** flags of a run; absent: as set */
  restricted?: Uint8Array;
  exerciseDue?: Uint8Array;
  /** the same as changes of the site file */
  changes: Record<string, unknown>;
}

/** Starts in an hour of the day that is said to be restricted, from which on it is not. */
const LEAST_STARTS = 3;
/** A start so shortly before restricted hours end may have come after them: steps and clocks are rough [min]. */
const EDGE_MIN = 30;
/** Days on which an hour went by with a low battery and no start, from which on it is restricted. */
const LEAST_DAYS = 5;
/** Charge this far from a threshold is told from it: shown charge is rounded, and steps are minutes long. */
export const MARGIN_SOC = 0.03;
/** A start this near to the peak threshold may have been one by peak. */
const PEAK_SHARE = 0.8;
/** Runs at the same time of day that nothing else explains, from which on they are exercise runs. */
const LEAST_EXERCISES = 3;

/**
 * What the log's starts say of restricted hours and exercise runs.
 * @param startSoc threshold in force, on the shown charge; null: not known, and then nothing is said of the hours
 * @returns null where they are as set, or where nothing can be told
 */
export function hoursInForce(
  ground: VisitGround,
  series: LogSeries,
  startSoc: number | null,
): HoursInForce | null {
  const { site, record, calendar } = ground;
  const { on, socFrac } = series;
  if (on === null || socFrac === null || startSoc === null || !site.control.charge) return null;
  const starts = startsOf(ground, series, startSoc);
  const changes: Record<string, unknown> = {};
  const restricted = restrictedNow(ground, series, startSoc, starts);
  if (restricted !== null)
    changes['control.restrictedHours'] = spansOf(restricted, calendar.minuteOfDay, record.axis.stepMin);
  const exercise = exerciseNow(ground, starts, on);
  if (exercise !== null) changes['control.exercise'] = exercise.rule;
  if (restricted === null && exercise === null) return null;
  return {
    ...(restricted && { restricted }),
    ...(exercise && { exerciseDue: exercise.due }),
    changes,
  };
}

interface Start {
  step: number;
  /** the battery was low enough */
  isLow: boolean;
  /** it was so low that restricted hours do not hold */
  isUrgent: boolean;
  /** the load was so high that it may have been one by peak */
  isPeak: boolean;
}

function startsOf({ site, designed }: VisitGround, series: LogSeries, startSoc: number): Start[] {
  const { on, socFrac, loadKw, phasesKw, known } = series;
  if (on === null || socFrac === null) return [];
  const urgent = site.control.urgentSoc ?? site.battery?.cutoffSoc ?? 0;
  const peakKw = PEAK_SHARE * (site.control.peak?.startKw ?? Number.POSITIVE_INFINITY);
  const phases = designed.loadKw.length;
  const starts: Start[] = [];
  for (let i = 2; i < on.length; i++) {
    if (!(known[i] === 1 && known[i - 1] === 1 && on[i] === 1 && on[i - 1] === 0)) continue;
    const soc = socFrac[i - 1];
    let isPeak = loadKw === null && site.control.peak !== null;
    for (let j = i - 2; j <= i; j++) {
      const highest = phasesKw ? Math.max(...phasesKw.map((kw) => kw[j])) : (loadKw?.[j] ?? 0) / phases;
      if (highest > peakKw || (!phasesKw && phases > 1 && highest > peakKw / 2)) isPeak ||= true;
    }
    starts.push({
      step: i,
      isLow: soc <= startSoc + MARGIN_SOC,
      isUrgent: soc <= urgent + MARGIN_SOC,
      isPeak,
    });
  }
  return starts;
}

/** Flags of the hours in force, by what happened in each hour of the day; null: as set. */
function restrictedNow(
  { calendar, designed, record, site }: VisitGround,
  { on, socFrac, known }: LogSeries,
  startSoc: number,
  starts: readonly Start[],
): Uint8Array | null {
  if (on === null || socFrac === null) return null;
  const set = designed.restricted ?? new Uint8Array(designed.count);
  const hourOf = (i: number) => Math.floor(calendar.minuteOfDay[i] / 60);
  const edgeSteps = Math.ceil(EDGE_MIN / record.axis.stepMin);
  const free = new Array<number>(24).fill(0);
  const freeThoughSet = new Array<number>(24).fill(0);
  for (const { step, isLow, isUrgent, isPeak } of starts) {
    if (!isLow || isUrgent || isPeak) continue;
    free[hourOf(step)]++;
    if (set[step] === 1 && set[step + edgeSteps] === 1) freeThoughSet[hourOf(step)]++;
  }
  const urgent = site.control.urgentSoc ?? site.battery?.cutoffSoc ?? 0;
  const stepsPerHour = 60 / record.axis.stepMin;
  const heldDays = new Array<number>(24).fill(0);
  for (let i = 0; i + stepsPerHour <= on.length; i++) {
    if (calendar.minuteOfDay[i] % 60 !== 0) continue;
    let isHeld = true;
    for (let j = i; j < i + stepsPerHour && isHeld; j++)
      isHeld = known[j] === 1 && on[j] === 0 && socFrac[j] < startSoc - MARGIN_SOC && socFrac[j] > urgent;
    if (isHeld) heldDays[hourOf(i)]++;
  }
  // hours that were set together are lifted together, unless some of them are seen to hold
  const setHours = new Set(Array.from(set.keys()).flatMap((i) => (set[i] === 1 ? [hourOf(i)] : [])));
  const sumOver = (counts: readonly number[]) => [...setHours].reduce((sum, hour) => sum + counts[hour], 0);
  const noneHolds = sumOver(freeThoughSet) >= LEAST_STARTS && sumOver(heldDays) === 0;
  let isChanged = false;
  const flags = set.map((flag, i) => {
    const hour = hourOf(i);
    const isFree = noneHolds || (freeThoughSet[hour] >= LEAST_STARTS && heldDays[hour] === 0);
    const isHeld = free[hour] === 0 && heldDays[hour] >= LEAST_DAYS;
    if (!(flag === 1 ? isFree : isHeld)) return flag;
    isChanged = true;
    return 1 - flag;
  });
  return isChanged ? flags : null;
}

/** Flags as daily spans: those of the first whole day. */
function spansOf(
  flags: Uint8Array,
  minuteOfDay: Uint16Array,
  stepMin: number,
): { from: string; to: string }[] {
  const steps = 1440 / stepMin;
  const at = new Uint8Array(steps);
  for (const [i, minute] of minuteOfDay.entries()) if (flags[i] === 1) at[Math.floor(minute / stepMin)] = 1;
  const time = (step: number) => {
    const minute = ((step % steps) * stepMin) % 1440;
    return `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
  };
  if (at.every((one) => one === 1))
    return [
      { from: '00:00', to: '12:00' },
      { from: '12:00', to: '00:00' },
    ];
  const spans: { from: string; to: string }[] = [];
  for (let i = 0; i < steps; i++) {
    if (at[i] === 0 || at[(i + steps - 1) % steps] === 1) continue;
    let end = i;
    while (at[end % steps] === 1) end++;
    spans.push({ from: time(i), to: time(end) });
  }
  return spans;
}

/** Exercise runs in the log that are not set, or set ones that it has not; null: as set, or it cannot be told. */
function exerciseNow(
  { site, calendar, designed, record }: VisitGround,
  starts: readonly Start[],
  on: Float64Array,
): { rule: Site['control']['exercise']; due: Uint8Array } | null {
  const { exercise, full, hand, continuous } = site.control;
  if (continuous) return null;
  const { stepMin } = record.axis;
  if (exercise !== null) {
    const due = Array.from(designed.exerciseDue ?? []).flatMap((flag, i) => (flag === 1 ? [i] : []));
    // a run that is late by a start delay still belongs to it
    const ran = due.filter((i) => on.subarray(i, i + Math.ceil(15 / stepMin)).some((value) => value === 1));
    const told = due.filter((i) => on[i] === 0 || on[i] === 1);
    const isMissing =
      told.length >= LEAST_EXERCISES && ran.length <= told.length / 4 && exercise.unlessWithinDays === 0;
    return isMissing ? { rule: null, due: new Uint8Array(designed.count) } : null;
  }
  // other rules start a generator on a battery that is not low
  if (full !== null || hand !== null) return null;
  const odd = starts.filter(({ isLow, isPeak }) => !isLow && !isPeak).map(({ step }) => step);
  const byTime = new Map<number, number[]>();
  for (const step of odd) {
    const slot = Math.round(calendar.minuteOfDay[step] / 15);
    byTime.set(slot, [...(byTime.get(slot) ?? []), step]);
  }
  const [steps] = [...byTime.values()].sort((a, b) => b.length - a.length);
  if (!steps || steps.length < LEAST_EXERCISES) return null;
  const apart = steps.slice(1).map((step, i) => calendar.dayNumber[step] - calendar.dayNumber[steps[i]]);
  const usual = upperMedianOf(apart);
  const isRegular = usual >= 1 && apart.filter((days) => days % usual === 0).length >= 0.8 * apart.length;
  if (!isRegular) return null;
  const due = new Uint8Array(designed.count);
  for (const step of steps) due[step] = 1;
  // of its running, warm-up and cool-down are no part, and a run begins and ends within a step
  const offLoadMin = (site.generator?.warmUpMin ?? 0) + (site.generator?.coolDownMin ?? 0) + stepMin;
  const lengths = steps.map((step) => Math.max(1, (on.indexOf(0, step) - step) * stepMin - offLoadMin));
  const minute = calendar.minuteOfDay[steps[0]];
  const at = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
  const rule = { everyDays: usual, at, runMin: Math.round(upperMedianOf(lengths)), unlessWithinDays: 0 };
  return { rule, due };
}
