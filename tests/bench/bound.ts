/** Yardsticks of the lower bound of fuel: the farm's year in blocks of an hour, from steps of an hour and of five minutes. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { foresightOf } from '../../src/scenarios/bound/foresight.ts';
import { loadSolver } from '../../src/scenarios/bound/solver.ts';
import { runStudy } from '../../src/scenarios/run-study.ts';

const SITES = resolve('profiles/sites');
const TIMES = 5;

function farm(stepMin: number) {
  const { study } = runStudy({
    text: readFileSync(resolve(SITES, 'farm.yaml'), 'utf8'),
    file: 'farm.yaml',
    readFile: (path) => readFileSync(resolve(SITES, path)),
    version: 'bench',
    only: 'as filed',
    stepMin,
  });
  if (study === null) throw new Error('the farm does not run');
  return study.alternatives[0];
}

const peakMb = () => process.resourceUsage().maxRSS / 1024;
const runs = [60, 5].map((stepMin) => ({ stepMin, run: farm(stepMin) }));
const before = peakMb();
const start = performance.now();
const solver = await loadSolver();
console.log(`solver loaded in ${(performance.now() - start).toFixed(0)} ms`);
for (const { stepMin, run } of runs) {
  let peakAfterFirst = 0;
  const taken = Array.from({ length: TIMES }, () => {
    const from = performance.now();
    const { fuelL } = foresightOf(run, solver);
    if (!(fuelL <= run.ledger.totals.fuelL)) throw new Error('a bound above what was burnt');
    const ms = performance.now() - from;
    peakAfterFirst ||= peakMb();
    return ms;
  }).sort((a, b) => a - b);
  const ms = taken[Math.floor(TIMES / 2)].toFixed(0);
  console.log(
    `bound of the farm's year, steps of ${stepMin} min: median ${ms} ms, first to last ${taken[0].toFixed(0)} to ${taken[TIMES - 1].toFixed(0)}; peak memory of the process after the first ${peakAfterFirst.toFixed(0)} MB, before any ${before.toFixed(0)}`,
  );
}
