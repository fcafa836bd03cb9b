import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { cutoffKwh } from './battery.ts';
import { closeOutage } from './booking-load.ts';
import { warmCabinets } from './cabinet.ts';
import { holdConditions, rawConditions } from './conditions.ts';
import { decide } from './decision.ts';
import { deliver, waitForOrder } from './deliveries.ts';
import { closeRun } from './engine-changes.ts';
import { whatCanBeDone } from './now.ts';
import type { NaiveResult } from './result.ts';
import { reconnect, runSegments } from './segments.ts';
import { clamp, newSite, noSums, placesWithBattery, type Site, socOf } from './site.ts';

/**
 * A second simulator of the same rules (src/sim/RULES.md), slow and plain, written from that page alone and
 * sharing nothing with the engine but the types of what goes in and the names of causes.
 */
export function simulateNaive(plant: Plant, controls: Controls, inputs: Inputs): NaiveResult {
  const site = newSite(plant, controls, inputs);
  for (site.step = 0; site.step < inputs.count; site.step++) simulateStep(site);
  site.nowH = inputs.count * site.stepH;
  closeRun(site, false);
  closeOutage(site);
  const { totals, runs, outages, perStep, watch } = site;
  totals.storedEndKwh = site.state.energyKwh;
  totals.tankEndL = site.state.levelL;
  totals.starts = runs.length;
  totals.outages = outages.length;
  totals.curtailedKwh = totals.dcPotentialKwh + totals.acPotentialKwh - totals.dcUsedKwh - totals.acUsedKwh;
  return { totals, runs, outages, perStep, nearest: watch.nearest };
}

function simulateStep(site: Site): void {
  site.nowH = site.step * site.stepH;
  site.sums = noSums(site.state.places.length);
  deliver(site);
  reconnect(site);
  const now = whatCanBeDone(site);
  const raw = rawConditions(site, now);
  site.state.handHolds = raw.hand;
  decide(site, now, raw);
  runSegments(site, now);
  warmCabinets(site);
  holdConditions(site, raw);
  waitForOrder(site);
  endStep(site);
}

/** Section 7. */
function endStep(site: Site): void {
  const { totals, state, sums, stepH, step, perStep } = site;
  const { battery } = site.plant;
  keepRecords(site);
  totals.minSoc = Math.min(totals.minSoc, socOf(site));
  if (site.plant.tank) {
    totals.lowestTankL = Math.min(totals.lowestTankL ?? site.plant.tank.initialL, state.levelL);
  }
  for (const { batteryC } of placesWithBattery(site)) {
    totals.coldestCellC = Math.min(totals.coldestCellC, batteryC);
    totals.hottestCellC = Math.max(totals.hottestCellC, batteryC);
  }
  totals.hottestAirC = Math.max(totals.hottestAirC, state.places[0].airC);
  if (battery && site.watch.atMost(state.energyKwh, cutoffKwh(battery))) totals.floorH += stepH;
  perStep.soc[step] = socOf(site);
  perStep.generatorKw[step] = sums.generatorKwh / stepH;
  perStep.unservedKw[step] = sums.unservedKwh / stepH;
  perStep.dcUsedKw[step] = sums.dcUsedKwh / stepH;
  perStep.acUsedKw[step] = sums.acUsedKwh / stepH;
  perStep.batteryKw[step] = sums.batteryKwh / stepH;
  perStep.airNodeC[step] = state.places[0].airC;
  perStep.batteryNodeC[step] = state.places[0].batteryC;
}

/** What is counted from the last full charge and the last time on load. */
function keepRecords({ plant, controls, state, stepH, watch }: Site): void {
  const { battery } = plant;
  if (battery && controls.full) {
    const full = watch.atLeast(state.energyKwh, controls.full.stopSoc * battery.capacityKwh);
    state.sinceFullH = full ? 0 : state.sinceFullH + stepH;
  }
  if (battery?.display) {
    const { driftPerH, mostFrac, resetSoc } = battery.display;
    const mostKwh = mostFrac * battery.capacityKwh;
    const drifted = state.meterErrorKwh + driftPerH * battery.capacityKwh * stepH;
    const right = watch.atLeast(state.energyKwh, resetSoc * battery.capacityKwh);
    state.meterErrorKwh = right ? 0 : clamp(drifted, -mostKwh, mostKwh);
  }
  const onLoad = state.engine === 'on load';
  state.sinceOnLoadH = onLoad ? 0 : state.sinceOnLoadH + stepH;
  if (controls.exercise && onLoad && watch.atLeast(state.timeOnLoadH, controls.exercise.runH))
    state.exerciseDue = false;
}
