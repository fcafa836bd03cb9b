import type { Battery } from '../sim/plant.ts';
import { fitKinetic, type KineticFit } from '../sim/wear/kinetic-fit.ts';
import { peukertAh } from '../sim/wear/peukert.ts';
import { powerOf } from '../sim/wear/power.ts';
import type { Site } from './site-schema.ts';

type BatteryPart = NonNullable<Site['battery']>;
type Peukert = NonNullable<NonNullable<BatteryPart['leadAcid']>['peukert']>;

/** Discharge times that the wells are fitted to, beside the rated one [h]. */
const TIMES_H = [1, 2, 5, 10, 20];

/**
 * Two wells that give what Peukert's law says in an hour to twenty, and in the rated time.
 * @param moduleKwh what a module gives in the rated time [kWh]; at a voltage that stays, kWh stand for Ah
 */
export function wellsByPeukert({ exponent, ratedH }: Peukert, moduleKwh: number): KineticFit {
  const hours = TIMES_H.includes(ratedH) ? TIMES_H : [...TIMES_H, ratedH];
  // as shares of the rated capacity, so that another size has the very same wells
  const shares = hours.map((time) => {
    const current = powerOf(ratedH / time, 1 / exponent) / ratedH;
    return peukertAh(1, ratedH, exponent, current);
  });
  const fit = fitKinetic(hours, shares);
  return { ...fit, capacity: fit.capacity * moduleKwh };
}

/** The engine's wells, and a module's capacity at a vanishing current [kWh]; lithium has no wells. */
export function leadAcidWells({ leadAcid, moduleKwh }: Pick<BatteryPart, 'leadAcid' | 'moduleKwh'>): {
  moduleKwh: number;
  kinetic: NonNullable<Battery['kinetic']> | null;
} {
  if (leadAcid === null) return { moduleKwh, kinetic: null };
  if (leadAcid.peukert) {
    const { capacity, atHandFrac, ratePerH } = wellsByPeukert(leadAcid.peukert, moduleKwh);
    return { moduleKwh: capacity, kinetic: { atHandFrac, ratePerH } };
  }
  const { atHand, ratePerH } = leadAcid;
  if (atHand === undefined || ratePerH === undefined) throw new Error('lead-acid without its numbers');
  return { moduleKwh, kinetic: { atHandFrac: atHand, ratePerH } };
}
