/** Runs that are done at a queue, whatever happens to workers and to Redis. `npm test` builds the command first. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Queue } from 'bullmq';
import type { Redis } from 'ioredis';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { PREFIX, QUEUE } from '../../../src/scenarios/queue/redis.ts';
import { DAIRY } from '../../scenarios/many/small-dairy.ts';
import { folderWith, runIn } from '../built-command.ts';
import { jobOf, nameOf, openQueue, stopInAJob } from './at-work.ts';
import { endAll, startIn } from './command.ts';
import { canQueue, RedisServer } from './redis-server.ts';
import { until } from './until.ts';

const FARM = resolve('profiles/sites/farm.yaml');
const TABLES = ['sweep.arrow', 'sweep.csv', 'sweep.html', 'sweep.json'];
const GRID = ['--vary', 'generator.ratedKw=10:29:1', '--vary', 'control.charge.startSoc=0.2:0.48:0.04'];
const SWEEP = ['sweep', FARM, ...GRID, '--step', '15'];
const VARIANTS = 20 * 8;

describe.skipIf(!canQueue)('at a queue', () => {
  let folder = '';
  let redis: RedisServer;
  let queue: Queue;
  let connection: Redis;

  beforeAll(async () => {
    folder = folderWith({ 'dairy.yaml': `${DAIRY}stress: { weatherYears: 3 }\n` });
    redis = await RedisServer.started();
    ({ queue, connection } = await openQueue(redis.url));
  });
  afterEach(endAll);
  afterAll(async () => {
    connection?.disconnect();
    await redis?.tearDown();
  });

  const bytesOf = (out: string, names: readonly string[]) =>
    names.map((name) => readFileSync(join(folder, out, name)).toString('base64'));
  const worker = () => startIn(folder, 'worker', '--queue', redis.url, '--workers', '1', '--lock', '3');

  it('gives each result once and the bytes of one machine: a worker killed, one paused, Redis restarted', async () => {
    const collecting = startIn(folder, ...SWEEP, '--out', 'queued', '--queue', redis.url);
    // one after the other, so that there is work left for each on any machine
    const killed = worker();
    const lost = await stopInAJob(queue, killed);
    const paused = worker();
    const late = await stopInAJob(queue, paused);
    const other = worker();
    await until('the third in a job', () => jobOf(queue, other));
    killed.child.kill('SIGKILL');
    expect(collecting.child.exitCode, collecting.said()).toBe(null);
    const before = await queue.getCompletedCount();
    await redis.killAndStart();
    expect(await queue.getCompletedCount()).toBeGreaterThanOrEqual(before);
    // those two go to the worker that is left
    for (const id of [lost, late]) {
      const by = await until('another to do the job', async () => {
        const job = await queue.getJob(id);
        return job?.finishedOn ? (job.processedBy ?? '') : null;
      });
      expect(by).toBe(nameOf(other));
    }
    // and what the paused one has by then is not taken
    paused.child.kill('SIGCONT');
    await until('the late result', () => paused.said().includes('a result came too late and is not taken'));

    expect(await collecting.ended, collecting.said()).toBe(0);
    const local = runIn(folder, ...SWEEP, '--out', 'local');
    expect(local.status, local.stderr).toBe(0);
    expect(bytesOf('queued', TABLES)).toEqual(bytesOf('local', TABLES));
    const kept = readdirSync(join(folder, 'queued')).find((name) => name.endsWith('.jsonl'));
    const lines = readFileSync(join(folder, 'queued', kept ?? ''), 'utf8')
      .trimEnd()
      .split('\n')
      .slice(1);
    const variants = lines.map((line) => JSON.stringify(JSON.parse(line)[0]));
    expect([variants.length, new Set(variants).size]).toEqual([VARIANTS, VARIANTS]);
    expect(await timesCompleted(connection)).toEqual(new Map([[1, VARIANTS / 16]]));
  }, 240_000);

  it('takes results that are there, whoever asks again and wherever', async () => {
    const again = startIn(folder, ...SWEEP, '--out', 'again', '--queue', redis.url);
    expect(await again.ended, again.said()).toBe(0);
    expect(bytesOf('again', TABLES)).toEqual(bytesOf('queued', TABLES));
  });

  it('puts there again what a Redis has forgotten, and says when nobody works', async () => {
    const sweep = ['sweep', FARM, '--vary', 'battery.modules=10,20,30', '--step', '60', '--out', 'forgotten'];
    const collecting = startIn(folder, ...sweep, '--queue', redis.url);
    const isThere = async () => (await queue.getWaitingCount()) === 1;
    await until('the job', isThere);
    await connection.flushall();
    await until('the job again', isThere);
    await until('a note', () => collecting.said().includes('nobody works at redis://127.0.0.1'));
    worker();
    expect(await collecting.ended, collecting.said()).toBe(0);
    expect(readFileSync(join(folder, 'forgotten/sweep.csv'), 'utf8').trim().split('\n')).toHaveLength(4);
  });

  it('does the runs of a stress too', async () => {
    const stress = ['stress', 'dairy.yaml', '--only', 'five modules', '--runs', '2'];
    const helping = worker();
    const collecting = startIn(folder, ...stress, '--out', 'stressed', '--queue', redis.url);
    expect(await collecting.ended, collecting.said()).toBe(0);
    helping.child.kill('SIGKILL');
    expect(runIn(folder, ...stress, '--out', 'alone').status).toBe(0);
    expect(bytesOf('stressed', ['stress.html'])).toEqual(bytesOf('alone', ['stress.html']));
    const lines = readFileSync(join(folder, 'stressed/stress-runs.jsonl'), 'utf8').trimEnd().split('\n');
    expect(lines).toHaveLength(1 + 2 * 2);
  });
});

/** How many jobs were completed how often, as the queue itself has noted it. */
async function timesCompleted(redis: Redis): Promise<Map<number, number>> {
  const events = await redis.xrange(`${PREFIX}:${QUEUE}:events`, '-', '+');
  const ids = events.flatMap(([, fields]) =>
    fields[fields.indexOf('event') + 1] === 'completed' ? [fields[fields.indexOf('jobId') + 1]] : [],
  );
  const times = new Map<string, number>();
  for (const id of ids) times.set(id, (times.get(id) ?? 0) + 1);
  const counts = new Map<number, number>();
  for (const count of times.values()) counts.set(count, (counts.get(count) ?? 0) + 1);
  return counts;
}
