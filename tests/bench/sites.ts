/**
 * Many made sites (SITES=60; default 200), in each of which at most one thing is not as designed: visited on this
 * machine, then at a queue with three workers of which one is killed in the middle. Compares every byte of the pages,
 * and tells the times and how often what was planted is told.
 */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { keptVisits } from '../../src/scenarios/sites/kept-visits.ts';
import { openQueue, stopInAJob } from '../report/queue/at-work.ts';
import { endAll, startIn } from '../report/queue/command.ts';
import { RedisServer } from '../report/queue/redis-server.ts';
import { until } from '../report/queue/until.ts';
import { madeSite, PLANTED, type Planted } from '../scenarios/sites/made-sites.ts';
import { toldTable } from './sites-told.ts';

const SITES = Number(process.env.SITES ?? 200);
const DAYS = 75;
const OUT = resolve('out/many-sites');
const KEPT = 'visits.jsonl';

function makeSites(): Map<string, Planted> {
  const plantedAt = new Map<string, Planted>();
  for (let number = 1; number <= SITES; number++) {
    const planted = PLANTED[number % PLANTED.length];
    const folder = String(number).padStart(3, '0');
    mkdirSync(join(OUT, 'sites', folder), { recursive: true });
    for (const [name, text] of Object.entries(madeSite({ number, days: DAYS, planted })))
      writeFileSync(join(OUT, 'sites', folder, name), text);
    plantedAt.set(join(folder, 'site.yaml'), planted);
  }
  return plantedAt;
}

async function timed<T>(what: string, work: () => T | Promise<T>): Promise<T> {
  const startMs = performance.now();
  const result = await work();
  console.log(`${what}: ${((performance.now() - startMs) / 1000).toFixed(0)} s`);
  return result;
}

async function visitAll(out: string, ...more: string[]): Promise<void> {
  const { ended, said } = startIn(OUT, 'sites', 'sites', '--out', out, ...more);
  if ((await ended) !== 0) throw new Error(said());
}

async function atAQueue(): Promise<void> {
  const redis = await RedisServer.started();
  const { queue, connection } = await openQueue(redis.url);
  const worker = () => startIn(OUT, 'worker', '--queue', redis.url, '--workers', '1', '--lock', '10');
  const [killed] = [worker(), worker(), worker()];
  const collecting = visitAll('queued', '--queue', redis.url);
  await until('a third of the visits', () => queueHas(SITES / 3), 1_800_000);
  await stopInAJob(queue, killed);
  killed.child.kill('SIGKILL');
  console.log('  one of three workers was killed in the middle of a visit');
  await collecting;
  const used = /used_memory_peak_human:(\S+)/.exec(await connection.info('memory'))?.[1];
  console.log(`  memory of Redis at most ${used}`);
  connection.disconnect();
  await redis.tearDown();
}

function queueHas(visits: number): boolean {
  try {
    return readFileSync(join(OUT, 'queued', KEPT), 'utf8').split('\n').length > visits;
  } catch {
    return false;
  }
}

/** Pages by their paths, each as it is. */
function pagesOf(out: string): Map<string, string> {
  const entries = readdirSync(join(OUT, out), { recursive: true, encoding: 'utf8' });
  const pages = entries.filter((name) => name.endsWith('.html')).sort();
  return new Map(pages.map((name) => [name, readFileSync(join(OUT, out, name), 'latin1')]));
}

/** Of each site, as kept. */
function ranksOf(out: string) {
  return [...keptVisits(readFileSync(join(OUT, out, KEPT), 'utf8')).values()];
}

rmSync(OUT, { recursive: true, force: true });
try {
  const plantedAt = await timed(`${SITES} sites made, ${DAYS} days of log each`, makeSites);
  await timed('visited on this machine', () => visitAll('local'));
  await timed('visited at a queue', atAQueue);
  const local = pagesOf('local');
  const queued = pagesOf('queued');
  const same = [...local].filter(([name, page]) => queued.get(name) === page).length;
  console.log(`${same} of ${local.size} pages are the same bytes (${queued.size} from the queue)`);
  if (same !== local.size || queued.size !== local.size || local.size !== SITES + 1) process.exitCode = 1;
  console.log(toldTable(ranksOf('local'), plantedAt).join('\n'));
} finally {
  endAll();
}
