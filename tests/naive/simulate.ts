import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { cutoffKwh } from './battery.ts';
import { closeOutage } from './booking.ts';
import { warmCabinet } from './cabinet.ts';
import { decide, holdConditions, rawConditions } from './decision.ts';
import { deliver, waitForOrder } from './deliveries.ts';
import { closeRun } from './engine-changes.ts';
import { whatCanBeDone } from './now.ts';
import type { NaiveResult } from './result.ts';
import { reconnect, runSegments } from './segments.ts';
import { newSite, noSums, type Site, socOf } from './site.ts';

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
  site.totals.storedEndKwh = site.state.energyKwh;
  site.totals.tankEndL = site.state.levelL;
  const { totals, runs, outages, perStep, watch } = site;
  return { totals, runs, outages, perStep, nearest: watch.nearest };
}

function simulateStep(site: Site): void {
  site.nowH = site.step * site.stepH;
  site.sums = noSums();
  deliver(site);
  reconnect(site);
  const now = whatCanBeDone(site);
  const raw = rawConditions(site, now);
  decide(site, raw);
  runSegments(site, now);
  warmCabinet(site);
  holdConditions(site, raw);
  waitForOrder(site);
  endStep(site);
}

/** Section 7. */
function endStep(site: Site): void {
  const { totals, state, sums, stepH, step, perStep } = site;
  const { battery } = site.plant;
  totals.minSoc = Math.min(totals.minSoc, socOf(site));
  totals.coldestCellC = Math.min(totals.coldestCellC, state.batteryC);
  totals.hottestCellC = Math.max(totals.hottestCellC, state.batteryC);
  totals.hottestAirC = Math.max(totals.hottestAirC, state.airC);
  if (battery && site.watch.atMost(state.energyKwh, cutoffKwh(battery))) totals.floorH += stepH;
  perStep.soc[step] = socOf(site);
  perStep.generatorKw[step] = sums.generatorKwh / stepH;
  perStep.unservedKw[step] = sums.unservedKwh / stepH;
  perStep.dcUsedKw[step] = sums.dcUsedKwh / stepH;
  perStep.acUsedKw[step] = sums.acUsedKwh / stepH;
  perStep.batteryKw[step] = sums.batteryKwh / stepH;
  perStep.airNodeC[step] = state.airC;
  perStep.batteryNodeC[step] = state.batteryC;
}
