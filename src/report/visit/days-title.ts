import type { Visit } from '../../scenarios/visit/visit.ts';
import { digits } from '../numbers.ts';

/** What the days show: how far the simulation is off before and after what was estimated is put in. */
export function daysTitle({ comparison: { days } }: Visit): string {
  const both = days.startS
    .map((_, i) => i)
    .filter((i) =>
      [days.designedKwh[i], days.ranKwh[i], days.calibratedKwh[i]].every((value) => Number.isFinite(value)),
    );
  const missing = days.startS.length - days.ranKwh.filter((value) => Number.isFinite(value)).length;
  const gaps =
    missing === 0 ? '' : `; ${digits(missing)} of ${digits(days.startS.length)} days cannot be compared`;
  if (both.length === 0) return `generator day by day, in kWh${gaps}`;
  const off = (values: readonly (number | null)[]) =>
    both.reduce((sum, i) => sum + Math.abs((values[i] ?? 0) - (days.ranKwh[i] ?? 0)), 0) / both.length;
  return `generator day by day, in kWh: the design is off by ${digits(off(days.designedKwh), 1)} a day, the site as estimated by ${digits(off(days.calibratedKwh), 1)}${gaps}`;
}
