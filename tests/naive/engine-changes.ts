import { callPerson, takeBackCall } from './people.ts';
import { type Site, setInUse, socOf } from './site.ts';

/** A start is asked for: `countdownH` until the first attempt. */
export function startIsAsked(site: Site, countdownH: number, cause: number): void {
  const { state } = site;
  state.engine = 'starting';
  state.engineH = countdownH;
  state.cause = cause;
  state.attemptsLeft = site.plant.generator!.retries ?? 0;
}

/** The starting time is over: the engine turns, or does not. */
export function attemptStart(site: Site): void {
  const { state, totals } = site;
  if (!attemptFails(site)) {
    engineStarts(site);
    return;
  }
  totals.failedAttempts += 1;
  if (state.attemptsLeft > 0) {
    state.attemptsLeft -= 1;
    state.engineH = site.plant.generator!.retryH ?? 0;
    return;
  }
  state.engine = 'stopped';
  state.engineH = 0;
  state.startLockedOut = true;
  totals.startLockOuts += 1;
  callPerson(site);
}

/** The outcomes of the first set's attempts are given, in turn, over and over. */
function attemptFails({ state, inputs }: Site): boolean {
  const { startFails } = inputs;
  if (state.secondInUse || !startFails || startFails.length === 0) return false;
  const outcome = startFails[state.attemptsMade % startFails.length];
  state.attemptsMade += 1;
  return outcome === 1;
}

/** The engine begins to turn: a run and its record. */
function engineStarts(site: Site): void {
  const { state } = site;
  state.engine = 'warming';
  state.engineH = setInUse(site).warmUpH;
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
  if (!state.invertersLockedOut) state.tripH.fill(0);
  state.arrayWaitH = site.controls.acReconnectH;
  takeBackCall(site);
}

/** Stop: the load goes back to the inverters, the engine cools down. */
export function leaveLoad(site: Site): void {
  const { state } = site;
  state.engine = 'cooling';
  state.engineH = setInUse(site).coolDownH;
  state.arrayWaitH = site.controls.acReconnectH;
}

/** Cooled down, out of order or out of fuel: the engine stands, and its record is closed. */
export function engineStands(site: Site, ranDry: boolean): void {
  const { state } = site;
  if (state.engine === 'on load') state.arrayWaitH = site.controls.acReconnectH;
  state.engine = 'stopped';
  state.engineH = 0;
  state.restH = site.controls.leastRestH;
  if (ranDry && site.plant.generator!.mustBleed) state.toBeBled = true;
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
