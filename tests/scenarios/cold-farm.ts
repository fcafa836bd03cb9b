/** Small made-up sites for running again: eleven days of half hours, sun and load drawn from a seed. */
import seedrandom from 'seedrandom';
import { runStudy, type StudyRequest } from '../../src/scenarios/run-study.ts';

export interface ColdFarm {
  seed: string;
  modules: number;
  kWp: number;
  startSoc: number;
  /** null: no start on a high load */
  peakKw: number | null;
  /** mean outside air [°C] */
  airC: number;
  heater: boolean;
  cooler: boolean;
}

export type Changes = Record<string, unknown>;

/** The site as a plain value, to be written as JSON. */
function farmValue(farm: ColdFarm): Record<string, unknown> {
  return {
    site: { name: 'Cold farm', latitudeDeg: 47, longitudeDeg: 15, timeZone: '+01:00' },
    period: { start: '2025-01-01', days: 10, stepMin: 30 },
    load: [{ file: 'load.csv', unit: 'kW', stamp: 'start', columns: { house: 1 } }],
    weather: { format: 'csv', file: 'sky.csv', stamp: 'start', global: 'ghi', air: 'air' },
    arrays: [
      { name: 'roof', kWp: farm.kWp, tiltDeg: 45, azimuthDeg: 180, coupling: 'dc', controllerA: 10 },
      { name: 'wall', kWp: 1, tiltDeg: 90, azimuthDeg: 180, coupling: 'ac', inverterKw: 0.8 },
    ],
    battery: { modules: farm.modules, moduleKwh: 3, moduleChargeKw: 1.5, moduleDischargeKw: 2 },
    inverter: { phases: 1, ratedKva: 4, chargerKw: 2 },
    cabinet: {
      airKjPerK: 30,
      batteryKjPerK: 40 * farm.modules,
      airToOutsideWPerK: 10,
      airToBatteryWPerK: 6,
      batteryToOutsideWPerK: 3,
      sunM2: 0.3,
      heater: farm.heater ? { ratedW: 150, onC: 3, offC: 6, minSoc: 0.25 } : null,
      cooler: farm.cooler ? { ratedW: 100, onC: 38, offC: 34 } : null,
    },
    generator: { ratedKw: 5, fuel: [{ kW: 0, lPerH: 0.6 }, { kW: 5, lPerH: 1.9 }] }, // biome-ignore format: one line
    control: {
      charge: { startSoc: farm.startSoc, stopSoc: 0.8 },
      peak: farm.peakKw === null ? null : { startKw: farm.peakKw, stopKw: farm.peakKw * 0.7 },
      restrictedHours: [{ from: '22:00', to: '05:00' }],
      urgentSoc: 0.15,
    },
    money: { fuelPerL: 1.5 },
  };
}

/** Runs a farm with alternatives made of changes, each by its name. */
export function runFarm(farm: ColdFarm, alternatives: { name: string; changes: Changes }[] = []) {
  return runStudy(farmRequest(farm, alternatives));
}

function farmRequest(farm: ColdFarm, alternatives: { name: string; changes: Changes }[]): StudyRequest {
  return {
    text: JSON.stringify({ ...farmValue(farm), alternatives }),
    file: 'farm.json',
    readFile: (path) => farmFile(farm, path),
    version: '0',
  };
}

function farmFile({ seed, airC }: ColdFarm, path: string): Uint8Array {
  const draw = seedrandom(`${seed} ${path}`);
  const rows = [path === 'load.csv' ? 'time,house' : 'time,ghi,air'];
  let clear = 1;
  for (let i = 0; i < 11 * 48; i++) {
    const hour = (i % 48) / 2;
    if (hour === 0) clear = draw();
    const stamp = new Date(Date.UTC(2025, 0, 1) + i * 1_800_000).toISOString().slice(0, 16).replace('T', ' ');
    const sun = Math.max(0, (650 - 40 * (hour - 12) ** 2) * clear);
    const kw = (hour > 16 && hour < 22 ? 1 : 0.25) + (draw() < 0.04 ? 2.2 : 0.3 * draw());
    const air = airC + 4 * Math.sin((2 * Math.PI * (hour - 9)) / 24);
    rows.push(
      path === 'load.csv' ? `${stamp},${kw.toFixed(3)}` : `${stamp},${sun.toFixed(1)},${air.toFixed(2)}`,
    );
  }
  return new TextEncoder().encode(`${rows.join('\n')}\n`);
}
