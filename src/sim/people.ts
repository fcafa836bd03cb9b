/** A person who has been called, and what they put right. RULES.md, people. */
import * as slot from './slots.ts';
import { tankHasFuel } from './tank.ts';

/** Somebody is called; one call is enough. */
export function callPerson(p: Float64Array, s: Float64Array): void {
  if (s[slot.S_CALLED] === 1) return;
  s[slot.S_CALLED] = 1;
  s[slot.S_VISIT] = p[slot.P_VISIT];
}

/** True when the called person is here. */
export function isHere(s: Float64Array, f: Float64Array): boolean {
  return s[slot.S_CALLED] === 1 && s[slot.S_VISIT] <= slot.EPS && f[slot.F_ATTENDED] === 1;
}

/** The dead site is switched on again, lock-outs are cleared, an engine that ran dry is bled if there is fuel. */
export function putRight(p: Float64Array, s: Float64Array, t: Float64Array): void {
  s[slot.S_CALLED] = 0;
  t[slot.T_VISITS] += 1;
  if (s[slot.S_SITE] === slot.SITE_DEAD) {
    s[slot.S_SITE] = slot.SITE_CUT_OFF;
    s[slot.S_VISITED] = 1;
  }
  s[slot.S_FAILED] = 0;
  if (tankHasFuel(p, s)) s[slot.S_UNBLED] = 0;
  if (s[slot.S_LOCKED] === 0) return;
  s[slot.S_LOCKED] = 0;
  s[slot.S_TRIPS_IN_ROW] = 0;
  for (let k = 0; k < 3; k++) s[slot.S_TRIP + k] = 0;
}

/** A call is taken back when the board is alive again and nothing else waits to be put right. */
export function dismissIfIdle(s: Float64Array): void {
  const waiting = s[slot.S_FAILED] + s[slot.S_LOCKED] + s[slot.S_UNBLED];
  if (waiting === 0) s[slot.S_CALLED] = 0;
}

/** An engine that ran dry is bled when there is fuel again: somebody is called for it. */
export function callToBleed(p: Float64Array, s: Float64Array): void {
  if (s[slot.S_UNBLED] === 1 && tankHasFuel(p, s)) callPerson(p, s);
}
