import { fuelLeftL, isAttended, isOutOfOrder, type Site } from './site.ts';

/** The first set cannot run. */
export function isFirstOut(site: Site): boolean {
  const { state, watch } = site;
  return state.startLockedOut || isOutOfOrder(site) || state.toBeBled || !watch.above(fuelLeftL(site), 0);
}

/** With the engine stopped and somebody there, the second set takes over, or the first comes back. */
export function changeOver(site: Site, firstOut: boolean): void {
  const { state, watch } = site;
  const second = site.plant.secondGenerator;
  if (!second || state.engine !== 'stopped' || !isAttended(site)) return;
  if (!firstOut) state.secondInUse = false;
  else if (watch.atLeast(state.heldOutH, second.connectH)) state.secondInUse = true;
}

/** The set that is connected cannot run; the second always can. */
export const isInUseOut = (site: Site): boolean => !site.state.secondInUse && isFirstOut(site);
