/**
 * The fast engine and the plain simulator written separately from the same rules agree on random systems.
 * A case that passes within 1e-7 of a threshold may flip a whole run by rounding: it is drawn again.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { makeColumns } from '../../src/sim/columns.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { plainView } from '../sim/plain-view.ts';
import { randomSystem } from './random-system.ts';
import { simulateNaive } from './simulate.ts';

const CASES = 500;
const NEAR = 1e-7;

it(`agrees with the plain simulator to 1e-9 on ${CASES} random systems`, () => {
  let compared = 0;
  let drawnAgain = 0;
  const differences: string[] = [];
  for (const { plant, controls, inputs } of fc.sample(randomSystem, {
    numRuns: 3 * CASES,
    seed: 20_261_125,
  })) {
    if (compared === CASES) break;
    const naive = simulateNaive(plant, controls, inputs);
    if (naive.nearest < NEAR) {
      drawnAgain++;
      continue;
    }
    compared++;
    const columns = makeColumns(inputs.count);
    const fast = plainView(simulate(plant, controls, inputs, { columns }));
    const found = [
      ...compare('totals', naive.totals, fast.totals),
      ...compare('runs', naive.runs, fast.runs),
      ...compare('outages', naive.outages, fast.outages),
      ...compare('soc', naive.perStep.soc, columns.socFrac),
      ...compare('generatorKw', naive.perStep.generatorKw, columns.generatorKw),
    ];
    if (found.length > 0) differences.push(`case ${compared}: ${found.slice(0, 3).join('; ')}`);
  }
  console.log(`${compared} systems compared, ${drawnAgain} drawn again for passing near a threshold`);
  expect(differences.slice(0, 5)).toEqual([]);
  expect(compared).toBe(CASES);
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
