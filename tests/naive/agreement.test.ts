/**
 * The fast engine and the plain simulator written separately from the same rules agree on random systems.
 * A case that passes within 1e-7 of a threshold may flip a whole run by rounding: it is drawn again.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { makeColumns } from '../../src/sim/columns.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { plainView } from '../sim/plain-view.ts';
import { featuredSystem, type RandomSystem, randomSystem } from './random-system.ts';
import type { NaiveResult } from './result.ts';
import { simulateNaive } from './simulate.ts';

const CASES = 500;
const NEAR = 1e-7;

const plainly = ({ plant, controls, inputs }: RandomSystem): NaiveResult =>
  simulateNaive(plant, controls, inputs);

/** What of a plain result is compared. */
const view = ({ totals, runs, outages, perStep: { soc, generatorKw } }: NaiveResult) => ({
  totals,
  runs,
  outages,
  soc,
  generatorKw,
});

function fastView({ plant, controls, inputs }: RandomSystem) {
  const columns = makeColumns(inputs.count);
  const ledger = simulate(plant, controls, inputs, { columns });
  return { ...plainView(ledger), soc: columns.socFrac, generatorKw: columns.generatorKw };
}

function differencesOf(system: RandomSystem, result: NaiveResult): string[] {
  return compare('', view(result), fastView(system));
}

it.each([
  { kind: 'plain', systems: randomSystem, seed: 20_261_125 },
  { kind: 'featured', systems: featuredSystem, seed: 20_261_126 },
])(
  `agrees with the plain simulator to 1e-9 on ${CASES} $kind systems`,
  ({ kind, systems, seed }) => {
    let compared = 0;
    let drawnAgain = 0;
    const differences: string[] = [];
    for (const system of fc.sample(systems, { numRuns: 1.2 * CASES, seed })) {
      if (compared === CASES) break;
      const result = plainly(system);
      if (result.nearest < NEAR) {
        drawnAgain++;
        continue;
      }
      compared++;
      const found = differencesOf(system, result);
      if (found.length > 0) differences.push(`case ${compared}: ${found.slice(0, 3).join('; ')}`);
    }
    console.log(
      `${compared} ${kind} systems compared, ${drawnAgain} drawn again for passing near a threshold`,
    );
    expect(differences.slice(0, 5)).toEqual([]);
    expect(compared).toBe(CASES);
    expect(drawnAgain).toBeLessThanOrEqual(0.03 * CASES);
  },
  300_000,
);

it('compares every total of the engine', () => {
  const [system] = fc.sample(featuredSystem, { numRuns: 1, seed: 1 });
  const compared = Object.keys(plainly(system).totals);
  const { residualKwh: _, ...totals } = fastView(system).totals;
  expect(Object.keys(totals).filter((key) => !compared.includes(key))).toEqual([]);
});

/** Where two results differ by more than 1e-9, relative above 1. Only what the first has is compared. */
function compare(path: string, a: unknown, b: unknown): string[] {
  if (typeof a === 'number' && typeof b === 'number') {
    const close = Object.is(a, b) || Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a));
    return close ? [] : [`${path}: ${a} plain, ${b} fast`];
  }
  if (ArrayBuffer.isView(a) || Array.isArray(a)) {
    const [left, right] = [a, b] as [ArrayLike<unknown>, ArrayLike<unknown>];
    if (left.length !== right?.length) return [`${path}: ${left.length} plain, ${right?.length} fast`];
    for (let i = 0; i < left.length; i++) {
      const found = compare(`${path}[${i}]`, left[i], right[i]);
      if (found.length > 0) return found;
    }
    return [];
  }
  if (a !== null && typeof a === 'object' && b !== null && typeof b === 'object')
    return Object.entries(a).flatMap(([key, value]) =>
      key in b ? compare(`${path}.${key}`, value, (b as Record<string, unknown>)[key]) : [],
    );
  return a === b ? [] : [`${path}: ${String(a)} plain, ${String(b)} fast`];
}
