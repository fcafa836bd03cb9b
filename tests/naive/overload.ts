import type { Flow } from './flow.ts';
import type { Now } from './now.ts';
import { phasesOf, type Site } from './site.ts';

/** What the inverters of a phase carry at most just now [kW]. */
export function carryLimitKw({ plant, state }: Site, now: Now, k: number): number {
  const overload = plant.inverter.overload;
  return overload && !state.spent[k] ? now.inverterLimitKw[k] * overload.frac : now.inverterLimitKw[k];
}

/** How fast a phase that carries `carriedKw` uses up its budget [1/h]; 0: it does not. */
function drainPerH({ plant, watch }: Site, now: Now, k: number, carriedKw: number): number {
  const overload = plant.inverter.overload;
  const limitKw = now.inverterLimitKw[k];
  if (!overload || limitKw <= 0 || !watch.above(carriedKw, limitKw)) return 0;
  return (carriedKw / limitKw - 1) / ((overload.frac - 1) * overload.hours);
}

/** Time to the first budget that is used up [h]. */
export function budgetsLastH(site: Site, now: Now, carriedKw: readonly number[]): number[] {
  return phasesOf(site).map((k) => {
    const drain = drainPerH(site, now, k, carriedKw[k]);
    return drain > 0 ? site.state.budget[k] / drain : Number.POSITIVE_INFINITY;
  });
}

/** The budgets after a segment, and the energy carried above the rating. */
export function bookOverloads(site: Site, now: Now, flow: Flow): void {
  const { state, watch } = site;
  const overload = site.plant.inverter.overload;
  if (!overload) return;
  for (const k of phasesOf(site)) {
    const drain = flow.mode === 'inverters' ? drainPerH(site, now, k, flow.carriedKw[k]) : 0;
    if (drain > 0) {
      state.budget[k] -= drain * flow.hours;
      if (watch.atMost(state.budget[k], 0)) state.spent[k] = true;
      const aboveKw = flow.carriedKw[k] - now.inverterLimitKw[k];
      site.totals.overloadKwh += aboveKw * flow.share * flow.hours;
    } else {
      const grown = state.budget[k] + flow.hours / overload.recoveryH;
      if (state.spent[k]) watch.noteExact(grown, 1);
      state.budget[k] = Math.min(1, grown);
      if (state.budget[k] >= 1) state.spent[k] = false;
    }
  }
}
