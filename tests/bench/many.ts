/**
 * Yardsticks of many variants, in one run on one machine: 200 alternatives of the farm in minutes and 10,000 in hours,
 * on one thread and on two, and what memory they take.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { SiteChanges } from '../../src/scenarios/apply-changes.ts';
import type { ManyRequest } from '../../src/scenarios/many/ground.ts';
import { nodeThreads } from '../../src/scenarios/many/node-thread.ts';
import { makePool } from '../../src/scenarios/many/pool.ts';

const SITES = resolve('profiles/sites');

const farm = (stepMin: number): ManyRequest => ({
  text: readFileSync(resolve(SITES, 'farm.yaml'), 'utf8'),
  file: 'farm.yaml',
  readFile: (path) => readFileSync(resolve(SITES, path)),
  stepMin,
});

/** Different generators, thresholds and banks, so that no two are alike. */
function variants(count: number): SiteChanges[] {
  return Array.from({ length: count }, (_, i) => ({
    'generator.ratedKw': 12 + (i % 20),
    'control.charge.startSoc': 0.2 + 0.01 * (Math.floor(i / 20) % 25),
    'battery.modules': 8 + (Math.floor(i / 500) % 20),
  }));
}

const megabytes = () => Math.round(process.memoryUsage().rss / 1e6);

/** Seconds on the clock and of processor time, without reading files and starting threads. */
async function time(stepMin: number, count: number, threads: number) {
  const pool = makePool(farm(stepMin), threads, nodeThreads());
  const list = variants(count);
  // every thread is started, and its code compiled
  await pool.evaluate(list.slice(0, 8 * threads));
  let most = megabytes();
  const early = { done: count, mb: most };
  pool.onProgress = (done) => {
    most = Math.max(most, megabytes());
    if (done >= count / 10 && early.done === count) Object.assign(early, { done, mb: most });
  };
  const before = process.cpuUsage();
  const startMs = performance.now();
  const outcomes = await pool.evaluate(list);
  const s = (performance.now() - startMs) / 1000;
  const { user, system } = process.cpuUsage(before);
  pool.close();
  const litres = outcomes.reduce((sum, { fuelL }) => sum + fuelL, 0);
  return { s, cpuS: (user + system) / 1e6, litres, most, early };
}

console.log(
  'variants of the farm                       seconds   CPU s  ms each   memory MB (after a tenth)',
);
for (const [stepMin, count] of [
  [1, 200],
  [60, 10_000],
] as const) {
  const one = await time(stepMin, count, 1);
  const two = await time(stepMin, count, 2);
  for (const [threads, { s, cpuS, most, early }] of [
    [1, one],
    [2, two],
  ] as const) {
    const name = `${count} at ${stepMin} min, ${threads} thread${threads === 1 ? '' : 's'}`;
    console.log(
      `${name.padEnd(42)} ${s.toFixed(2).padStart(7)} ${cpuS.toFixed(2).padStart(7)} ${((1000 * s) / count).toFixed(2).padStart(8)} ${String(most).padStart(11)} (${early.mb})`,
    );
  }
  const same = one.litres === two.litres ? 'the same litres to the last bit' : 'DIFFERENT LITRES';
  console.log(`  two threads ${(one.s / two.s).toFixed(2)} times as fast as one; ${same}`);
}
