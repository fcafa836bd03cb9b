import { EPS } from './near-miss.ts';
import { fuelLeftL, isAttended, type Site } from './site.ts';

/** Somebody is sent for; who is on the way already is not sent for again. */
export function callPerson({ state, controls }: Site): void {
  state.callH ??= controls.deadVisitH;
}

/** A person who was called comes, if it is time and an attended hour; says whether one came. */
export function personComes(site: Site): boolean {
  const { state, watch } = site;
  if (state.callH === null || state.callH > EPS || !isAttended(site)) return false;
  state.callH = null;
  site.totals.visits += 1;
  if (state.site === 'dead') {
    state.site = 'cut off';
    state.visited = true;
  }
  state.startLockedOut = false;
  if (state.toBeBled && watch.above(fuelLeftL(site), 0)) state.toBeBled = false;
  if (state.invertersLockedOut) {
    state.invertersLockedOut = false;
    state.tripH.fill(0);
    state.tripsInRow = 0;
  }
  return true;
}

/** With the generator on load a person is needed only for what it does not mend. */
export function takeBackCall({ state }: Site): void {
  if (!state.startLockedOut && !state.invertersLockedOut && !state.toBeBled) state.callH = null;
}
