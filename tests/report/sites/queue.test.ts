/** A folder of sites at a queue: the bytes of one machine, whatever happens to a worker. `npm test` builds first. */
import { join } from 'node:path';
import type { Queue } from 'bullmq';
import type { Redis } from 'ioredis';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { KEPT_S, PREFIX } from '../../../src/scenarios/queue/redis.ts';
import { runIn } from '../built-command.ts';
import { jobOf, nameOf, openQueue, stopInAJob } from '../queue/at-work.ts';
import { endAll, startIn } from '../queue/command.ts';
import { canQueue, RedisServer } from '../queue/redis-server.ts';
import { until } from '../queue/until.ts';
import { folderOfSites, MADE_FOLDER } from './made-folder.ts';
import { pagesOf } from './written-pages.ts';

describe.skipIf(!canQueue)('sites at a queue', () => {
  let folder = '';
  let redis: RedisServer;
  let queue: Queue;
  let connection: Redis;

  beforeAll(async () => {
    folder = folderOfSites(MADE_FOLDER);
    redis = await RedisServer.started();
    ({ queue, connection } = await openQueue(redis.url));
  });
  afterAll(async () => {
    endAll();
    connection?.disconnect();
    await redis?.tearDown();
  });

  it('are visited to the same bytes, also when a worker is killed in the middle of one', async () => {
    const worker = () => startIn(folder, 'worker', '--queue', redis.url, '--workers', '1', '--lock', '3');
    const collecting = startIn(folder, 'sites', 'sites', '--out', 'queued', '--queue', redis.url);
    const killed = worker();
    const lost = await stopInAJob(queue, killed);
    const other = worker();
    await until('the other in a job', () => jobOf(queue, other));
    killed.child.kill('SIGKILL');
    expect(await collecting.ended, collecting.said()).toBe(0);
    expect((await queue.getJob(lost))?.processedBy).toBe(nameOf(other));
    expect(await queue.getCompletedCount()).toBe(6);
    const local = runIn(folder, 'sites', 'sites', '--out', 'local', '--workers', '1');
    expect(local.status, local.stderr).toBe(0);
    expect(pagesOf(join(folder, 'local')).size).toBe(4);
    expect(pagesOf(join(folder, 'queued'))).toEqual(pagesOf(join(folder, 'local')));
  }, 300_000);

  it('have their files there once each, in less than a third of their size, for as long as results are kept', async () => {
    const keys = await connection.keys(`${PREFIX}:packed:*`);
    const plain = new Set(
      Object.entries(MADE_FOLDER)
        .filter(([name]) => name !== 'prices.yaml')
        .map(([, text]) => text),
    );
    expect(keys).toHaveLength(plain.size);
    const sizes = await Promise.all(keys.map((key) => connection.strlen(key)));
    const total = (all: readonly number[]) => all.reduce((sum, one) => sum + one, 0);
    expect(total(sizes)).toBeLessThan(total([...plain].map((text) => text.length)) / 3);
    for (const key of keys) {
      const left = await connection.ttl(key);
      expect(left).toBeGreaterThan(0);
      expect(left).toBeLessThanOrEqual(KEPT_S);
    }
  });
});
