import { issueSentence } from '../../src/scenarios/issue.ts';
import { checkStudy, runStudy } from '../../src/scenarios/run-study.ts';
import type { AlternativeResult } from '../../src/scenarios/study.ts';

/** An invented winter of the north: 59 days of hours from 1 January, 8 °C below zero at night, 2 above by day. */
const HOURS = 59 * 24;

/** By the hour of the run: precipitation in the cold first night, and fresh snow in another column on day 10. */
function skyCsv(): string {
  const rows = ['time,ghi,air,wind,rain,snow,dry'];
  for (let i = 0; i < HOURS; i++) {
    const hour = i % 24;
    const stamp = new Date(Date.UTC(2025, 0, 1) + i * 3_600_000).toISOString().slice(0, 16).replace('T', ' ');
    const sun = Math.max(0, Math.round(320 - 20 * (hour - 11.5) ** 2));
    const air = -3 - 5 * Math.cos(((hour - 2) * Math.PI) / 12);
    const rain = i >= 2 && i < 5 ? 2.5 : 0;
    const snow = i >= 240 && i < 244 ? 1.5 : 0;
    rows.push(`${stamp},${sun},${air.toFixed(2)},${3 + (hour % 5)},${rain},${snow},0`);
  }
  return `${rows.join('\n')}\n`;
}

/** Load 0.5 kW; a stream of 0.3 kW by night and 0.2 kW by day in a third file. */
function powerCsv(column: string, kwAt: (hour: number) => number): string {
  const rows = [`time,${column}`];
  for (let i = 0; i < HOURS; i++) {
    const stamp = new Date(Date.UTC(2025, 0, 1) + i * 3_600_000).toISOString().slice(0, 16).replace('T', ' ');
    rows.push(`${stamp},${kwAt(i % 24)}`);
  }
  return `${rows.join('\n')}\n`;
}

const FILES: Record<string, string> = {
  'sky.csv': skyCsv(),
  'load.csv': powerCsv('house', () => 0.5),
  'stream.csv': powerCsv('turbine', (hour) => (hour < 12 ? 0.3 : 0.2)),
};

const SITE = `
site: { name: Winter, latitudeDeg: 47, longitudeDeg: 15, timeZone: "+01:00" }
period: { start: 2025-01-01, days: 59, stepMin: 60 }
load: [{ file: load.csv, unit: kW, stamp: start, columns: { house: 1 } }]
weather: { format: csv, file: sky.csv, stamp: start, global: ghi, air: air, wind: wind WEATHER }
sky: { SKY }
arrays: [{ name: roof, kWp: 5, tiltDeg: 35, azimuthDeg: 180, coupling: dc, controllerA: 120 ARRAY }]
sources: [SOURCES]
battery: { modules: 4, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }
inverter: { phases: 1, ratedKva: 5, chargerKw: 3 INVERTER }
generator: { ratedKw: 5, fuel: [{ kW: 0, lPerH: 0.6 }, { kW: 5, lPerH: 1.9 }] }
control: { charge: { startSoc: 0.3, stopSoc: 0.8 } }
money: { fuelPerL: 1.5 }
`;

/** What is put into the site file, at its places. */
export interface Wanted {
  weather?: string;
  sky?: string;
  array?: string;
  sources?: string;
  inverter?: string;
  /** pieces of the finished text that are replaced */
  instead?: [string | RegExp, string][];
  stepMin?: number;
  readFile?: (path: string) => Uint8Array;
}

function requestOf(wanted: Wanted) {
  const put = (text: string, name: string, value = '', comma = ', ') =>
    text.replace(name, value === '' ? '' : `${comma}${value}`);
  let text = put(SITE, ' WEATHER', wanted.weather);
  text = put(text, 'SKY', wanted.sky, '');
  text = put(text, ' ARRAY', wanted.array);
  text = put(text, 'SOURCES', wanted.sources, '');
  text = put(text, ' INVERTER', wanted.inverter);
  for (const [from, to] of wanted.instead ?? []) text = text.replace(from, to);
  const readFile = (path: string) => {
    if (!(path in FILES)) throw new Error(`no file ${path}`);
    return new TextEncoder().encode(FILES[path]);
  };
  return {
    text,
    file: 'site.yaml',
    readFile: wanted.readFile ?? readFile,
    version: '0',
    stepMin: wanted.stepMin,
  };
}

/** The winter site simulated, and what was said of it. */
export function winter(wanted: Wanted = {}): { result: AlternativeResult; said: string[] } {
  const { study, issues } = runStudy(requestOf(wanted));
  const said = issues.map(issueSentence);
  if (study === null) throw new Error(said.join('\n'));
  return { result: study.alternatives[0], said };
}

/** What is said of the winter site without simulating it. */
export function winterSaid(wanted: Wanted): string[] {
  return checkStudy(requestOf(wanted)).issues.map((issue) => `${issue.severity} ${issueSentence(issue)}`);
}

export const sum = (values: ArrayLike<number> | undefined) => {
  let total = 0;
  for (let i = 0; i < (values?.length ?? 0); i++) total += values?.[i] ?? 0;
  return total;
};
