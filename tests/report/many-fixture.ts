import type { BreakEven, BreakEvenResult } from '../../src/scenarios/many/break-even.ts';
import type { StudyFacts } from '../../src/scenarios/many/many-study.ts';
import type { SensitivityResult, SensitivityRow } from '../../src/scenarios/many/sensitivity.ts';
import type { StressRun, StressStudy, StressYear } from '../../src/scenarios/many/stress-result.ts';
import { OUTAGE_CAUSES } from '../../src/sim/causes.ts';

export const FACTS: StudyFacts = {
  site: { name: 'Invented <hut>', note: '', latDeg: 0, lonDeg: 0, currency: '$' },
  stepMin: 5,
  has: { battery: true, array: true, generator: true },
  sheets: [],
  doubts: [],
  made: { version: '0', inputsHash: 'abc' },
};

/** Fuel price at which both cost the same, with straight lines through it. Invented. */
export function fuelBreakEven(parts: Partial<BreakEven> = {}): BreakEven {
  return {
    key: 'fuelPrice',
    from: 0,
    to: 4,
    filed: 1.6,
    same: false,
    curve: [0, 1, 2, 3, 4].map((value) => ({ value, costs: [1000 + 500 * value, 1500 + 100 * value] })),
    crossings: [{ value: 1.25, kind: 'equal', costs: [1625, 1625], cheaperBelow: 0 }],
    ...parts,
  };
}

export function breakEvenOf(parts: Partial<BreakEvenResult> = {}): BreakEvenResult {
  const side = (name: string, capital: number, lifeCycleCost: number, unservedKwh = 0) => {
    return { name, capital, lifeCycleCost, fuelL: 100, runH: 30, unservedKwh };
  };
  return {
    sides: [side('as filed', 1000, 1800), side('more modules', 1500, 1660)],
    years: 10,
    discountRate: 0.05,
    payback: { dearer: 1, extraCapital: 500, simpleYears: 4.25, discountedYears: 5 },
    values: [fuelBreakEven()],
    unservedPriced: false,
    ...parts,
  };
}

export function row(path: string, low: number, high: number, costs: [number[], number[]]): SensitivityRow {
  const figures = (lifeCycleCost: number) => ({ lifeCycleCost, fuelL: 100, runH: 30, unservedKwh: 0 });
  return {
    path,
    low,
    high,
    filed: low,
    name: null,
    atLow: costs[0].map(figures),
    atHigh: costs[1].map(figures),
  };
}

export function sensitivityOf(names: string[], filed: number[], rows: SensitivityRow[]): SensitivityResult {
  const figures = filed.map((lifeCycleCost) => ({ lifeCycleCost, fuelL: 100, runH: 30, unservedKwh: 0 }));
  return { names, years: 10, filed: figures, rows };
}

/** A year with 10 L and 1 h in every month, and what is given. Invented. */
export function stressYear(fuelL: number, unservedKwh = 0, late = false): StressYear {
  const month = { fuelL: fuelL / 12, runH: 1, running: fuelL / 6, unservedKwh: unservedKwh / 12 };
  const causes = Object.fromEntries(
    OUTAGE_CAUSES.map((cause) => [cause, 0]),
  ) as StressYear['unservedByCauseKwh'];
  return {
    ...{ fuelL, runH: 12, running: 2 * fuelL, unservedKwh, unservedH: unservedKwh / 2 },
    unservedByCauseKwh: { ...causes, 'tank dry': unservedKwh },
    draw: { weather: 3, late, which: 0 },
    capacityFrac: 0.9,
    starts: 5,
    loadKwh: 1000,
    months: new Array(12).fill(month),
  };
}

export function stressRun(run: number, years: StressYear[], lifeCycleCost: number): StressRun {
  return { run, loadFactor: 1.1, fuelPriceFactor: 1, years, lifeCycleCost };
}

export function stressOf(alternatives: [string, StressRun[]][]): StressStudy {
  return {
    ...FACTS,
    start: '2025-01-01',
    terms: {
      ...{ runs: 2, years: 2, seed: 'stress', loadGrowth: 0.02, startFailureChance: 0.05 },
      weather: { kind: 'made', count: 30 },
      load: [1, 1.15],
      fuelPrice: [1, 1],
      lateDelivery: { chance: 0.1, days: 14, fixed: false },
    },
    alternatives: alternatives.map(([name, runs]) => ({
      ...{ name, note: '', changes: [], runs },
      has: { battery: true, array: true, generator: true },
      plain: { fuelL: 90, lifeCycleCost: 4000 },
    })),
  };
}
