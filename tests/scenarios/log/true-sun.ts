/**
 * The demonstration sites under a sun that keeps true time: weather every quarter of an hour from the sun's path.
 * (The demonstration weather has its noon at 12 o'clock all year, which a clock can be told from by a quarter of an hour.)
 */
import { readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import seedrandom from 'seedrandom';
import { simulateTruth, type Truth, type TruthStretch } from '../../../src/scenarios/log/truth.ts';
import { clearSkyGlobal } from '../../../src/sim/sky/clear-sky.ts';
import { sunPath } from '../../../src/sim/sky/plane.ts';

export interface SiteFiles {
  text: string;
  file: string;
  readFile: (path: string) => Uint8Array;
}

const PLACES = {
  farm: { latDeg: 47, lonDeg: 15, offsetH: 1 },
  workshop: { latDeg: -33, lonDeg: 149, offsetH: 10 },
  hut: { latDeg: -36.5, lonDeg: 148, offsetH: 10 },
};
export type DemoSite = keyof typeof PLACES;

/** A year of quarters of an hour, as a CSV file: clear, changing and dull days, each with clouds that pass. */
function weatherCsv(name: DemoSite): string {
  const { latDeg, lonDeg, offsetH } = PLACES[name];
  const startS = Date.UTC(2025, 0, 1) / 1000 - offsetH * 3600;
  const count = 365 * 96;
  const sun = sunPath(startS, 15, count, latDeg, lonDeg);
  const draw = seedrandom(`sun ${name}`);
  const rows: string[] = ['time,global W/m2,air C,wind m/s'];
  let day = 1;
  let passing = 1;
  for (let i = 0; i < count; i++) {
    if (i % 96 === 0) day = draw() < 0.4 ? 1 : 0.15 + 0.8 * draw();
    passing = 0.7 * passing + 0.3 * (day === 1 ? 1 : 0.5 + draw());
    const global = clearSkyGlobal(sun.cosZenith[i]) * sun.sunlit[i] * Math.min(1, day * passing);
    const local = new Date((startS + offsetH * 3600 + i * 900) * 1000).toISOString();
    const air = 10 + 6 * Math.sin(((i % 96) - 34) / 15.3);
    rows.push(`${local.slice(0, 10)} ${local.slice(11, 16)},${global.toFixed(1)},${air.toFixed(1)},2.0`);
  }
  return rows.join('\n');
}

/** A demonstration site under the true sun, with its files. */
export function underTrueSun(name: DemoSite): SiteFiles {
  const file = resolve(import.meta.dirname, `../../../profiles/sites/${name}.yaml`);
  const weather = `weather:\n  format: csv\n  file: true-sun.csv\n  stamp: start\n  global: global W/m2\n  air: air C\n  wind: wind m/s\n`;
  const text = readFileSync(file, 'utf8').replace(/^weather:\n(?: {2}.*\n)+/m, weather);
  const csv = new TextEncoder().encode(weatherCsv(name));
  const readFile = (path: string) =>
    path === 'true-sun.csv' ? csv : readFileSync(join(dirname(file), path));
  return { text, file, readFile };
}

export function truthUnderSun(
  files: SiteFiles,
  stretches: readonly TruthStretch[] = [{ fromDay: 0, changes: {} }],
): Truth {
  const truth = simulateTruth({ ...files, stepMin: 5, stretches });
  if (Array.isArray(truth)) throw new Error(JSON.stringify(truth, null, 1));
  return truth;
}
