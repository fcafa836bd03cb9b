import { readAlternatives } from '../../../src/scenarios/alternatives.ts';
import type { ManyRequest } from '../../../src/scenarios/many/ground.ts';
import { parseSite } from '../../../src/scenarios/site-document.ts';
import type { Site } from '../../../src/scenarios/site-schema.ts';

/** Sixty days of hours, made by arithmetic: an evening load on one phase or more, and a sky with dull stretches. */
function series(path: string): Uint8Array {
  const rows = [path === 'load.csv' ? 'time,a,b,c' : 'time,ghi,air'];
  for (let i = 0; i < 60 * 24; i++) {
    const [day, hour] = [Math.floor(i / 24), i % 24];
    const stamp = new Date(Date.UTC(2025, 4, 1) + i * 3_600_000).toISOString().slice(0, 16).replace('T', ' ');
    const evening = hour >= 17 && hour < 22 ? 1.6 : 0.3;
    const work = hour >= 8 && hour < 11 && day % 3 === 0 ? 3.4 + (day % 5) * 0.3 : 0.2;
    const clear = [1, 0.7, 0.15, 0.1, 0.9, 0.4, 0.2][(day * 5) % 7];
    const sun = Math.max(0, Math.round(clear * (720 - 22 * (hour - 12) ** 2)));
    rows.push(
      path === 'load.csv' ? `${stamp},${evening},${work},${(evening + work) / 2}` : `${stamp},${sun},14`,
    );
  }
  return new TextEncoder().encode(`${rows.join('\n')}\n`);
}

const HEAD = `
period: { start: 2025-05-01, days: 60, stepMin: 60 }
weather: { format: csv, file: sky.csv, stamp: start, global: ghi, air: air }
arrays: [{ name: roof, kWp: 3, tiltDeg: 30, azimuthDeg: 0, coupling: dc }]
money: { years: 15, fuelPerL: 1.5, serviceEveryH: 200, serviceCost: 300, overhaulEveryH: 8000, overhaulCost: 3000 }
`;

/** One phase, restricted nights, and a generator that is worn by hours: where to start, and where to stop. */
export const HUT = `
site: { name: Hut, latitudeDeg: -35, longitudeDeg: 150, timeZone: "+10:00" }
${HEAD}
load: [{ file: load.csv, unit: kW, stamp: start, columns: { a: 1 } }]
battery: { modules: 3, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }
inverter: { phases: 1, ratedKva: 5, chargerKw: 3 }
generator: { ratedKw: 5, fuel: [{ kW: 0, lPerH: 0.6 }, { kW: 5, lPerH: 1.9 }] }
control:
  charge: { startSoc: 0.4, stopSoc: 0.9 }
  restrictedHours: [{ from: "21:00", to: "06:00" }]
  urgentSoc: 0.15
`;

/** Three phases, of which one is loaded beyond its inverter: peak thresholds, and where to start. */
export const SHED = `
site: { name: Shed, latitudeDeg: -35, longitudeDeg: 150, timeZone: "+10:00" }
${HEAD}
load: [{ file: load.csv, unit: kW, stamp: start, columns: { a: 1, b: 2, c: 3 } }]
battery: { modules: 4, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }
inverter: { phases: 3, ratedKva: 5, chargerKw: 2 }
generator: { ratedKw: 12, fuel: [{ kW: 3, lPerH: 1.5 }, { kW: 12, lPerH: 4.1 }] }
control:
  charge: { startSoc: 0.5, stopSoc: 0.8 }
  peak: { startKw: 3, stopKw: 2 }
`;

/** One phase, a standby set of few hours a year: minimum run and output that charging aims at. */
export const POST = `
site: { name: Post, latitudeDeg: -35, longitudeDeg: 150, timeZone: "+10:00" }
${HEAD}
load: [{ file: load.csv, unit: kW, stamp: start, columns: { c: 1 } }]
battery: { modules: 5, moduleKwh: 5, moduleChargeKw: 1.2, moduleDischargeKw: 3 }
inverter: { phases: 1, ratedKva: 5, chargerKw: 5 }
generator: { ratedKw: 8, ratingClass: limitedTime, fuel: [{ kW: 2, lPerH: 1.1 }, { kW: 5, lPerH: 1.8 }, { kW: 8, lPerH: 3.1 }] }
control:
  charge: { startSoc: 0.4, stopSoc: 0.8 }
  minRunMin: 240
`;

export const requestOf = (text: string): ManyRequest => ({ text, file: 'site.yaml', readFile: series });

/** The site as filed. */
export function siteOf(text: string): Site {
  const { document } = parseSite(text, 'site.yaml');
  const [filed] = document ? readAlternatives(document).alternatives : [];
  if (!filed) throw new Error('the text is broken');
  return filed.site;
}
