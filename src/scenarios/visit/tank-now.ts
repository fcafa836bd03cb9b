import { medianOf } from '../middle-values.ts';
import { FILLED_L } from './compare/tank-fuel.ts';
import type { VisitGround } from './ground.ts';
import type { TankNow } from './visit.ts';

/** The rate is that of so many days before the end of the log. */
const RATE_DAYS = 28;
/** A day with readings in less than this share of it says nothing. */
const LEAST_OF_DAY = 0.125;

/**
 * The tank at the end of a log: by the medians of its days, so that single readings do not matter. Days with a delivery
 * say nothing of the rate; what is lost while the engine stands is part of it.
 * @returns null where the log has no level, or too few days of it
 */
export function tankNow({
  record,
  calendar,
  site,
}: Pick<VisitGround, 'record' | 'calendar' | 'site'>): TankNow | null {
  const { fuelL } = record.columns;
  if (!fuelL || site.tank === null) return null;
  const ofDay = new Map<number, number[]>();
  for (const [i, level] of fuelL.entries()) {
    if (Number.isNaN(level)) continue;
    const day = calendar.dayNumber[i];
    const known = ofDay.get(day);
    if (known) known.push(level);
    else ofDay.set(day, [level]);
  }
  const least = (LEAST_OF_DAY * 1440) / record.axis.stepMin;
  const days = [...ofDay].flatMap(([day, levels]) =>
    levels.length < least ? [] : [{ day, levelL: medianOf(levels) }],
  );
  const last = days[days.length - 1];
  if (days.length < 2) return null;
  let [usedL, overDays] = [0, 0];
  for (const [k, { day, levelL }] of days.entries()) {
    const before = days[k - 1];
    if (!before || before.day < last.day - RATE_DAYS || levelL - before.levelL > FILLED_L) continue;
    usedL += before.levelL - levelL;
    overDays += day - before.day;
  }
  const litresADay = overDays > 0 ? Math.max(0, usedL / overDays) : 0;
  const levels = ofDay.get(last.day) ?? [];
  const levelL = medianOf(levels.slice(-Math.max(1, Math.round(60 / record.axis.stepMin))));
  const leftL = Math.max(0, levelL - site.tank.reserveL);
  return { levelL, litresADay, daysLeft: litresADay > 0 ? leftL / litresADay : null };
}
