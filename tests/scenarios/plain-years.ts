import type { SiteInputs } from '../../src/scenarios/inputs-from-site.ts';
import { parseSite } from '../../src/scenarios/site-document.ts';
import { readSite } from '../../src/scenarios/site-file.ts';
import type { Site } from '../../src/scenarios/site-schema.ts';

/**
 * A site of one phase without any loss but the battery's one-way efficiencies: what happens in a day can be written
 * down on paper. Invented.
 */
export function plainYearsSite(battery = '', money = '', more = ''): Site {
  const text = `
site: { name: Plain, latitudeDeg: 0, longitudeDeg: 0, timeZone: UTC }
period: { start: 2025-01-01, days: 365, stepMin: 60 }
appliances: [{ name: lamp, watts: 1000 }]
battery: { modules: 1, moduleKwh: 10, moduleChargeKw: 8, moduleDischargeKw: 8, initialSoc: 1, cutoffSoc: 0.05,
  reconnectSoc: 0, deadSoc: 0, taperEnd: 1, standbyW: 0, ${battery} }
inverter: { phases: 1, ratedKva: 10, powerFactor: 1, idleW: 0, lossLinear: 0, lossAtRated: 0, chargerKw: 8, chargerEfficiency: 1 }
roomC: 25
generator: { ratedKw: 8, fuel: [{ kW: 0, lPerH: 2 }, { kW: 8, lPerH: 4 }], startDelayS: 0, warmUpMin: 0, coolDownMin: 0 }
control: { charge: { startSoc: 0.2, delayMin: 0, stopSoc: 0.8, tailKw: 0 }, minRunMin: 0, shortfall: partial }
money: { fuelPerL: 1, ${money} }
${more}`;
  const { document } = parseSite(text, 'plain.yaml');
  if (document === null) throw new Error('the text is broken');
  const { site, issues } = readSite(document);
  if (site === null) throw new Error(issues.map(({ path, got }) => `${path}: ${got}`).join('; '));
  return site;
}

/** The same day over and over: load from midnight to five, sun from eight to four in the afternoon. */
export function plainDays(days: number, loadKw: number, sunKw: number): SiteInputs {
  const count = 24 * days;
  const hourly = (kw: number, from: number, to: number) =>
    Float64Array.from({ length: count }, (_, i) => (i % 24 >= from && i % 24 < to ? kw : 0));
  return {
    axis: { startS: 0, stepMin: 60, count },
    inputs: { stepMin: 60, count, loadKw: [hourly(loadKw, 0, 5)], dcArrayKw: hourly(sunKw, 8, 16) },
    periodEnds: [count],
    yields: [],
    acArrayShare: [1],
    airAtStartC: 25,
  };
}
