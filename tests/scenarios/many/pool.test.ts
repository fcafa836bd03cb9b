import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { makeEvaluator } from '../../../src/scenarios/many/evaluate.ts';
import type { ManyRequest } from '../../../src/scenarios/many/ground.ts';
import { nodeThreads } from '../../../src/scenarios/many/node-thread.ts';
import { makePool, type Pool } from '../../../src/scenarios/many/pool.ts';
import type { StartThread } from '../../../src/scenarios/many/thread.ts';
import { smallSiteFile } from '../small-site.ts';
import { farmByHours, small } from './small-requests.ts';

const WORK = resolve('dist/many-work.js');
const threads = nodeThreads(WORK);

const pools: Pool[] = [];
function pool(request: ManyRequest, workers: number, start: StartThread = threads): Pool {
  const made = makePool(request, workers, start);
  pools.push(made);
  return made;
}

afterEach(() => {
  for (const made of pools.splice(0)) made.close();
});

/** Threads of which the first few are ended as soon as they are told to run something. */
function dying(deaths: number): StartThread & { started: number } {
  const start = () => {
    const thread = threads();
    const dies = start.started++ < deaths;
    const send: typeof thread.send = (message) => {
      thread.send(message);
      if (dies && message.kind === 'run') thread.stop();
    };
    return { ...thread, send };
  };
  start.started = 0;
  return start;
}

const SOCS = Array.from({ length: 40 }, (_, i) => ({ 'control.charge.startSoc': 0.15 + 0.01 * i }));

describe('makePool', () => {
  it('is built', () => {
    expect(existsSync(WORK), 'npm run build makes it').toBe(true);
  });

  it('gives what one thread gives, bit for bit and in order, whatever the number of threads', async () => {
    const request = farmByHours();
    const variants = [10, 15, 20, 25].flatMap((kw) =>
      [0.2, 0.3, 0.4].map((soc) => ({ 'generator.ratedKw': kw, 'control.charge.startSoc': soc })),
    );
    const alone = await makeEvaluator(request).evaluate(variants);
    expect(new Set(alone.map(({ fuelL }) => fuelL)).size).toBe(variants.length);
    for (const workers of [1, 2, 3])
      expect(await pool(request, workers).evaluate(variants), `${workers} threads`).toEqual(alone);
  });

  it('shares the series with its threads', async () => {
    const maps: unknown[] = [];
    const start: StartThread = () => {
      const thread = threads();
      const send: typeof thread.send = (message) => {
        if (message.kind === 'open') maps.push(...message.series.values());
        thread.send(message);
      };
      return { ...thread, send };
    };
    await pool(small(), 2, start).evaluate(SOCS);
    const arrays = maps.flatMap((value) => viewsWithin(value));
    expect(arrays.length).toBeGreaterThan(5);
    expect(arrays.every(({ buffer }) => buffer instanceof SharedArrayBuffer)).toBe(true);
  });

  it('replaces a thread that dies, and does its work again', async () => {
    const alone = await makeEvaluator(small()).evaluate(SOCS);
    const start = dying(1);
    const made = pool(small(), 2, start);
    expect(await made.evaluate(SOCS)).toEqual(alone);
    expect(start.started).toBe(3);
    // and goes on being of use
    expect(await made.evaluate(SOCS)).toEqual(alone);
    expect(start.started).toBe(3);
  });

  it('gives up on variants over which a second thread dies, and says which', async () => {
    const start = dying(2);
    const made = pool(small(), 1, start);
    await expect(made.evaluate([{ 'battery.modules': 3 }])).rejects.toThrow(
      /two threads ended over the same variants \(battery.modules = 3\)/,
    );
    expect(start.started).toBe(2);
    const [outcome] = await made.evaluate([{ 'battery.modules': 3 }]);
    expect(outcome).toEqual((await makeEvaluator(small()).evaluate([{ 'battery.modules': 3 }]))[0]);
  });

  it('tells of each variant once, and how far it is', async () => {
    const made = pool(small(), 2);
    const told: number[] = [];
    const progress: number[] = [];
    made.onProgress = (done, of) => {
      expect(of).toBe(SOCS.length);
      progress.push(done);
    };
    const attempts = await made.tryEach(SOCS, undefined, (index, attempt) => {
      expect(attempt).toHaveProperty('fuelL');
      told.push(index);
    });
    expect(attempts).toHaveLength(SOCS.length);
    expect(told.sort((a, b) => a - b)).toEqual(SOCS.map((_, i) => i));
    expect(progress).toEqual([...progress].sort((a, b) => a - b));
    expect(progress.at(-1)).toBe(SOCS.length);
  });

  it('gives the problems of variants, and reads the files that they name', async () => {
    const readFile = (path: string) => smallSiteFile(path === 'other.csv' ? 'load.csv' : path);
    const request = { ...small(), readFile };
    const variants = [
      { 'load.0.file': 'other.csv', 'load.0.scale': 2 },
      { 'load.0': { file: 'other.csv', unit: 'kW', stamp: 'start', columns: { house: 1 } } },
      { 'weather.file': 'none.csv' },
      { 'control.charge.stopSoc': 0.1 },
      { 'load.0.shiftMin': 60 },
      { 'battery.modules': -1 },
    ];
    const alone = await makeEvaluator(request).tryEach(variants);
    expect(alone.map(Array.isArray)).toEqual([false, false, true, true, false, true]);
    expect(await pool(request, 2).tryEach(variants)).toEqual(alone);
  });

  it('runs at several steps, calls one after another', async () => {
    const made = pool(small(), 2);
    const [hours, fine, filed] = await Promise.all([
      made.evaluate([{}], 60),
      made.evaluate([{}], 5),
      made.evaluate([{}]),
    ]);
    const { evaluate } = makeEvaluator(small());
    expect(hours).toEqual(await evaluate([{}], 60));
    expect(fine).toEqual(await evaluate([{}], 5));
    expect(filed).toEqual(await evaluate([{}], 30));
  });

  it('takes no more once it is closed', async () => {
    const made = pool(small(), 1);
    const open = made.evaluate(SOCS);
    await new Promise((resolve) => setTimeout(resolve, 1));
    made.close();
    await expect(open).rejects.toThrow(/closed/);
    await expect(made.evaluate(SOCS)).rejects.toThrow(/closed/);
  });
});

function viewsWithin(value: unknown): ArrayBufferView[] {
  if (ArrayBuffer.isView(value)) return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap((part) => viewsWithin(part));
}
