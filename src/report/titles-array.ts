import type { AlternativeResult } from '../scenarios/study.ts';
import { groupKwh, LOSS_GROUPS, type LossRow } from './array-losses.ts';
import { alone } from './numbers.ts';
import { LOSS_WHERE, listed } from './words.ts';

/** What keeps array energy from the site, how much, and when most. */
export function arrayLossesTitle(result: AlternativeResult, rows: readonly LossRow[]): string {
  const there = LOSS_GROUPS.filter((group) => groupKwh(result, group) > 0);
  const parts = there.map((group) => `${alone('kwh', groupKwh(result, group))} ${LOSS_WHERE[group]}`);
  const whole = (row: LossRow) => row.snow + row.horizon + row.converter;
  const most = rows.reduce((best, row) => (whole(row) > whole(best) ? row : best));
  return `Array energy is lost: ${listed(parts)}; most in ${most.name} (${alone('kwh', whole(most))})`;
}
