import type { VisitGround } from '../ground.ts';
import type { Estimate } from '../visit.ts';
import { arrayFactor } from './array-factor.ts';
import { batteryStore } from './battery-store.ts';
import { cabinetHeat } from './cabinet-heat.ts';
import { chargeKw } from './charge-power.ts';
import { fuelLine } from './fuel-line.ts';
import { loadFactor } from './load-factor.ts';
import { logView } from './log-view.ts';
import { standbyKw } from './standby.ts';
import { thresholds } from './thresholds.ts';

/**
 * What a site's log says of it, each estimate on its own, without the others and without a simulation.
 * @returns one for each key of `ESTIMATED`, in its order: a value with its interval of 90 %, or why there is none
 */
export function estimateAll(ground: VisitGround): Estimate[] {
  const view = logView(ground);
  return [
    loadFactor(view),
    arrayFactor(view),
    ...batteryStore(view),
    standbyKw(view),
    ...thresholds(view),
    chargeKw(view),
    ...fuelLine(view),
    ...cabinetHeat(view),
  ];
}
