import type { Totals } from '../../sim/ledger.ts';
import { type CheckedRun, type DesignCheck, judged, type Rule } from './check.ts';
import { alwaysKw, dcOf, hoursOf, shown } from './measures.ts';

/** Days that a full battery lasts with neither sun nor generator. */
export function autonomyChecks(run: CheckedRun): DesignCheck[] {
  if (run.plant.battery === null) return [];
  const months = monthDemands(run);
  const worst = Math.max(...months);
  const year = demandKw(run, run.ledger.totals, hoursOf(run));
  const rule = (key: string, words: string): Rule => ({
    key: `autonomy.${key}`,
    title: `Autonomy without generator, ${words}`,
    rule: 'Full, the battery carries the load for this many days with neither sun nor generator.',
    bound: 'least',
    unit: 'days',
    source: sourceOf(run),
  });
  return [
    autonomy(run, rule('worstMonth', 'mean load of the worst month'), worst),
    autonomy(run, rule('year', 'mean load of the whole run'), year),
  ];
}

/** AS/NZS 4509.2, by what starts the generator; half a day is our own reading of 'less'. */
const WITHOUT_GENERATOR = 4;
const BY_HAND = 2;
const AUTOMATIC = 0.5;

/** Whether a person starts the generator, and nothing else when charge is low. */
function isByHand({ controls }: CheckedRun): boolean {
  return Boolean(controls.hand) && controls.charge === null && !controls.continuous;
}

function wantedDays(run: CheckedRun): number {
  const { autonomyDays } = run.site.design;
  if (autonomyDays !== undefined) return autonomyDays;
  if (run.plant.generator === null) return WITHOUT_GENERATOR;
  return isByHand(run) ? BY_HAND : AUTOMATIC;
}

function sourceOf(run: CheckedRun): string {
  if (run.site.design.autonomyDays !== undefined) return 'the site file';
  if (run.plant.generator === null)
    return 'AS/NZS 4509.2: 4 to 5 days without a generator (seen second hand)';
  if (isByHand(run)) return 'AS/NZS 4509.2: 2 to 3 days with manual start (seen second hand)';
  return 'AS/NZS 4509.2: less with automatic start (from memory); half a day, to get through a night: common practice';
}

function autonomy(run: CheckedRun, rule: Rule, demand: number): DesignCheck {
  const days = autonomyDays(run, demand);
  const wanted = wantedDays(run);
  return judged(
    rule,
    days,
    { fine: wanted, acceptable: wanted / 2 },
    `${shown(usableKwh(run))} kWh above the cut-off, ${shown(24 * demand)} kWh a day drawn from it.`,
  );
}

function usableKwh({ plant: { battery } }: CheckedRun): number {
  return battery ? (1 - battery.cutoffSoc) * battery.capacityKwh * battery.dischargeEff : 0;
}

function autonomyDays(run: CheckedRun, demand: number): number {
  return demand > 0 ? usableKwh(run) / demand / 24 : Number.POSITIVE_INFINITY;
}

/** Mean draw from the battery with the whole load on it: load and climate control through the inverters, and idle [kW]. */
function demandKw(run: CheckedRun, { loadKwh, climateKwh }: Totals, hours: number): number {
  const { phases } = run.plant;
  return phases * dcOf(run, (loadKwh + climateKwh) / hours / phases) + alwaysKw(run.plant);
}

/** A week is the shortest stretch that is taken for a month. */
const LEAST_HOURS = 7 * 24;

/** The demand of each month of at least a week; of the whole run where there is none. */
function monthDemands(run: CheckedRun): number[] {
  const { ledger, monthEnds } = run;
  const hours = monthEnds.map((end, i) => ((end - (i === 0 ? 0 : monthEnds[i - 1])) * ledger.stepMin) / 60);
  const long = ledger.periods.flatMap((totals, i) =>
    hours[i] >= LEAST_HOURS ? [demandKw(run, totals, hours[i])] : [],
  );
  return long.length > 0 ? long : [demandKw(run, ledger.totals, hoursOf(run))];
}
