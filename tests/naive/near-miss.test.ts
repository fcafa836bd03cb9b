/**
 * `nearest` must see every comparison that rounding could turn: what goes in is changed by a few parts in 10^13,
 * as another order of arithmetic would, and a run that came nowhere near another outcome must not change.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { featuredSystem, type RandomSystem, randomSystem } from './random-system.ts';
import type { NaiveResult } from './result.ts';
import { simulateNaive } from './simulate.ts';

let state = 1;

/** A change of at most one part in 10^13, of either sign; whole numbers and infinity are exact in every simulator. */
function nudged(value: number): number {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  const exact = Number.isInteger(value) || !Number.isFinite(value);
  return exact ? value : value * (1 + 2e-13 * (state / 0x1_0000_0000 - 0.5));
}

/** The same thing with every number in it nudged, but for the flags of the series. */
function nudge<T>(thing: T): T {
  if (typeof thing === 'number') return nudged(thing) as T;
  if (thing instanceof Float64Array) return thing.map(nudged) as T;
  if (Array.isArray(thing)) return thing.map(nudge) as T;
  if (thing === null || typeof thing !== 'object' || ArrayBuffer.isView(thing)) return thing;
  return Object.fromEntries(Object.entries(thing).map(([key, value]) => [key, nudge(value)])) as T;
}

const run = ({ plant, controls, inputs }: Pick<RandomSystem, 'plant' | 'controls' | 'inputs'>) =>
  simulateNaive(plant, controls, inputs);

function expectSame(one: NaiveResult, other: NaiveResult): void {
  expect(other.runs.length).toBe(one.runs.length);
  expect(other.outages.length).toBe(one.outages.length);
  const numbers = ({ totals }: NaiveResult) => Object.values(totals).flat().map(Number);
  const others = numbers(other);
  numbers(one).forEach((value, i) => {
    expect(Math.abs(value - others[i])).toBeLessThanOrEqual(1e-8 * Math.max(1, Math.abs(value)));
  });
}

it.each([
  { kind: 'plain', systems: randomSystem },
  { kind: 'featured', systems: featuredSystem },
])('sees every comparison that rounding could turn, in $kind systems', ({ systems }) => {
  let compared = 0;
  const property = fc.property(systems, (system) => {
    const result = run(system);
    if (result.nearest < 1e-7) return;
    compared += 1;
    const { plant, controls, inputs } = system;
    expectSame(result, run(nudge({ plant, controls, inputs })));
  });
  fc.assert(property, { numRuns: 150, seed: 20_251_126 });
  expect(compared).toBeGreaterThan(140);
});
