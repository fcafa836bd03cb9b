import { readFileSync } from 'node:fs';
import { readCatalogue } from '../../src/scenarios/many/catalogue.ts';
import type { SourcedLimits } from '../../src/scenarios/many/limits.ts';
import type { Sized, SizeResult } from '../../src/scenarios/many/size-result.ts';
import type { Size } from '../../src/scenarios/many/sizes.ts';
import type { TunedSetting, TuneResult } from '../../src/scenarios/many/tune-result.ts';
import type { YearOutcome } from '../../src/scenarios/many/year-outcome.ts';

/** A year with 1,000 L of fuel, invented. */
export function outcome(parts: Partial<YearOutcome> = {}): YearOutcome {
  return {
    ...{ fuelL: 1000, runH: 300, starts: 200, mostStartsADay: 3, lowLoadH: 20, nightH: 40 },
    ...{ unservedKwh: 0, unservedH: 0, outages: 0, curtailedKwh: 500, minSoc: 0.18, batteryYears: 12 },
    ...{
      capital: 50_000,
      runningFirstYear: 2000,
      lifeCycleCost: 80_000,
      levelised: 0.5,
      co2Kg: 2697,
      visits: 0,
    },
    ...parts,
  };
}

const LIMITS: SourcedLimits = {
  limits: { unservedKwh: 0, startsADay: 4, runHours: 500, nightHours: null, depth: null },
  sources: { unservedKwh: 'today', startsADay: 'design', runHours: 'rating class' },
};

/** Where to start, bounded above by a limit; a peak start of which all values do. */
export function startSetting(parts: Partial<TunedSetting> = {}): TunedSetting {
  return {
    ...{ rule: 'startSoc', season: null, values: [0.2, 0.22, 0.24, 0.3], today: 3, chosen: 0 },
    curve: [
      { cost: 24_000, broken: [] },
      { cost: 24_100, broken: [] },
      { cost: 24_200, broken: ['startsADay'] },
      { cost: 30_000, broken: [] },
    ],
    flat: { from: 0, to: 1 },
    ...parts,
  };
}

export function peakSetting(): TunedSetting {
  const same = { cost: 24_000, broken: [] };
  return {
    ...{ rule: 'peakStartKw', season: null, values: [5, 6, null], today: 2, chosen: 2 },
    ...{ curve: [same, same, same], flat: { from: 0, to: 2 } },
  };
}

export function tuneResult(parts: Partial<TuneResult> = {}): TuneResult {
  return {
    site: { name: 'Invented <hut>', note: '', latDeg: 0, lonDeg: 0, currency: '$' },
    ...{ alternative: null, years: 20, days: 365, stepMin: 5, limits: LIMITS },
    settings: [startSetting(), peakSetting()],
    today: outcome(),
    chosen: outcome({ fuelL: 800, runH: 310, starts: 201, lifeCycleCost: 74_000 }),
    ...{ brokenToday: [], brokenChosen: [], changes: { 'control.charge.startSoc': 0.2 }, calendarEntries: 0 },
    otherYears: [
      { kind: 'more load', today: 36_000, chosen: 31_000, broken: ['startsADay'] },
      { kind: 'less sun', today: 34_000, chosen: 34_500, broken: [] },
    ],
    effort: { fineRuns: 700, coarseRuns: 17, trials: [], points: 12, ranOut: false },
    doubts: [],
    made: { version: '0', inputsHash: 'abc' },
    ...parts,
  };
}

function sized(size: Partial<Size>, parts: Partial<YearOutcome>, yearlyCost: number): Sized {
  const all = { generatorKw: 20, inverterKva: 8, modules: 12, arrayKwp: 24, arrayTimes: 1, ...size };
  return { size: all, changes: { ...size }, outcome: outcome(parts), yearlyCost, broken: [] };
}

/** Five choices, of which four are on the frontier; the own one is not, and the cheapest is dearer at the start. */
export function sizeResult(parts: Partial<SizeResult> = {}): SizeResult {
  const yaml = readFileSync('profiles/equipment/catalogue.yaml', 'utf8');
  const { catalogue } = readCatalogue(yaml, 'catalogue.yaml');
  if (catalogue === null) throw new Error('the catalogue is broken');
  const own = sized({}, {}, 2400);
  const frontier = [
    sized({ generatorKw: 10 }, { capital: 45_000, lifeCycleCost: 77_000, fuelL: 1100 }, 2300),
    sized({ modules: 18 }, { capital: 60_000, lifeCycleCost: 76_000, fuelL: 700 }, 1300),
    sized({ modules: 24 }, { capital: 70_000, lifeCycleCost: 81_000, fuelL: 500 }, 900),
    sized({ modules: 30 }, { capital: 90_000, lifeCycleCost: 99_000, fuelL: 450 }, 700),
  ];
  const cloud = [own, ...frontier].map(({ outcome: { capital, fuelL, unservedKwh }, yearlyCost }) => ({
    ...{ capital, fuelL, unservedKwh, yearlyCost },
    keepsLimits: true,
  }));
  return {
    site: { name: 'Invented <hut>', note: '', latDeg: 0, lonDeg: 0, currency: '$' },
    ...{ alternative: null, years: 20, discountRate: 0.05, days: 365, stepMin: 5, limits: LIMITS },
    lists: {
      ...{ generatorKw: [10, 20], inverterKva: [8], modules: [12, 18, 24, 30] },
      arrays: [{ arrayKwp: 24, arrayTimes: 1 }],
    },
    ...{ own, cheapest: frontier[1], frontier, all: null, cloud },
    fuelFrontiers: [
      { mostCapital: 50_000, sizes: [own] },
      { mostCapital: 62_500, sizes: [frontier[1]] },
      { mostCapital: null, sizes: [frontier[3]] },
    ],
    prices: { file: 'catalogue.yaml', catalogue, fromSite: ['perModule'] },
    effort: { choices: 5, fineRuns: 5, coarseRuns: 0, trials: [] },
    ...{ doubts: [], made: { version: '0', inputsHash: 'abc' } },
    ...parts,
  };
}
