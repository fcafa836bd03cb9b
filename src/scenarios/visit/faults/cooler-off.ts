import { dcDrawKw } from '../../../sim/inverter.ts';
import { plantFromSite } from '../../plant-from-site.ts';
import type { VisitGround } from '../ground.ts';
import { looserAndTighter, nextNodes } from './cabinet-model.ts';
import { type Detector, unmet } from './detector.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { stepHours, wholeLoad } from './log-days.ts';
import { faultOfSteps } from './off-steps.ts';

/** The heat in a cabinet may be so much more than reckoned: own choice. */
const MORE_HEAT = 1.3;
/** Where the log has no sun, it may have been so much more than designed: own choice. */
const MORE_SUN = 1.5;
const LEAST_H = FAULT_TERMS['cooler-off'].duration / 2;

/** Air in the cabinet hotter than a working cooler lets it be. */
export const coolerOff: Detector = {
  kind: 'cooler-off',
  lacks: ({ site, record }) =>
    unmet([
      [site.cabinet?.cooler, 'part: cooler'],
      [record.columns.cabinetC, 'cabinetC'],
      [record.columns.outsideC, 'outsideC'],
    ]),
  find(ground) {
    const cabinetC = ground.record.columns.cabinetC as Float64Array;
    const { cooler } = ground.site.cabinet ?? {};
    const hysteresis = cooler ? (cooler.onC - cooler.offC) / 2 : 0;
    return faultOfSteps(ground, 'cooler-off', tooHot(ground, cabinetC), {
      ...{ least: Math.max(FAULT_TERMS['cooler-off'].leastSize, hysteresis) },
      ...{ duration: LEAST_H, seenC: cabinetC },
    });
  },
};

/**
 * How much hotter the air is than with a working cooler, at the least: more heat than reckoned, ways to the outside
 * that let in more or out less than named, and cooling only once the air would be above its threshold.
 */
function tooHot(ground: VisitGround, cabinetC: Float64Array): Float64Array {
  const { site, record, acArrayShare, airAtStartC } = ground;
  const { cabinet } = plantFromSite(site, airAtStartC, acArrayShare);
  const outsideC = record.columns.outsideC as Float64Array;
  const off = new Float64Array(cabinetC.length).fill(Number.NaN);
  if (cabinet === null) return off;
  const heat = heatOf(ground);
  const load = wholeLoad(ground);
  const { looser, tighter } = looserAndTighter(cabinet, stepHours(ground));
  const coldKw = cabinet.coolerKw * cabinet.coolerCop;
  let nodes: [number, number] | null = null;
  for (let i = 0; i < cabinetC.length; i++) {
    if (Number.isNaN(cabinetC[i]) || Number.isNaN(outsideC[i]) || load?.[i] === 0) {
      nodes = null;
      continue;
    }
    nodes ??= [cabinetC[i], record.columns.cellC?.[i] || cabinetC[i]];
    const thermal = outsideC[i] > nodes[0] ? looser : tighter;
    const { airKw, cellKw } = heat(i);
    const alone: [number, number] = nextNodes(thermal, nodes, outsideC[i], airKw, cellKw);
    const cooled: [number, number] = nextNodes(thermal, nodes, outsideC[i], airKw - coldKw, cellKw);
    if (alone[0] <= cabinet.coolerOnC) nodes = alone;
    else nodes = [Math.max(cooled[0], cabinet.coolerOnC), cooled[1]];
    off[i] = cabinetC[i] - Math.max(nodes[0], cabinet.coolerOnC);
  }
  return off;
}

/** Heat into air and cells in a step, rather too much than too little [kW]: losses of the electronics and the sun. */
function heatOf(ground: VisitGround): (step: number) => { airKw: number; cellKw: number } {
  const { site, record, designed, designedArraysKw, acArrayShare, airAtStartC } = ground;
  const { inverter, battery, cabinet, phases } = plantFromSite(site, airAtStartC, acArrayShare);
  const { sunWPerM2, generatorKw, batteryKw } = record.columns;
  const load = wholeLoad(ground);
  const known = (value: number | undefined, otherwise: () => number) =>
    value === undefined || Number.isNaN(value) ? otherwise() : value;
  return (i) => {
    const loadKw = known(load?.[i], () => MORE_HEAT * designed.loadKw.reduce((sum, kw) => sum + kw[i], 0));
    const sunW = known(sunWPerM2?.[i], () => MORE_SUN * (designed.cabinetSunWPerM2?.[i] ?? 0));
    const acKw = site.arrays.reduce((sum, { name, coupling }) => {
      return coupling === 'ac'
        ? sum + known(record.arraysKw[name]?.[i], () => designedArraysKw[name][i])
        : sum;
    }, 0);
    // where the generator is not known: what charges the battery
    const toCharger = () => known(batteryKw?.[i], () => (site.generator ? Number.POSITIVE_INFINITY : 0));
    const chargedKw = Math.min(
      acKw + Math.max(0, known(generatorKw?.[i], toCharger)),
      inverter.chargerKw * phases,
    );
    const lossKw =
      inverter.idleKw * phases +
      phases *
        (dcDrawKw(loadKw / phases, inverter.lossLinear, inverter.lossQuadraticPerKw) - loadKw / phases) +
      (1 - inverter.chargerEff) * chargedKw;
    const flowKw = Math.abs(known(batteryKw?.[i], () => loadKw));
    const cellKw = battery ? flowKw * (1 / battery.dischargeEff - 1) + battery.standbyKw : 0;
    return {
      airKw: MORE_HEAT * (lossKw + ((cabinet?.sunApertureM2 ?? 0) * sunW) / 1000),
      cellKw: MORE_HEAT * cellKw,
    };
  };
}
