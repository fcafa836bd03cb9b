import { wellsByPeukert } from './lead-acid.ts';
import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

/** Capacities that the two wells miss by more than this are worth a look. */
const WORTH_A_LOOK = 0.05;

/** A lead-acid bank is told by its two wells, or by Peukert's law, which two wells must be able to follow. */
export function checkLeadAcid({ battery }: Pick<Site, 'battery'>, tell: Tell): void {
  const leadAcid = battery?.leadAcid;
  if (!battery || !leadAcid) return;
  const path = ['battery', 'leadAcid'];
  const { atHand, ratePerH, peukert } = leadAcid;
  const given = [atHand === undefined ? '' : 'atHand', ratePerH === undefined ? '' : 'ratePerH'].filter(
    Boolean,
  );
  if (peukert && given.length > 0)
    tell.refuse([...path, 'peukert'], `peukert beside ${given.join(' and ')}`, 'one way of telling it');
  if (!peukert && given.length < 2)
    tell.refuse(
      path,
      given.length === 0 ? 'nothing' : `${given[0]} alone`,
      'atHand and ratePerH, or peukert',
    );
  if (!peukert) return;
  const { worst, worstHours } = wellsByPeukert(peukert, battery.moduleKwh);
  if (worst > WORTH_A_LOOK)
    tell.doubt(
      [...path, 'peukert'],
      `capacities that two wells miss by ${(100 * worst).toFixed(1)} %, in a discharge of ${worstHours} h`,
      `within ${100 * WORTH_A_LOOK} %; or atHand and ratePerH for the discharge times that matter`,
    );
}
