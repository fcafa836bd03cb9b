/** Jobs on threads of this machine. `npm test` builds what the threads run. */
import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeEvaluator } from '../../../src/scenarios/many/evaluate.ts';
import { type Job, JobRefused, SITE_TEXT } from '../../../src/scenarios/queue/job.ts';
import { runJobs } from '../../../src/scenarios/queue/run-jobs.ts';
import { jobId, storedJob } from '../../../src/scenarios/queue/stored-job.ts';
import { tryEachByJobs } from '../../../src/scenarios/queue/variants-by-jobs.ts';
import { small } from '../many/small-requests.ts';
import { SMALL_SITE, smallSiteFile } from '../small-site.ts';

const bundle = resolve('dist/job-work.js');
const files = { 'load.csv': smallSiteFile('load.csv'), 'sky.csv': smallSiteFile('sky.csv') };
const variants = Array.from({ length: 40 }, (_, i) => ({ 'battery.modules': i === 20 ? -1 : 1 + i }));

/** A program for a thread, in a folder of its own. */
function program(text: (folder: string) => string): { folder: string; bundle: string } {
  const folder = mkdtempSync(join(tmpdir(), 'darkweek-thread-'));
  const path = join(folder, 'work.mjs');
  writeFileSync(path, `import { parentPort } from 'node:worker_threads';\n${text(folder)}`);
  return { folder, bundle: path };
}

const job = (variant: number): Job<'variants'> => ({
  kind: 'variants',
  version: '1',
  payload: {
    file: 'site.yaml',
    stepMin: null,
    filed: {} as never,
    variants: [{ 'battery.modules': variant }],
  },
  files: {},
});

describe('jobs on threads', () => {
  it('give what one thread gives, to the bit, in order, and tell of each once', async () => {
    const { evaluate, tryEach } = makeEvaluator(small());
    const [filed] = await evaluate([{}]);
    const alone = await tryEach(variants);
    for (const workers of [1, 3]) {
      const told: number[] = [];
      const ground = { request: small(), version: '1', filed, files };
      const byJobs = tryEachByJobs(ground, { workers, bundle });
      const attempts = await byJobs(variants, undefined, (i, attempt) => {
        told.push(i);
        expect(attempt).toEqual(alone[i]);
      });
      expect(attempts).toEqual(alone);
      expect(told.sort((a, b) => a - b)).toEqual(variants.map((_, i) => i));
    }
  });

  it('are refused where the engine gives other numbers, and no further one is done', async () => {
    const [filed] = await makeEvaluator(small()).evaluate([{}]);
    const ground = { request: small(), version: '1', filed: { ...filed, starts: filed.starts + 1 }, files };
    const told: number[] = [];
    const all = tryEachByJobs(ground, { workers: 2, bundle })(variants, undefined, (i) => told.push(i));
    await expect(all).rejects.toThrow(JobRefused);
    await expect(all).rejects.toThrow(/gives other numbers here/);
    expect(told).toEqual([]);
  });

  it('are done again once when a thread dies over one', async () => {
    const dies = program(
      (folder) => `import { existsSync, writeFileSync } from 'node:fs';
parentPort.on('message', ({ payload }) => {
  const [{ 'battery.modules': n }] = payload.variants;
  const mark = ${JSON.stringify(folder)} + '/died-' + n;
  if (n === 2 && !existsSync(mark)) {
    writeFileSync(mark, '');
    process.exit(3);
  }
  parentPort.postMessage({ result: [n] });
});`,
    );
    const results = await runJobs([1, 2, 3].map(job), { workers: 2, bundle: dies.bundle });
    expect(results).toEqual([[1], [2], [3]]);
    expect(existsSync(join(dies.folder, 'died-2'))).toBe(true);
  });

  it('end with an error when a thread dies over the same one twice, and start no other', async () => {
    const dies = program(
      (folder) => `import { writeFileSync } from 'node:fs';
parentPort.on('message', ({ payload }) => {
  const [{ 'battery.modules': n }] = payload.variants;
  writeFileSync(${JSON.stringify(folder)} + '/seen-' + n, '');
  if (n === 1) process.exit(3);
});`,
    );
    const all = runJobs([1, 2, 3].map(job), { workers: 2, bundle: dies.bundle });
    await expect(all).rejects.toThrow('exit code 3');
    expect(existsSync(join(dies.folder, 'seen-3'))).toBe(false);
  });
});

describe('the name of a job', () => {
  const named = (more: Partial<Job<'variants'>>) => jobId(storedJob({ ...job(1), ...more }));

  it('is the same for the same work, after a way through JSON too, and another for any other', () => {
    const withFiles = {
      a: new Uint8Array([1]),
      b: new Uint8Array([2]),
      [SITE_TEXT]: new TextEncoder().encode(SMALL_SITE),
    };
    const base = named({ files: withFiles });
    const turned = Object.fromEntries(Object.entries(withFiles).reverse());
    expect(named({ files: turned })).toBe(base);
    expect(jobId(JSON.parse(JSON.stringify(storedJob({ ...job(1), files: withFiles }))))).toBe(base);
    const others = [
      named({ version: '2', files: withFiles }),
      named({ payload: job(2).payload, files: withFiles }),
      named({ files: { ...withFiles, a: new Uint8Array([3]) } }),
      named({ files: { ...withFiles, c: new Uint8Array([1]) } }),
      named({ kind: 'stress runs' as never, files: withFiles }),
    ];
    expect(new Set([base, ...others]).size).toBe(1 + others.length);
  });
});
