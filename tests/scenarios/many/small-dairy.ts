import { runHorizon } from '../../../src/scenarios/horizon-study.ts';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { alternativesNamed, prepareYears } from '../../../src/scenarios/many/many-study.ts';
import { smallSiteFile } from '../small-site.ts';

/** A small dairy, invented: hourly steps, weather from means, five years; the battery is replaced after three. */
export const DAIRY = `
site: { name: Small dairy, latitudeDeg: -37, longitudeDeg: 145, timeZone: '+10:00', currency: $ }
period: { start: 2025-01-01, days: 365, stepMin: 60 }
appliances:
  - { name: milking, watts: 3000, hours: [{ from: '05:30', to: '07:30' }, { from: '16:30', to: '18:30' }] }
  - { name: hot water, watts: 2000, hours: [{ from: '10:00', to: '13:00' }] }
weather: { format: monthly, seed: first,
  globalKwh: [6.8, 6.1, 4.7, 3.2, 2.2, 1.8, 2.0, 2.8, 3.9, 5.1, 6.1, 6.7],
  lowC: [14, 14, 12, 9, 7, 5, 4, 5, 6, 8, 10, 12], highC: [27, 27, 24, 20, 16, 13, 13, 14, 17, 20, 22, 25] }
arrays: [{ name: shed, kWp: 5, tiltDeg: 30, azimuthDeg: 0, coupling: dc }]
battery: { modules: 3, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }
inverter: { phases: 1, ratedKva: 12, chargerKw: 6 }
generator: { ratedKw: 8, fuel: [{ kW: 0, lPerH: 1 }, { kW: 8, lPerH: 3 }] }
tank: { capacityL: 300, initialL: 300, orderAtL: 60, leadDays: 4 }
control: { charge: { startSoc: 0.3, stopSoc: 0.8 } }
money: { years: 5, fuelPerL: 1.5, fuelEscalation: 0.02, serviceCost: 200, batteryPerModule: 900, batteryYears: 3, discountRate: 0.04, capital: 20000 }
alternatives:
  - { name: five modules, capital: 2000, changes: { battery.modules: 5 } }
  - { name: more sun, capital: 3000, changes: { arrays.shed.kWp: 9 } }
  - { name: dear, capital: 500, changes: {} }
`;

export function requestOf(text: string, more = {}) {
  return { text, file: 'dairy.yaml', readFile: smallSiteFile, version: '0', ...more };
}

/** @returns the maker and the alternatives of these names */
export function preparedOf(names: readonly string[], text = DAIRY) {
  const { prepared, issues } = prepareYears(requestOf(text));
  if (!prepared) throw new Error(issues.map(issueSentence).join('\n'));
  const { found } = alternativesNamed(names, prepared.alternatives, 'dairy.yaml');
  return { maker: prepared.maker, facts: prepared.facts, found };
}

/** What a generator comes to in the end. */
export function finished<T>(run: Generator<unknown, T, unknown>): T {
  let next = run.next();
  while (!next.done) next = run.next();
  return next.value;
}

/** Life-cycle costs as `darkweek horizon` has them, by another way through the code. */
export function horizonCosts(text: string, names: readonly string[]): number[] {
  const { study, issues } = finished(runHorizon(requestOf(text)));
  if (!study) throw new Error(issues.map(issueSentence).join('\n'));
  return names.map(
    (name) => study.alternatives.find((one) => one.name === name)?.money.lifeCycleCost ?? Number.NaN,
  );
}
