/** The farm at several steps: the step size must not decide the answer. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';
import { runStudy } from '../../src/scenarios/run-study.ts';

const SITES = resolve(import.meta.dirname, '../../profiles/sites');

function farmAt(stepMin: number) {
  const { study, issues } = runStudy({
    text: readFileSync(resolve(SITES, 'farm.yaml'), 'utf8'),
    file: 'farm.yaml',
    readFile: (path) => readFileSync(resolve(SITES, path)),
    version: 'test',
    only: 'as filed',
    stepMin,
  });
  expect(issues).toEqual([]);
  const totals = study?.alternatives[0].ledger.totals;
  if (!totals) throw new Error('no ledger');
  return totals;
}

it('gives fuel and run hours of the farm within 3 % at 1 and 5 minutes', () => {
  const steps = [1, 5, 15, 60].map((stepMin) => ({ stepMin, totals: farmAt(stepMin) }));
  for (const { stepMin, totals } of steps)
    console.log(
      `farm at ${stepMin} min: ${totals.fuelL.toFixed(0)} L, ${totals.runH.toFixed(0)} h, ${totals.starts} starts, ${totals.startsByCause.peak} by peak, ${totals.unservedKwh.toFixed(2)} kWh unserved`,
    );
  const [fine, five] = steps.map(({ totals }) => totals);
  expect(Math.abs(five.fuelL / fine.fuelL - 1)).toBeLessThan(0.03);
  expect(Math.abs(five.runH / fine.runH - 1)).toBeLessThan(0.03);
});
