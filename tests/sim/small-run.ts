/** Small systems whose outcome is worked out on paper: plain numbers, all efficiencies 1 unless a case says otherwise. */
import { expect } from 'vitest';
import { makeColumns, type StepColumns } from '../../src/sim/columns.ts';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Ledger } from '../../src/sim/ledger.ts';
import type { Battery, Plant } from '../../src/sim/plant.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { plainBattery, plainControls, plainPlant } from '../references/plain-site.ts';

/** A value and the hours for which it holds. */
type Stretch = readonly [value: number, hours: number];

/** Values one after the other: `series(30, [2, 1], [5, 0.5])` is 2, 2, 5. */
export function series(stepMin: number, ...stretches: Stretch[]): Float64Array {
  return Float64Array.from(
    stretches.flatMap(([value, hours]) => new Array<number>(Math.round((hours * 60) / stepMin)).fill(value)),
  );
}

/** The same for flags. */
export function flags(stepMin: number, ...stretches: Stretch[]): Uint8Array {
  return Uint8Array.from(series(stepMin, ...stretches));
}

/** A battery without losses that is half full unless told otherwise. */
export function battery(capacityKwh: number, parts: Partial<Battery> = {}): Battery {
  return plainBattery(capacityKwh, 1, { initialSoc: 0.5, ...parts });
}

/** What a case gives: everything that differs from a plain site. */
export interface Small {
  stepMin?: number;
  plant?: Partial<Plant>;
  controls?: Partial<Controls>;
  /** one phase, or three */
  loadKw: Float64Array | readonly Float64Array[];
  inputs?: Partial<Inputs>;
}

/** Runs it with and without the check of the account, which take different ways through the engine. */
export function run({ stepMin = 60, plant, controls, loadKw, inputs }: Small): Ledger & {
  columns: StepColumns;
} {
  const loads = loadKw instanceof Float64Array ? [loadKw] : loadKw;
  const phases = loads.length as 1 | 3;
  const whole = plainPlant({ phases, acArrayShare: loads.map(() => 1 / phases), ...plant });
  const series: Inputs = { stepMin, count: loads[0].length, loadKw: loads, ...inputs };
  const rules = plainControls(controls);
  const columns = makeColumns(series.count);
  const ledger = simulate(whole, rules, series, { columns });
  const checked = simulate(whole, rules, series, { check: true });
  expect(checked.totals).toEqual(ledger.totals);
  expect(checked.extremes.residualKwh).toBeLessThan(1e-10);
  return { ...ledger, columns };
}

/** Equal to 1e-9, with the name of what is compared. */
export function near(got: number, expected: number, what = ''): void {
  if (!(Math.abs(got - expected) < 1e-9)) expect.fail(`${what}: ${got}, by hand ${expected}`);
}

/** Several at once, by name. */
export function nearAll<Name extends string>(
  got: Record<Name, unknown>,
  expected: Partial<Record<Name, number>>,
): void {
  for (const [name, value] of Object.entries(expected) as [Name, number][])
    near(got[name] as number, value, name);
}

/** The values of a column or list, each to 1e-9. */
export function nearList(got: ArrayLike<number>, expected: readonly number[], what = ''): void {
  expect(got.length, what).toBe(expected.length);
  for (const [i, value] of expected.entries()) near(got[i], value, `${what}[${i}]`);
}
