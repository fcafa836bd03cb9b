import { plantFromSite } from '../../plant-from-site.ts';
import { chargeShare, POWER_MARGIN, SOC_MARGIN } from '../charging-room.ts';
import type { VisitGround } from '../ground.ts';
import { engineStretches } from './engine-runs.ts';
import { wholeArrays, wholeLoad } from './log-days.ts';

/** What charging should have been in a step of a run, and was [kW, AC side, all phases]. */
export interface ChargingStep {
  expectedKw: number;
  seenKw: number;
}

/** Cells this far within the range of full charge [K]. */
const CELL_MARGIN_K = 1;
/** Share of the chargers' power that load must leave to charging. */
const LEAST_LEFT = 0.4;
/** An AC-coupled array above this share of its rating takes part in what the generator gives. */
const ARRAY_SHARE = 0.02;

/**
 * By run of the engine, the steps on load in which nothing but load, chargers and generator limits charging: below the
 * taper, with warm cells, without an array on the board. RULES.md, mode generator.
 */
export function chargingSteps(ground: VisitGround): { from: number; to: number; steps: ChargingStep[] }[] {
  const { site, record, acArrayShare, airAtStartC } = ground;
  const { battery, inverter, generator, phases } = plantFromSite(site, airAtStartC, acArrayShare);
  const { socFrac, cellC, cabinetC, batteryKw, generatorKw } = record.columns;
  const loadKw = wholeLoad(ground);
  if (!battery || !generator || !socFrac || !generatorKw || !loadKw) return [];
  const arraysKw = wholeArrays(ground);
  const boardKw = boardArrays(ground);
  const target = site.control.chargeTargetKw;
  const reach = (k: number) => {
    const given =
      generator.phase === undefined
        ? generator.ratedKw / phases
        : k === generator.phase
          ? generator.ratedKw
          : 0;
    const cap = Math.min(given, inverter.acInputLimitKw);
    return { cap, most: target === null ? cap : Math.min(cap, target / phases) };
  };
  const isFree = (i: number) => {
    const cell = site.cabinet ? (cellC?.[i] ?? Number.NaN) : site.roomC;
    const coldest = chargeShare(battery, cell - CELL_MARGIN_K);
    const hottest = chargeShare(battery, cell + CELL_MARGIN_K);
    const most = POWER_MARGIN * battery.maxChargeKw;
    const offered = (arraysKw?.[i] ?? 0) + inverter.chargerEff * inverter.chargerKw * phases;
    return (
      Math.min(coldest, hottest) === 1 &&
      socFrac[i] < battery.taperStartSoc - SOC_MARGIN &&
      (batteryKw ? batteryKw[i] < most : offered < most) &&
      !(boardKw(i) > 0)
    );
  };
  const phaseLoads = [record.columns.load1Kw, record.columns.load2Kw, record.columns.load3Kw];
  const loadOf = (k: number, i: number) => phaseLoads[k]?.[i] ?? loadKw[i] / phases;
  const { stepMin } = record.axis;
  const head = Math.max(1, Math.ceil((generator.warmUpH * 60) / stepMin));
  const tail =
    Math.max(1, Math.ceil((generator.coolDownH * 60) / stepMin)) +
    (isPart(generator.coolDownH * 60, stepMin) ? 1 : 0);
  return engineStretches(ground, 1).map(({ from, to }) => {
    const steps: ChargingStep[] = [];
    for (let i = from + head; i < to - tail; i++) {
      if (!isFree(i)) continue;
      const air = site.cabinet ? (cabinetC?.[i] ?? Number.NaN) : site.roomC;
      const slope = (1 - inverter.derateFrac) / (inverter.derateC - inverter.derateKneeC);
      const chargerKw =
        inverter.chargerKw * Math.min(1, Math.max(0, 1 - slope * (air + 1 - inverter.derateKneeC)));
      let expectedKw = 0;
      let allKw = 0;
      for (let k = 0; k < phases; k++) {
        const { cap, most } = reach(k);
        const left = most - Math.min(loadOf(k, i), cap);
        expectedKw += Math.max(0, Math.min(chargerKw, left));
        allKw += Math.min(chargerKw, most);
      }
      const seenKw = generatorKw[i] - loadKw[i];
      if (expectedKw > LEAST_LEFT * allKw && expectedKw > 0 && !Number.isNaN(seenKw))
        steps.push({ expectedKw, seenKw });
    }
    return { from, to, steps };
  });
}

/** Whether a time takes so much of a step that the step before the last is not on load enough. */
function isPart(minutes: number, stepMin: number): boolean {
  return minutes > 0.25 * stepMin;
}

/** What arrays may give to the board while the generator is on load: their output there, or 1 where it is not known but could be [kW]. */
function boardArrays({ site, record, designedArraysKw }: VisitGround): (step: number) => number {
  const { acArrayOnLoad, dcToAcOnLoad } = site.control;
  const reaching = site.arrays.filter(
    ({ coupling }) => (coupling === 'ac' && acArrayOnLoad === 'held') || (coupling === 'dc' && dcToAcOnLoad),
  );
  return (i) =>
    reaching.some(({ name, kWp }) => {
      const kw = record.arraysKw[name]?.[i] ?? record.columns.arrayKw?.[i] ?? designedArraysKw[name][i];
      return !(kw <= ARRAY_SHARE * kWp);
    })
      ? 1
      : 0;
}
