import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { OUTAGE_CAUSES } from '../sim/causes.ts';
import type { Totals } from '../sim/ledger.ts';
import { shownText } from './shown.ts';
import { counted, listed, OUTAGE_REASONS } from './words.ts';

/** Less than this was not missed: rounding of the energy account [kWh]. */
const NOTHING_KWH = 1e-6;

/** Whether all load was supplied, or what was not and why. */
export function unservedNow(study: Study, result: AlternativeResult): string {
  const { totals } = result.ledger;
  if (totals.unservedKwh < NOTHING_KWH) return 'all load is served';
  return `${shownText(study, result, 'unservedKwh')} of load ${inInterruptions(study, result)}, because ${reasons(totals)}`;
}

/** What changes in what goes unserved. */
export function unservedChange(study: Study, first: AlternativeResult, other: AlternativeResult): string {
  const now = other.ledger.totals;
  const before = first.ledger.totals;
  const nowText = shownText(study, other, 'unservedKwh');
  const beforeText = shownText(study, first, 'unservedKwh');
  if (now.unservedKwh < NOTHING_KWH) {
    if (before.unservedKwh < NOTHING_KWH) return 'all load is served, as before';
    return `all load is served; before, ${beforeText} was not`;
  }
  const what = `${nowText} of load ${inInterruptions(study, other)}`;
  if (before.unservedKwh < NOTHING_KWH) return `${what}, because ${reasons(now)}; before, all was served`;
  return nowText === beforeText ? `${what}, as much as before` : `${what}, instead of ${beforeText}`;
}

function inInterruptions(study: Study, result: AlternativeResult): string {
  const { outages } = result.ledger.totals;
  if (outages === 0) return 'goes unserved';
  return `goes unserved in ${counted(shownText(study, result, 'outages'), 'interruption')}`;
}

/** Causes with energy to their name, the largest first; all of it where only traces have one. */
function reasons(totals: Totals): string {
  const byCause = totals.unservedByCauseKwh;
  const causes = OUTAGE_CAUSES.filter((cause) => byCause[cause] > 0.01 * totals.unservedKwh);
  return listed(causes.sort((a, b) => byCause[b] - byCause[a]).map((cause) => OUTAGE_REASONS[cause]));
}
