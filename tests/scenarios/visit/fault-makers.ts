/** How plants with one fault are made: a change of the site, of what happens to it, or of what its meters show. */
import type { Recorded, SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import type { FaultKind } from '../../../src/scenarios/visit/visit.ts';
import type { Inputs } from '../../../src/sim/inputs.ts';
import { type Draw, logOf, pick } from './fault-recorders.ts';
import { DAYS, differenceOf, type SiteName, truthOf, type World, wellTruth } from './fault-worlds.ts';

/** Since when something is wrong and until when, in days of the log, and the part that has it. */
export interface Wrong {
  fromDay: number;
  toDay: number;
  part: string | null;
}

/** What a fault needs, where it is made and how. */
export interface Maker {
  needs: Recorded[];
  where: readonly (readonly [SiteName, number])[];
  /** sizes, the stated one among them; words for the table */
  sizes: readonly { size: number; label: string; stated: boolean }[];
  make: (setting: Setting) => { record: SiteRecord; wrong: Wrong };
}

interface Setting {
  of: World;
  size: number;
  draw: Draw;
  seed: string;
  needs: Recorded[];
}

function simulated(
  { of, draw, seed, needs }: Setting,
  fault: Parameters<typeof truthOf>[2],
  part: string | null = null,
  toDay = DAYS,
  naive = false,
): ReturnType<Maker['make']> {
  const truth = truthOf(of, differenceOf(of, seed), fault, naive);
  return { record: logOf(of, truth, draw, seed, needs), wrong: { fromDay: fault?.from ?? 0, toDay, part } };
}

/** A log whose readings of one column are changed after the recorder. */
function rewritten(
  setting: Setting,
  column: Recorded,
  rewrite: (values: Float64Array, perDay: number) => Wrong,
) {
  const { of, draw, seed, needs } = setting;
  const truth = wellTruth(of, `well ${of.seed} ${Math.floor(draw() * 3)}`, false);
  const record = logOf(of, truth, draw, seed, needs);
  const values = (record.columns[column] as Float64Array).slice();
  const wrong = rewrite(values, 1440 / record.axis.stepMin);
  return { record: { ...record, columns: { ...record.columns, [column]: values } }, wrong };
}

/** Hours in which the cells are 2.5 K or more below the farm's threshold, with charge enough to heat. */
function coldHours({ record: { axis, columns } }: ReturnType<Maker['make']>): number {
  const { cellC, socFrac } = columns as Record<'cellC' | 'socFrac', Float64Array>;
  return (cellC.filter((c, i) => c < 3 - 2.5 && socFrac[i] > 0.28).length * axis.stepMin) / 60;
}

/** Hours since a day in which the air is 4 K or more above the workshop's threshold of 36 °C. */
function hotHours({ record: { axis, columns }, wrong }: ReturnType<Maker['make']>): number {
  const cabinetC = columns.cabinetC as Float64Array;
  const from = (wrong.fromDay * 1440) / axis.stepMin;
  return (cabinetC.filter((c, i) => i >= from && c >= 36 + 4).length * axis.stepMin) / 60;
}

/** Tries to make a case that keeps the stated terms, before the test gives up. */
const MOST_TRIES = 200;

/** Whether the outside is cold for long enough that cells may get cold at all, before a truth is simulated for it. */
function isWinter(of: World, fromDay: number, days: number): boolean {
  const { outsideC, axis } = wellTruth(of, `well ${of.seed} 0`, false);
  const perDay = 1440 / axis.stepMin;
  const part = (outsideC as Float64Array).subarray(fromDay * perDay, (fromDay + days) * perDay);
  return part.filter((c) => c < 0).length >= perDay;
}

/** Names, ratings [kWp] and strings. */
const ARRAYS: Record<SiteName, [string, number, number][]> = {
  farm: [
    ['barn', 16, 8],
    ['shed', 8, 4],
  ],
  workshop: [
    ['roof', 22, 5],
    ['carport', 14, 7],
  ],
  hut: [['roof', 1.6, 1]],
};

export const MAKERS: Record<FaultKind, Maker> = {
  'dead-string': {
    needs: ['socFrac', 'cellC', 'sunWPerM2', 'outsideC', 'generatorOn'],
    where: [
      ['farm', 1],
      ['farm', 2],
      ['workshop', 0],
      ['workshop', 1],
      ['workshop', 2],
    ],
    sizes: [
      { size: 0.4, label: '0.4 strings', stated: false },
      { size: 1, label: '1 string (0.125 to 0.25)', stated: true },
      { size: 2, label: '2 strings', stated: true },
    ],
    make: (setting) => {
      const { of, size, draw, seed } = setting;
      const [name, kWp, strings] = pick(draw, ARRAYS[of.name]);
      const from = 20 + Math.floor(draw() * 30);
      return simulated(
        { ...setting, seed },
        { from, changes: { [`arrays.${name}.kWp`]: kWp * (1 - size / strings) } },
        name,
      );
    },
  },
  'phase-missing': {
    needs: ['load1Kw', 'load2Kw', 'load3Kw'],
    where: [
      ['farm', 0],
      ['farm', 1],
      ['workshop', 0],
      ['workshop', 1],
    ],
    sizes: [
      { size: 4, label: '4 h', stated: false },
      { size: 12, label: '12 h', stated: true },
      { size: 60, label: '60 h', stated: true },
    ],
    make: (setting) => {
      const { size, draw } = setting;
      const phase = Math.floor(draw() * 3);
      const fromH = Math.floor((10 + draw() * 50) * 24);
      const perH = 60 / setting.of.stepMin;
      const mishap = (inputs: Inputs): Inputs => ({
        ...inputs,
        loadKw: inputs.loadKw.map((kw, k) =>
          k === phase
            ? kw.map((value, i) => (i >= fromH * perH && i < (fromH + size) * perH ? 0 : value))
            : kw,
        ),
      });
      const made = simulated(setting, { mishap }, `phase ${phase + 1}`);
      return { ...made, wrong: { ...made.wrong, fromDay: fromH / 24, toDay: (fromH + size) / 24 } };
    },
  },
  'weak-charging': {
    needs: ['generatorKw', 'socFrac', 'loadKw', 'cellC', 'cabinetC', 'batteryKw', 'arrayKw', 'generatorOn'],
    where: [
      ['farm', 0],
      ['farm', 2],
      ['workshop', 1],
      ['hut', 1],
    ],
    sizes: [
      { size: 0.12, label: '12 %', stated: false },
      { size: 0.3, label: '30 %', stated: true },
      { size: 0.5, label: '50 %', stated: true },
    ],
    make: (setting) => {
      const { of, size, draw } = setting;
      const chargerKw = { farm: 6, workshop: 10, hut: 1.2 }[of.name];
      const changes = { 'inverter.chargerKw': chargerKw * (1 - size) };
      const naive = draw() < 0.1;
      const from = naive || of.name === 'workshop' ? 0 : Math.floor(draw() * 25);
      return simulated(setting, { from, changes }, null, DAYS, naive);
    },
  },
  'soc-drift': {
    needs: ['socFrac', 'batteryKw'],
    where: [
      ['farm', 1],
      ['workshop', 0],
      ['workshop', 2],
      ['hut', 0],
      ['hut', 2],
    ],
    sizes: [
      { size: 0.004, label: '0.004 a day', stated: false },
      { size: 0.012, label: '0.012 a day', stated: true },
      { size: 0.025, label: '0.025 a day', stated: true },
    ],
    make: (setting) => {
      const { size, draw } = setting;
      const driftPerDay = draw() < 0.5 ? size : -size;
      const naive = draw() < 0.1;
      return simulated(setting, { changes: { 'battery.display': { driftPerDay } } }, null, DAYS, naive);
    },
  },
  'soc-jump': {
    needs: ['socFrac', 'batteryKw'],
    where: [
      ['farm', 0],
      ['farm', 1],
      ['workshop', 0],
      ['workshop', 1],
      ['hut', 1],
    ],
    sizes: [
      { size: 0.03, label: '0.03', stated: false },
      { size: 0.06, label: '0.06', stated: true },
      { size: 0.15, label: '0.15', stated: true },
    ],
    make: (setting) =>
      rewritten(setting, 'socFrac', (soc, perDay) => {
        const { draw, size } = setting;
        for (;;) {
          const at = 10 + Math.floor(draw() * (soc.length - 20));
          const jump = draw() < 0.5 ? size : -size;
          const near = Array.from({ length: 7 }, (_, k) => soc[at - 3 + k]);
          // the meter is not at its ends, and the recorder records
          if (
            !near.every((value) => value > 0.02 && value < 0.95 && value + jump > 0.02 && value + jump < 0.95)
          )
            continue;
          for (let i = at; i < soc.length && !(soc[i] >= 0.97); i++)
            soc[i] = Math.min(1, Math.max(0, soc[i] + jump));
          return { fromDay: at / perDay, toDay: (at + 1) / perDay, part: null };
        }
      }),
  },
  'heater-off': {
    needs: ['cellC', 'outsideC', 'socFrac', 'generatorOn'],
    where: [
      ['farm', 0],
      ['farm', 0],
      ['farm', 2],
    ],
    sizes: [
      { size: 4, label: '4 days', stated: false },
      { size: 20, label: '12 cold hours in 20 days', stated: true },
      { size: 40, label: '12 cold hours in 40 days', stated: true },
    ],
    make: (setting) => {
      const { of, size, draw, seed } = setting;
      const [first, last] = of.start.includes('-01-') ? [2, 60] : [28, DAYS];
      for (let again = 0; again < MOST_TRIES; again++) {
        const from = first + Math.floor(draw() * (last - first - size));
        if (size >= 20 && !isWinter(of, from, size)) continue;
        const fault = { from, to: from + size, changes: { 'cabinet.heater': null } };
        const made = simulated({ ...setting, seed: `${seed} ${again}` }, fault, null, from + size);
        if (size < 20 || coldHours(made) >= 12) return made;
      }
      throw new Error(`no ${size} days with 12 cold hours in ${of.name} ${of.seed}`);
    },
  },
  'cooler-off': {
    needs: ['cabinetC', 'outsideC', 'loadKw', 'sunWPerM2'],
    where: [
      ['workshop', 0],
      ['workshop', 2],
    ],
    sizes: [
      { size: 1, label: '1 day', stated: false },
      { size: 25, label: '12 hot hours in 25 days', stated: true },
      { size: 40, label: '12 hot hours in 40 days', stated: true },
    ],
    make: (setting) => {
      const { of, size, seed } = setting;
      const fault = { from: DAYS - size, changes: { 'cabinet.cooler': null } };
      for (let again = 0; again < MOST_TRIES; again++) {
        const made = simulated({ ...setting, seed: `${seed} ${again}` }, fault);
        if (size < 25 || hotHours(made) >= 12) return made;
      }
      throw new Error(`no ${size} days with 12 hot hours in ${of.name} ${of.seed}`);
    },
  },
  'night-load': {
    needs: ['loadKw'],
    where: [
      ['farm', 0],
      ['farm', 1],
      ['workshop', 0],
      ['workshop', 1],
      ['hut', 1],
      ['hut', 2],
    ],
    sizes: [
      { size: 0.4, label: '0.4 of what is stated', stated: false },
      { size: 1, label: '0.15 kW or 36 %', stated: true },
      { size: 2, label: '0.3 kW or 72 %', stated: true },
    ],
    make: (setting) => {
      const { draw, of, seed } = setting;
      const usualKw = { farm: 0.46, workshop: 0.84, hut: 0.02 }[of.name] * differenceOf(of, seed).loadFactor;
      const size = setting.size * Math.max(0.15, 0.36 * usualKw);
      // a hut that is drained every night has no night load
      const from =
        of.name !== 'hut' && size > 0.7 * usualKw && draw() < 0.15 ? 0 : 13 + Math.floor(draw() * 44);
      const mishap = (inputs: Inputs): Inputs => ({
        ...inputs,
        loadKw: inputs.loadKw.map((kw, k) =>
          k === 0 ? kw.map((value, i) => (i >= (from * 1440) / of.stepMin ? value + size : value)) : kw,
        ),
      });
      const made = simulated(setting, { mishap });
      return { ...made, wrong: { ...made.wrong, fromDay: from } };
    },
  },
  'fuel-loss': {
    needs: ['fuelL', 'generatorOn', 'outsideC'],
    where: [
      ['farm', 0],
      ['farm', 1],
      ['workshop', 0],
      ['workshop', 1],
      ['hut', 1],
    ],
    sizes: [
      { size: 0.0015, label: '0.15 % of the tank a day', stated: false },
      { size: 0.006, label: '0.6 % for 7 days', stated: true },
      { size: 0.012, label: '1.2 % for 7 to 14 days', stated: true },
    ],
    make: (setting) =>
      rewritten(setting, 'fuelL', (fuelL, perDay) => {
        const { of, size, draw } = setting;
        const capacity = { farm: 1000, workshop: 800, hut: 60 }[of.name];
        const leakL = Math.max(size * capacity, (2 * size) / 0.006);
        const days = size > 0.006 ? 7 + Math.floor(draw() * 8) : 7;
        const from = Math.floor(draw() * (DAYS - days));
        let lost = 0;
        for (let i = from * perDay; i < fuelL.length; i++) {
          // a delivery fills it up
          if (i > 0 && fuelL[i] > fuelL[i - 1] + 0.2 * capacity) lost = 0;
          if (i < (from + days) * perDay) lost += leakL / perDay;
          fuelL[i] = Math.max(0, fuelL[i] - lost);
        }
        return { fromDay: from, toDay: from + days, part: null };
      }),
  },
};
