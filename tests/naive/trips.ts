import { assistLimitKw, generatorPhases } from './flow-generator.ts';
import { inverterPhases } from './flow-inverters.ts';
import { allInvertersKw, type Now } from './now.ts';
import { isTripped, phasesOf, type Site, sum } from './site.ts';

/** Section 5.2: overloaded phases switch off. */
export function tripPhases(site: Site, now: Now): void {
  const { controls, state, watch } = site;
  if (controls.shortfall !== 'trip' || state.site !== 'on') return;
  const onLoad = state.engine === 'on load';
  if (!onLoad && !site.plant.battery) return;

  for (const k of phasesOf(site)) {
    if (isTripped(site, k)) continue;
    const overloaded = onLoad
      ? watch.above(generatorPhases(site, now)[k].overKw, assistLimitKw(site, now))
      : watch.above(inverterPhases(site, now)[k].deficitKw, now.inverterLimitKw);
    if (overloaded) trip(site, controls.tripAllPhases ? phasesOf(site) : [k]);
  }
  if (!onLoad && phasesOf(site).some((k) => !isTripped(site, k)) && overloadsTheBattery(site, now)) {
    trip(site, phasesOf(site));
  }
}

/** Load within each inverter's limit may still be more than battery and arrays can feed. */
function overloadsTheBattery(site: Site, now: Now): boolean {
  const phases = inverterPhases(site, now);
  const neededKw =
    allInvertersKw(
      site,
      phases.map(({ deficitKw }) => deficitKw),
    ) + now.baseKw;
  const chargersKw = sum(phases.map(({ surplusKw }) => Math.min(surplusKw, now.chargerLimitKw)));
  const fromBatteryKw = neededKw - now.dcArrayKw - site.plant.inverter.chargerEff * chargersKw;
  return site.watch.above(fromBatteryKw, now.maxDischargeKw);
}

function trip(site: Site, phases: readonly number[]): void {
  for (const k of phases) site.state.tripH[k] = site.controls.restartDelayH;
  site.totals.trips += 1;
}
