/** Logs of plants that are well, and of plants with one fault of a size. */
import seedrandom from 'seedrandom';
import { type RecorderTraits, recordTruth, USUAL_RECORDER } from '../../../src/scenarios/log/recorder.ts';
import { RECORDED, type Recorded, type SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import type { Truth } from '../../../src/scenarios/log/truth.ts';
import type { VisitGround } from '../../../src/scenarios/visit/ground.ts';
import type { FaultKind } from '../../../src/scenarios/visit/visit.ts';
import type { Inputs } from '../../../src/sim/inputs.ts';
import {
  DAYS,
  differenceOf,
  groundOf,
  SITE_NAMES,
  type SiteName,
  STARTS,
  truthOf,
  type World,
  worldOf,
} from './fault-worlds.ts';

/** A log that was made, and what is wrong in it: null where nothing is. */
export interface Made {
  ground: VisitGround;
  what: string;
  /** since when it is wrong and until when, in days of the log; part that has it */
  wrong: { fromDay: number; toDay: number; part: string | null } | null;
  /** of the stated size and duration or more */
  stated: boolean;
}

type Draw = () => number;

const worlds = new Map<string, World>();

function world(name: SiteName, start: string, seed: string): World {
  const key = `${name} ${start} ${seed}`;
  if (!worlds.has(key)) worlds.set(key, worldOf(name, start, seed, seed.endsWith('1') ? 15 : 5));
  return worlds.get(key) as World;
}

const truths = new Map<string, Truth>();

/** A plant that is well; kept, since several recorders see it and some faults are the recorder's. */
function wellTruth(of: World, seed: string, naive: boolean): Truth {
  const key = `${of.name} ${of.start} ${of.seed} ${seed} ${naive}`;
  if (!truths.has(key)) truths.set(key, truthOf(of, differenceOf(of, seed), {}, naive));
  return truths.get(key) as Truth;
}

function pick<T>(draw: Draw, from: readonly T[]): T {
  return from[Math.floor(draw() * from.length)];
}

function traitsOf(
  draw: Draw,
  name: SiteName,
  seed: string,
  needs: readonly Recorded[] | 'all',
  stepMin: number,
): RecorderTraits {
  const small = name === 'hut';
  const columns =
    needs === 'all' ? RECORDED : RECORDED.filter((column) => needs.includes(column) || draw() > 0.15);
  return {
    ...USUAL_RECORDER,
    ...{ seed, columns, stepMin },
    arraysAlone: needs !== 'all' || draw() > 0.15,
    noiseFrac: 0.004 + 0.016 * draw(),
    noiseK: 0.1 + 0.3 * draw(),
    noiseL: (small ? 0.2 : 1) * (0.3 + draw()),
    quantum: {
      ...{ socFrac: pick(draw, [0.001, 0.01]), kw: pick(draw, small ? [0.001, 0.005] : [0.001, 0.01, 0.02]) },
      ...{ c: pick(draw, [0.1, 0.5]), l: small ? 0.1 : pick(draw, [0.1, 1]), wPerM2: 1 },
    },
    gapsADay: 0.15 * draw(),
    longestGapH: 4 + 16 * draw(),
  };
}

/** Fuel that swells and shrinks with the temperature of a tank that follows the outside with half a day's delay. */
function swollen(truth: Truth, draw: Draw): Truth {
  const { fuelL, outsideC, axis } = truth;
  if (!fuelL || !outsideC) return truth;
  const share = 0.3 + 0.7 * draw();
  const delaySteps = ((6 + 12 * draw()) * 60) / axis.stepMin;
  let tankC = outsideC[0];
  return {
    ...truth,
    fuelL: fuelL.map((litres, i) => {
      tankC += (outsideC[i] - tankC) / delaySteps;
      return litres * (1 + 0.00083 * share * (tankC - 15));
    }),
  };
}

function logOf(
  of: World,
  truth: Truth,
  draw: Draw,
  seed: string,
  needs: readonly Recorded[] | 'all',
): SiteRecord {
  return recordTruth(
    swollen(truth, draw),
    traitsOf(draw, of.name, seed, needs, of.stepMin === 5 && seed.includes('weak') ? 5 : 15),
  );
}

/** A log of a plant that is well; one in twelve by the plain simulator. */
export function wellCase(i: number, base: string): Made {
  const seed = `${base} well ${i}`;
  const draw = seedrandom(seed);
  const name = SITE_NAMES[i % 3];
  const start = STARTS[name][Math.floor(i / 3) % 3];
  const of = world(name, start, `${base} ${i % 2}`);
  const truth = wellTruth(of, `${base} ${i}`, i % 12 === 5);
  const what = `${name} from ${start}`;
  return {
    ground: groundOf(of, logOf(of, truth, draw, seed, draw() < 0.5 ? 'all' : [])),
    what,
    wrong: null,
    stated: false,
  };
}

/** What a fault needs, where it is made and how. */
interface Maker {
  needs: Recorded[];
  where: readonly (readonly [SiteName, number])[];
  /** sizes, the stated one among them; words for the table */
  sizes: readonly { size: number; label: string; stated: boolean }[];
  make: (setting: Setting) => { record: SiteRecord; wrong: NonNullable<Made['wrong']> };
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
  rewrite: (values: Float64Array, perDay: number) => NonNullable<Made['wrong']>,
) {
  const { of, draw, seed, needs } = setting;
  const truth = wellTruth(of, `well ${of.seed} ${Math.floor(draw() * 3)}`, false);
  const record = logOf(of, truth, draw, seed, needs);
  const values = (record.columns[column] as Float64Array).slice();
  const wrong = rewrite(values, 1440 / record.axis.stepMin);
  return { record: { ...record, columns: { ...record.columns, [column]: values } }, wrong };
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

const MAKERS: Record<FaultKind, Maker> = {
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
      { size: 1, label: '1 string', stated: true },
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
      { size: 14, label: '14 h', stated: true },
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
      { size: 0.07, label: '0.07', stated: true },
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
      ['farm', 2],
    ],
    sizes: [
      { size: 1, label: '1 day', stated: false },
      { size: 10, label: '10 days', stated: true },
      { size: 30, label: '30 days', stated: true },
    ],
    make: (setting) => {
      const { of, size, draw } = setting;
      const from = of.start.includes('-01-')
        ? Math.floor(draw() * 35)
        : DAYS - 1 - size - Math.floor(draw() * 10);
      return simulated(setting, { from: Math.max(1, from), changes: { 'cabinet.heater': null } });
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
      { size: 15, label: '15 days', stated: true },
      { size: 40, label: '40 days', stated: true },
    ],
    make: (setting) => simulated(setting, { from: DAYS - setting.size, changes: { 'cabinet.cooler': null } }),
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
      { size: 0.06, label: '0.06 kW', stated: false },
      { size: 0.35, label: '0.35 kW', stated: true },
      { size: 0.6, label: '0.6 kW', stated: true },
    ],
    make: (setting) => {
      const { draw } = setting;
      const size = setting.size * (setting.of.name === 'hut' ? 0.4 : 1);
      const usualKw = { farm: 0.46, workshop: 0.84, hut: 0.02 }[setting.of.name];
      // a hut that is drained every night has no night load
      const from =
        setting.of.name !== 'hut' && size > 0.7 * usualKw && draw() < 0.15 ? 0 : 15 + Math.floor(draw() * 40);
      const mishap = (inputs: Inputs): Inputs => ({
        ...inputs,
        loadKw: inputs.loadKw.map((kw, k) =>
          k === 0
            ? kw.map((value, i) => (i >= (from * 1440) / setting.of.stepMin ? value + size : value))
            : kw,
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
      { size: 0.006, label: '0.6 %', stated: true },
      { size: 0.012, label: '1.2 %', stated: true },
    ],
    make: (setting) =>
      rewritten(setting, 'fuelL', (fuelL, perDay) => {
        const { of, size, draw } = setting;
        const capacity = { farm: 1000, workshop: 800, hut: 60 }[of.name];
        const leakL = Math.max(size * capacity, (2 * size) / 0.006);
        const days = 7 + Math.floor(draw() * 8);
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

export function sizesOf(kind: FaultKind): Maker['sizes'] {
  return MAKERS[kind].sizes;
}

/** A log with one fault. */
export function faultyCase(kind: FaultKind, sizeIndex: number, i: number, base: string): Made {
  const { needs, where, sizes, make } = MAKERS[kind];
  const { size, stated } = sizes[sizeIndex];
  const seed = `${base} ${kind} ${size} ${i}`;
  const draw = seedrandom(seed);
  const [name, season] = where[i % where.length];
  const of = world(name, STARTS[name][season], `${base} ${i % 2}`);
  const { record, wrong } = make({ of, size, draw, seed, needs });
  return { ground: groundOf(of, record), what: `${name} from ${of.start}`, wrong, stated };
}
