import { OUTAGE_CAUSES, START_CAUSES } from '../../src/sim/causes.ts';
import type { Ledger } from '../../src/sim/ledger.ts';

/** A ledger with causes by index instead of by name, as the reference cases and the naive simulator have them. */
export function plainView(ledger: Ledger) {
  const { totals, storedEndKwh, tankEndL, extremes } = ledger;
  return {
    totals: {
      ...totals,
      ...extremes,
      minSoc: extremes.minSoc ?? 0,
      storedEndKwh,
      tankEndL,
      unservedByCauseKwh: OUTAGE_CAUSES.map((cause) => totals.unservedByCauseKwh[cause]),
      startsByCause: START_CAUSES.map((cause) => totals.startsByCause[cause]),
    },
    runs: ledger.runs.map((run) => ({ ...run, cause: START_CAUSES.indexOf(run.cause) })),
    outages: ledger.outages.map((outage) => ({ ...outage, cause: OUTAGE_CAUSES.indexOf(outage.cause) })),
  };
}
