/**
 * Sites made for tests and the bench of many sites: a small plant, its designed load and weather by arithmetic, and a
 * log of what really happened, in which at most one thing is not as designed. All of it is invented.
 */
import seedrandom from 'seedrandom';
import { withValue } from '../../../src/scenarios/edit-site.ts';
import { type RecorderTraits, recordTruth, USUAL_RECORDER } from '../../../src/scenarios/log/recorder.ts';
import type { SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import { simulateTruth, type TruthStretch } from '../../../src/scenarios/log/truth.ts';
import { logCsv } from '../../../src/scenarios/log/write-log.ts';
import type { Inputs } from '../../../src/sim/inputs.ts';

/** What is not as designed at a site, and 'nothing'. */
export const PLANTED = [
  'nothing',
  'load', // a quarter more, on every day
  'array', // a quarter less from the array
  'battery', // a fifth of the capacity is not there
  'thresholds', // the generator starts at 45 % in place of 30 %
  'weak-charging', // it charges with six tenths of what is set
  'dead-string', // one of three, from some day on
  'night-load', // 250 W that never switch off, from some day on
  'soc-drift', // the meter of charge drifts by 1.5 % a day
  'fuel-loss', // 4 litres a day leave the tank by another way than the engine, from some day on
] as const;
export type Planted = (typeof PLANTED)[number];

/** Files of a site by their names in its folder, the site file among them. */
export type SiteFiles = Record<string, string>;

export interface MadeSite {
  number: number;
  days: number;
  planted: Planted;
}

const STEP_MIN = 5;
const STEPS_A_DAY = 1440 / STEP_MIN;
const WEATHER_STEP_MIN = 30;

/** Where the array is expected to be, and how a site stands apart from the others. */
function siteText(name: string, days: number, draw: () => number): string {
  const modules = 2 + Math.floor(3 * draw());
  const kWp = (0.9 + 0.3 * draw()) * modules;
  return `# Invented for tests of many sites by tests/scenarios/sites/made-sites.ts.
site: { name: ${name}, invented: true, latitudeDeg: -36, longitudeDeg: 148, timeZone: "+10:00" }
period: { start: 2025-05-01, days: ${days}, stepMin: ${STEP_MIN} }
load:
  - { file: load.csv, unit: kW, stamp: start, columns: { house: 1 } }
weather: { format: csv, file: sky.csv, stamp: start, global: ghi, air: air }
arrays:
  - { name: roof, kWp: ${kWp.toFixed(1)}, tiltDeg: 40, azimuthDeg: 0, coupling: dc }
battery: { modules: ${modules}, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3, standbyW: 15 }
inverter: { phases: 1, ratedKva: 5, idleW: 20, chargerKw: ${(1.1 * modules).toFixed(1)} }
generator: { ratedKw: 6, fuel: [{ kW: 0, lPerH: 0.7 }, { kW: 6, lPerH: 2.3 }] }
tank: { capacityL: 400, initialL: 380, reserveL: 5, fillDates: [2025-05-25, 2025-06-20] }
control:
  charge: { startSoc: 0.3, delayMin: 5, stopSoc: 0.8 }
  minRunMin: 30
money: { fuelPerL: 1.9 }
`;
}

/** Load as it was designed: a base, mornings and evenings, weekends [kW]. */
function loadCsv(days: number, factor: number): string {
  const draw = seedrandom(`load of ${factor}`);
  return csv('time,house', days, STEP_MIN, (hour, day) => {
    const busy = (hour > 6 && hour < 9) || (hour > 17 && hour < 22);
    const kw = 0.25 + (busy ? 0.55 : 0.08) * (day % 7 > 4 ? 1.2 : 1) + (draw() < 0.03 ? 1.1 : 0);
    return [(factor * kw).toFixed(3)];
  });
}

/** Global irradiance of days of many kinds [W/m²], and air [°C]. */
function skyCsv(days: number, seed: string): string {
  const draw = seedrandom(seed);
  const share = Array.from({ length: days + 1 }, () => 0.25 + 0.75 * draw());
  return csv('time,ghi,air', days, WEATHER_STEP_MIN, (hour, day) => {
    const sun = Math.max(0, Math.sin(((hour - 7) / 10) * Math.PI)) * 520 * share[day];
    return [
      hour > 7 && hour < 17 ? sun.toFixed(0) : '0',
      (8 + 5 * Math.sin(((hour - 9) / 12) * Math.PI)).toFixed(1),
    ];
  });
}

function csv(
  head: string,
  days: number,
  stepMin: number,
  cells: (hour: number, day: number) => string[],
): string {
  const perDay = 1440 / stepMin;
  const rows = Array.from({ length: days * perDay }, (_, i) => {
    const stamp = new Date(Date.UTC(2025, 4, 1) + i * stepMin * 60_000).toISOString();
    const row = cells(((i % perDay) * stepMin) / 60, Math.floor(i / perDay));
    return [`${stamp.slice(0, 10)} ${stamp.slice(11, 16)}`, ...row].join(',');
  });
  return `${[head, ...rows].join('\n')}\n`;
}

/** The files of a site with its log. The same site, the same bytes. */
export function madeSite({ number, days, planted }: MadeSite): SiteFiles {
  const draw = seedrandom(`site ${number}`);
  const name = `Made site ${String(number).padStart(3, '0')}`;
  const text = siteText(name, days, draw);
  const designed: SiteFiles = {
    'load.csv': loadCsv(days, 0.8 + 0.4 * draw()),
    'sky.csv': skyCsv(days, `designed sky ${number}`),
  };
  const fromDay = Math.floor(days * (0.35 + 0.2 * draw()));
  const real: SiteFiles = { ...designed, 'sky.csv': skyCsv(days, `real sky ${number}`) };
  const truth = simulateTruth({
    ...{ text, file: 'site.yaml', stepMin: STEP_MIN },
    readFile: (path) => Buffer.from(real[path]),
    stretches: stretchesOf(planted, text, fromDay),
  });
  if (Array.isArray(truth)) throw new Error(JSON.stringify(truth, null, 1));
  const traits: RecorderTraits = { ...USUAL_RECORDER, stepMin: STEP_MIN, seed: name };
  const record = recordTruth(truth, traits);
  const { csv: rows, log } = logCsv(planted === 'fuel-loss' ? leaking(record, fromDay) : record, {
    ...{ seed: name, stamp: 'start', offsetH: 10, watts: true, percent: true, battery: 'charging' },
    ...{ decimalComma: false, aheadH: 0, aheadHPerDay: 0, missingShare: 0.001 },
    ...{ shuffled: false, headerAgain: false },
  });
  return {
    ...designed,
    'site.yaml': withValue(text, ['log'], { file: 'log.csv', ...log }),
    'log.csv': rows,
  };
}

/** A number of the site file. */
function numberAt(text: string, key: string): number {
  return Number(new RegExp(`${key}: ([\\d.]+)`).exec(text)?.[1]);
}

function stretchesOf(planted: Planted, text: string, fromDay: number): TruthStretch[] {
  const always = (changes: TruthStretch['changes'], edit?: TruthStretch['edit']) => [
    { fromDay: 0, changes, edit },
  ];
  const later = (changes: TruthStretch['changes'], edit?: TruthStretch['edit']) => [
    { fromDay: 0, changes: {} },
    { fromDay, changes, edit },
  ];
  const kWp = numberAt(text, 'kWp');
  if (planted === 'load')
    return always(
      {},
      load((kw) => 1.25 * kw),
    );
  if (planted === 'array') return always({ 'arrays.roof.kWp': 0.75 * kWp });
  if (planted === 'battery') return always({ 'battery.moduleKwh': 4 });
  if (planted === 'thresholds') return always({ 'control.charge.startSoc': 0.45 });
  if (planted === 'weak-charging') return always({ 'inverter.chargerKw': 0.6 * numberAt(text, 'chargerKw') });
  if (planted === 'dead-string') return later({ 'arrays.roof.kWp': (2 / 3) * kWp });
  if (planted === 'night-load')
    return later(
      {},
      load((kw) => kw + 0.25),
    );
  if (planted === 'soc-drift') return always({ 'battery.display': { driftPerDay: 0.015 } });
  return always({});
}

const load = (change: (kw: number) => number) => (inputs: Inputs) => ({
  ...inputs,
  loadKw: inputs.loadKw.map((kw) => kw.map(change)),
});

/** The log of a tank that loses 4 litres a day from some day on, a little of it every hour. */
function leaking(record: SiteRecord, fromDay: number): SiteRecord {
  const { fuelL } = record.columns;
  if (!fuelL) throw new Error('the site has a tank');
  const lost = (i: number) => 4 * Math.max(0, i / STEPS_A_DAY - fromDay);
  return {
    ...record,
    columns: { ...record.columns, fuelL: fuelL.map((l, i) => Math.max(0, Math.round(l - lost(i)))) },
  };
}
