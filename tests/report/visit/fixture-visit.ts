/** A visit made by hand: the farm of the demonstration, whose load grew and one of whose strings died in spring. */
import {
  CAUSES,
  ESTIMATED,
  type Estimate,
  FAULTS,
  type Fault,
  type Visit,
} from '../../../src/scenarios/visit/visit.ts';

const DAY_S = 86_400;
const FROM_S = Date.UTC(2024, 11, 31, 23) / 1000; // midnight at +01:00
const DAYS = 365;
const APRIL_S = FROM_S + 92 * DAY_S;
const TO_S = FROM_S + DAYS * DAY_S;

/** More in winter, with a wave of good and bad weeks. */
function dayKwh(day: number, times: number): number {
  const winter = 0.5 + 0.5 * Math.cos((2 * Math.PI * (day + 8)) / 365);
  const weather = 0.5 + 0.5 * Math.sin(day * 1.7) * Math.cos(day * 0.31);
  return Math.round(times * 40 * Math.max(0, winter * 0.8 + weather * 0.5 - 0.45) * 10) / 10;
}

const NOT_LOGGED = new Set([120, 121, 122, 200, 201, 202, 203, 204, 205, 206, 330]);
const dayList = Array.from({ length: DAYS }, (_, day) => day);

function known(
  key: Estimate['key'],
  [value, low, high]: [number, number, number],
  designed: number | null,
  basis: [number, Extract<Estimate, { value: number }>['basis']['of']],
  fromS = FROM_S,
): Estimate {
  return { key, value, low, high, designed, basis: { count: basis[0], of: basis[1] }, fromS, toS: TO_S };
}

export function richVisit(change: Partial<Visit> = {}): Visit {
  return {
    site: {
      name: 'Farm with milking and a cool room',
      note: 'Twelve battery modules or twenty-four, and where should the generator start?',
      latDeg: 47,
      lonDeg: 15,
      currency: '$',
    },
    invented: true,
    parts: { generator: true, battery: true, array: true, cabinet: true },
    fuelPerL: 1.6,
    tank: { levelL: 412, litresADay: 6.8, daysLeft: 54.7 },
    timeZone: '+01:00',
    fromS: FROM_S,
    toS: TO_S,
    stepMin: 5,
    record: {
      file: 'farm-log.csv',
      timeZone: '+01:00, stamps at interval end',
      rows: 101_837,
      columns: [
        column('soc %', 'socFrac', '%', 3283),
        column('load W', 'loadKw', 'W', 3283),
        column('barn W', 'array:barn', 'W', 3283),
        column('shed W', 'array:shed', 'W', 4100),
        { ...column('battery W', 'batteryKw', 'W', 3283), turned: 'found' },
        column('genset W', 'generatorKw', 'W', 3283),
        column('tank L', 'fuelL', 'L', 9000),
        column('sun W/m2', 'sunWPerM2', 'W/m²', 3283),
      ],
      gaps: [
        { startS: FROM_S + 200 * DAY_S, steps: 2016 },
        { startS: FROM_S + 120 * DAY_S, steps: 864 },
        { startS: FROM_S + 330 * DAY_S, steps: 288 },
      ],
      duplicates: 12,
      resets: 1,
      clock: { addedH: 1, driftHPerDay: -0.0005, by: 'sun' },
    },
    comparison: {
      designed: {
        loadKwh: 15_650,
        arrayKwh: 12_900,
        generatorKwh: 3910,
        fuelL: 1412,
        runH: 352,
        starts: 214,
        lowestSoc: 0.211,
      },
      ran: {
        loadKwh: 17_310,
        arrayKwh: 12_020,
        generatorKwh: 6105,
        fuelL: 2163,
        runH: 541,
        starts: 331,
        lowestSoc: 0.184,
      },
      calibrated: {
        loadKwh: 17_310,
        arrayKwh: 12_085,
        generatorKwh: 6034,
        fuelL: 2139,
        runH: 533,
        starts: 322,
        lowestSoc: 0.192,
      },
      coverage: 354 / 365,
      fuelFrom: 'tank',
      filled: { loadSteps: 3168, sunSteps: 3168 },
      asDesigned: false,
      causes: [
        { kind: 'load', generatorKwh: 1290, fuelL: 441, runH: 113 },
        { kind: 'sun', generatorKwh: -180, fuelL: -61, runH: -16 },
        { kind: 'array', generatorKwh: 610, fuelL: 209, runH: 52 },
        { kind: 'battery', generatorKwh: 130, fuelL: 46, runH: 12 },
        { kind: 'standby', generatorKwh: 120, fuelL: 41, runH: 10 },
        { kind: 'thresholds', generatorKwh: 154, fuelL: 51, runH: 10 },
        { kind: 'charging', generatorKwh: 0, fuelL: 0, runH: 0 },
        { kind: 'hours', generatorKwh: 0, fuelL: 0, runH: 0 },
        { kind: 'cabinet', generatorKwh: 0, fuelL: 0, runH: 0 },
        { kind: 'unexplained', generatorKwh: 71, fuelL: 24, runH: 8 },
      ],
      days: {
        startS: dayList.map((day) => FROM_S + day * DAY_S),
        designedKwh: dayList.map((day) => (NOT_LOGGED.has(day) ? null : dayKwh(day, 1))),
        ranKwh: dayList.map((day) => (NOT_LOGGED.has(day) ? null : dayKwh(day + 0.3, day > 92 ? 1.8 : 1.1))),
        calibratedKwh: dayList.map((day) =>
          NOT_LOGGED.has(day) ? null : dayKwh(day + 0.2, day > 92 ? 1.78 : 1.12),
        ),
      },
    },
    estimates: [
      known('loadFactor', [1.142, 1.121, 1.163], 1, [273, 'days'], APRIL_S),
      known('arrayFactor', [0.871, 0.842, 0.903], 1, [181, 'days'], APRIL_S),
      known('usableKwh', [57.6, 56.1, 59.2], 60, [214, 'swings']),
      known('oneWayEfficiency', [0.968, 0.957, 0.981], 0.975, [214, 'swings']),
      known('standbyKw', [0.182, 0.164, 0.201], 0.15, [297, 'nights']),
      known('startSoc', [0.4, 0.392, 0.405], 0.3, [322, 'starts']),
      known('stopSoc', [0.8, 0.791, 0.808], 0.8, [318, 'stops']),
      known('chargeKw', [16.4, 15.9, 16.9], 16.2, [331, 'runs']),
      known('fuelAtRest', [1.11, 0.98, 1.27], 1.05, [331, 'runs']),
      known('fuelPerKwh', [0.262, 0.251, 0.274], 0.258, [331, 'runs']),
      { key: 'coolingWPerK', value: null, why: 'no-column', lacks: 'cabinetC and outsideC' },
      { key: 'timeConstantH', value: null, why: 'no-column', lacks: 'cellC' },
    ],
    calibration: {},
    faults: [
      {
        kind: 'dead-string',
        part: 'barn',
        fromS: APRIL_S,
        toS: TO_S,
        size: 0.124,
        unit: '0 to 1',
        evidence: { shareBefore: 0.992, shareAfter: 0.868, days: 268, stringsLost: 1, strings: 8 },
      },
      {
        kind: 'fuel-loss',
        part: null,
        fromS: FROM_S + 240 * DAY_S,
        toS: FROM_S + 262 * DAY_S,
        size: 2.3,
        unit: 'L/day',
        evidence: { litresPerDay: 2.3, days: 22, standingH: 61 },
      },
    ],
    notLookedFor: [
      { kind: 'heater-off', lacks: 'cellC' },
      { kind: 'cooler-off', lacks: 'cabinetC' },
      { kind: 'phase-missing', lacks: 'load1Kw, load2Kw and load3Kw' },
    ],
    retune: {
      changes: [
        { path: 'control.charge.startSoc', from: 0.4, to: 0.25 },
        { path: 'control.minRunMin', from: 45, to: 75 },
      ],
      why: 'found',
      litresAMonth: { value: 14.2, low: 9.1, high: 18.6 },
      hoursAMonth: { value: 3.1, low: 2.2, high: 4.3 },
      startsAMonth: { value: 4.4, low: 3.1, high: 5.2 },
    },
    extensions: [
      {
        name: '24 modules',
        note: 'twice the battery, in the second cabinet',
        before: { generatorKwh: 6220, fuelL: 2204, runH: 551, starts: 337, lowestSoc: 0.18, unservedKwh: 0 },
        after: { generatorKwh: 5110, fuelL: 1790, runH: 388, starts: 171, lowestSoc: 0.22, unservedKwh: 0 },
      },
      {
        name: '10 kWp more',
        note: '',
        before: { generatorKwh: 6220, fuelL: 2204, runH: 551, starts: 337, lowestSoc: 0.18, unservedKwh: 0 },
        after: { generatorKwh: 4390, fuelL: 1551, runH: 392, starts: 240, lowestSoc: 0.19, unservedKwh: 0 },
      },
    ],
    doubts: [
      {
        severity: 'doubt',
        code: 'gap',
        path: 'tank L',
        got: '9,000 steps without a value',
        want: 'a value in every step',
        at: { file: 'farm-log.csv' },
      },
    ],
    made: { version: '0.0.0', inputsHash: '0123456789abcdef' },
    ...change,
  };
}

/** What each fault is told by. */
const EVIDENCE_KEYS: Record<Fault['kind'], string[]> = {
  'dead-string': ['shareBefore', 'shareAfter', 'days', 'stringsLost', 'strings'],
  'phase-missing': ['hours', 'seenKw', 'expectedKw', 'othersKw', 'othersUsualKw'],
  'weak-charging': ['expectedKw', 'seenKw', 'weakRuns', 'runs', 'steps'],
  'soc-drift': ['perDay', 'fullCharges', 'explained'],
  'soc-jump': ['jumps', 'largest', 'explained'],
  'heater-off': ['hours', 'seenC', 'expectedC'],
  'cooler-off': ['hours', 'seenC', 'expectedC'],
  'night-load': ['beforeKw', 'afterKw', 'nights', 'kwhADay'],
  'fuel-loss': ['litresPerDay', 'standingH', 'days'],
};

export function evidenceOf(kind: Fault['kind'], value = (i: number): number => i + 2): Fault['evidence'] {
  return Object.fromEntries(EVIDENCE_KEYS[kind].map((key, i) => [key, value(i)]));
}

/** As much as there can be on the two sheets: every cause, every estimate, every fault, many extensions. */
export function fullestVisit(): Visit {
  const visit = richVisit();
  const { fromS, toS } = visit;
  const causes = CAUSES.map((kind, i) => ({
    kind,
    generatorKwh: 60 * (i + 1),
    fuelL: 20 * (i + 1),
    runH: 5 * (i + 1),
  }));
  const fuelL = causes.reduce((sum, cause) => sum + cause.fuelL, visit.comparison.designed.fuelL ?? 0);
  return {
    ...visit,
    comparison: { ...visit.comparison, ran: { ...visit.comparison.ran, fuelL }, causes },
    estimates: ESTIMATED.map((key) => known(key, [1.14, 1.11, 1.17], 1, [273, 'days'], APRIL_S)),
    faults: FAULTS.map((kind) => ({
      ...{
        kind,
        part: null,
        fromS: fromS + 100 * DAY_S,
        toS: toS - 50 * DAY_S,
        size: 0.5,
        unit: '0 to 1',
        evidence: evidenceOf(kind),
      },
    })),
    extensions: Array.from({ length: 9 }, (_, i) => ({ ...visit.extensions[0], name: `choice ${i + 1}` })),
    doubts: Array.from({ length: 20 }, () => visit.doubts[0]),
    record: {
      ...visit.record,
      columns: Array.from({ length: 15 }, (_, i) => column(`outside ${i}`, 'outsideC', 'C', 900)),
    },
  };
}

function column(
  header: string,
  is: string,
  unit: string,
  missing: number,
): Visit['record']['columns'][number] {
  return { header, is, unit, total: 1000, lowest: 0, highest: 10, missing, quantum: 0.01, turned: 'no' };
}
