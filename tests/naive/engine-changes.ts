import type { Site } from './site.ts';
import { socOf } from './site.ts';

/** The engine begins to turn: a run and its record. */
export function engineStarts(site: Site): void {
  const { state } = site;
  state.engine = 'warming';
  state.engineH = site.plant.generator!.warmUpH;
  state.endedByLongestRun = false;
  state.run = {
    startH: site.nowH,
    endH: site.nowH,
    onLoadH: 0,
    cause: state.cause,
    socStart: socOf(site),
    socEnd: 0,
    kwh: 0,
    litres: 0,
    ranDry: false,
  };
  site.totals.startsByCause[state.cause] += 1;
}

/** The first time in a run that the generator takes the load. */
export function goesOnLoad(site: Site): void {
  const { state } = site;
  state.duty = state.cause;
  state.timeOnLoadH = 0;
  state.heldCalmH = 0;
  state.tailH = 0;
  state.absorptionH = 0;
  formsTheGrid(site);
}

/** Back from cool-down: the same run, with its time on load. */
export const cameBack = (site: Site): void => formsTheGrid(site);

/** A generator on load feeds the board, whatever the battery did before. */
function formsTheGrid(site: Site): void {
  const { state } = site;
  state.engine = 'on load';
  state.engineH = 0;
  state.site = 'on';
  state.visited = false;
  state.visitH = 0;
  state.tripH.fill(0);
  state.arrayWaitH = site.controls.acReconnectH;
}

/** Stop: the load goes back to the inverters, the engine cools down. */
export function leaveLoad(site: Site): void {
  const { state } = site;
  state.engine = 'cooling';
  state.engineH = site.plant.generator!.coolDownH;
  state.arrayWaitH = site.controls.acReconnectH;
}

/** Cooled down, or out of fuel: the engine stands, and its record is closed. */
export function engineStands(site: Site, ranDry: boolean): void {
  const { state } = site;
  if (state.engine === 'on load') state.arrayWaitH = site.controls.acReconnectH;
  state.engine = 'stopped';
  state.engineH = 0;
  state.restH = site.controls.leastRestH;
  closeRun(site, ranDry);
}

export function closeRun(site: Site, ranDry: boolean): void {
  const { run } = site.state;
  if (!run) return;
  run.endH = site.nowH;
  run.socEnd = socOf(site);
  run.ranDry = ranDry;
  site.runs.push(run);
  site.state.run = null;
}
