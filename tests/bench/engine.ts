/**
 * Yardsticks of the engine, in one run on one machine: medians, and ratios to the plain year of minutes.
 * The plain simulator in tests/naive stands beside them as what the same rules cost when written plainly.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { runStudy } from '../../src/scenarios/run-study.ts';
import type { AlternativeResult } from '../../src/scenarios/study.ts';
import { makeColumns } from '../../src/sim/columns.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { simulateNaive } from '../naive/simulate.ts';
import { everythingOf, leastOf } from './everything.ts';

const SITES = resolve('profiles/sites');

function farm(stepMin: number, only?: string): AlternativeResult[] {
  const { study } = runStudy({
    text: readFileSync(resolve(SITES, 'farm.yaml'), 'utf8'),
    file: 'farm.yaml',
    readFile: (path) => readFileSync(resolve(SITES, path)),
    version: 'bench',
    only,
    stepMin,
  });
  if (study === null) throw new Error('the farm does not run');
  return study.alternatives;
}

function medianMs(times: number, work: () => void): number {
  const taken = Array.from({ length: times }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return taken.sort((a, b) => a - b)[Math.floor(times / 2)];
}

const rows: [string, number, number][] = [];
const start = performance.now();
const alternatives = farm(1);
const whole = performance.now() - start;
const [minute] = alternatives;
const [hour] = farm(60, 'as filed');
const columns = makeColumns(minute.inputs.count);
const { plant, controls, inputs } = minute;

rows.push([
  'a year of minutes, totals only',
  medianMs(15, () => simulate(plant, controls, inputs)),
  inputs.count,
]);
rows.push([
  'with ten columns',
  medianMs(15, () => simulate(plant, controls, inputs, { columns })),
  inputs.count,
]);
rows.push([
  'with the account checked (general step only)',
  medianMs(5, () => simulate(plant, controls, inputs, { check: true })),
  inputs.count,
]);
rows.push([
  'a year of hours',
  medianMs(200, () => simulate(hour.plant, hour.controls, hour.inputs)),
  hour.inputs.count,
]);
rows.push([
  'the plain simulator, a year of hours',
  medianMs(3, () => simulateNaive(hour.plant, hour.controls, hour.inputs)),
  hour.inputs.count,
]);

const least = leastOf(minute);
const leastMs = medianMs(15, () => simulate(least.plant, least.controls, least.inputs));
const all = everythingOf(minute);
const allMs = medianMs(15, () => simulate(all.plant, all.controls, all.inputs));
rows.push(['the least plant, a year of minutes', leastMs, inputs.count]);
rows.push(['everything on, a year of minutes', allMs, inputs.count]);

const [, base] = rows[0];
const perStep = (ms: number, steps: number) => (ms * 1e6) / steps;
console.log(
  `farm, ${alternatives.length} alternatives at one minute, files read and everything simulated: ${whole.toFixed(0)} ms`,
);
console.log('                                                  ms    ns/step   ratio per step');
for (const [name, ms, steps] of rows) {
  const ratio = perStep(ms, steps) / perStep(base, inputs.count);
  console.log(
    `${name.padEnd(46)} ${ms.toFixed(2).padStart(7)} ${perStep(ms, steps).toFixed(0).padStart(9)} ${ratio.toFixed(2).padStart(9)}`,
  );
}
console.log(`everything on: ${(allMs / leastMs).toFixed(2)} times the least plant`);
