import { plantFromSite } from '../../plant-from-site.ts';
import { SOC_MARGIN } from '../charging-room.ts';
import type { VisitGround } from '../ground.ts';
import { looserAndTighter, nextNodes } from './cabinet-model.ts';
import { type Detector, unmet } from './detector.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { engineRan, stepHours } from './log-days.ts';
import { faultOfSteps } from './off-steps.ts';

/** Half of the stated time is enough to claim it [h]. */
const LEAST_H = FAULT_TERMS['heater-off'].duration / 2;

/** Cells colder than a working heater lets them be, with charge enough for it to run. */
export const heaterOff: Detector = {
  kind: 'heater-off',
  lacks: ({ site, record }) =>
    unmet([
      [site.cabinet?.heater, 'part: heater'],
      [record.columns.cellC, 'cellC'],
      [record.columns.outsideC, 'outsideC'],
      [!site.battery || record.columns.socFrac, 'socFrac'],
    ]),
  find(ground) {
    const cellC = ground.record.columns.cellC as Float64Array;
    return faultOfSteps(ground, 'heater-off', tooCold(ground, cellC), {
      ...{ least: FAULT_TERMS['heater-off'].leastSize, duration: LEAST_H, seenC: cellC },
    });
  },
};

/**
 * How much colder the cells are than with a working heater, at the least: a cabinet that loses more heat than named,
 * no heat but the heater's, and that only once the cells would be below its threshold. It begins at the cells' own
 * temperature wherever the heater has not been allowed, so that it has the time it takes; a heater too small for the
 * cold is none that is off.
 */
function tooCold(ground: VisitGround, cellC: Float64Array): Float64Array {
  const { site, record, acArrayShare, airAtStartC } = ground;
  const { cabinet } = plantFromSite(site, airAtStartC, acArrayShare);
  const outsideC = record.columns.outsideC as Float64Array;
  const off = new Float64Array(cellC.length).fill(Number.NaN);
  if (cabinet === null) return off;
  const ran = engineRan(ground);
  const { socFrac } = record.columns;
  const { looser } = looserAndTighter(cabinet, stepHours(ground));
  let nodes: [number, number] | null = null;
  for (let i = 0; i < cellC.length; i++) {
    // above its least charge by what the meter may be off a heater is surely allowed
    const charged = !socFrac || socFrac[i] >= cabinet.heaterMinSoc + SOC_MARGIN;
    if (Number.isNaN(cellC[i]) || Number.isNaN(outsideC[i]) || !(charged || ran?.[i] === 1)) {
      nodes = null;
      continue;
    }
    nodes ??= [Math.min(cellC[i], outsideC[i]), cellC[i]];
    const alone: [number, number] = nextNodes(looser, nodes, outsideC[i], 0, 0);
    const heated: [number, number] = nextNodes(looser, nodes, outsideC[i], 0, cabinet.heaterKw);
    if (alone[1] >= cabinet.heaterOnC) nodes = alone;
    else nodes = [heated[0], Math.min(heated[1], cabinet.heaterOnC)];
    off[i] = Math.min(nodes[1], cabinet.heaterOnC) - cellC[i];
  }
  return off;
}
