import { promisify } from 'node:util';
import { deflate, inflate } from 'node:zlib';
import type { Redis } from 'ioredis';
import { textHash } from './file-hash.ts';
import { JobRefused } from './job.ts';

/** What is wrong with a queue, as a sentence for who asked for it. */
export class QueueTrouble extends Error {}

/** Of all keys, so that the same Redis may serve other things. */
export const PREFIX = 'darkweek';
export const QUEUE = 'jobs';

const CONNECT_WITHIN_MS = 10_000;
const MOST_BETWEEN_TRIES_MS = 2_000;

/**
 * A connection that waits for as long as Redis is away, once it was there.
 * @param url redis://host:port, or rediss:// with encryption
 * @param onNote told when Redis is away, and when it is back
 * Errors: rejects with `QueueTrouble` where the packages are not installed, or Redis cannot be reached.
 */
export async function openRedis(url: string, onNote: (sentence: string) => void) {
  const { bullmq, ioredis } = await loadPackages();
  let wasThere = false;
  let isAway = false;
  let why = 'no answer';
  const redis = new ioredis.Redis(url, {
    // commands wait until Redis is back; the engine of the queue asks for it
    maxRetriesPerRequest: null,
    lazyConnect: true,
    connectTimeout: CONNECT_WITHIN_MS,
    retryStrategy: (times: number) => (wasThere ? Math.min(times * 100, MOST_BETWEEN_TRIES_MS) : null),
  });
  redis.on('error', (error: Error) => {
    why = error.message || String(error);
    if (wasThere && !isAway) onNote(`Redis is away (${why}): waiting for it`);
    isAway = true;
  });
  redis.on('ready', () => {
    if (wasThere && isAway) onNote('Redis is back');
    isAway = false;
  });
  try {
    await inTime(redis.connect().then(() => redis.ping()));
    wasThere = true;
    // connections that the engine makes like this one try again by themselves, also while they are first made
    redis.options.lazyConnect = false;
  } catch (error) {
    redis.disconnect();
    const said = why === 'no answer' ? (error as Error).message : why;
    throw new QueueTrouble(`${withoutPassword(url)}: Redis cannot be reached (${said})`);
  }
  return { bullmq, redis };
}

/** Only when a queue is asked for: darkweek works without these packages. */
async function loadPackages() {
  try {
    const [bullmq, ioredis] = await Promise.all([import('bullmq'), import('ioredis')]);
    return { bullmq, ioredis };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ERR_MODULE_NOT_FOUND') throw error;
    throw new QueueTrouble(
      'a queue needs two packages that are not installed: npm install bullmq@6.7.0 ioredis@6.0.0',
    );
  }
}

async function inTime(answer: Promise<unknown>): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error('no answer')), CONNECT_WITHIN_MS);
  });
  await Promise.race([answer, late]).finally(() => clearTimeout(timer));
}

/** An address as it may be shown. */
export function withoutPassword(url: string): string {
  return url.replace(/\/\/[^/@]*@/, '//');
}

/** Results and files stay for those who ask again [s]. */
export const KEPT_S = 7 * 86_400;
/** Compressed: logs are text, and two hundred of them are more than Redis should hold. */
const fileKey = (hash: string) => `${PREFIX}:packed:${hash}`;

/**
 * Stores files under the hashes of their plain bytes, those that are not there yet; all stay for as long as results do
 * from now on.
 */
export async function putFiles(redis: Redis, files: ReadonlyMap<string, Uint8Array>): Promise<void> {
  for (const [hash, bytes] of files) {
    const isThere = await redis.expire(fileKey(hash), KEPT_S);
    if (!isThere) await redis.set(fileKey(hash), await promisify(deflate)(bytes), 'EX', KEPT_S);
  }
}

/**
 * A stored file; null where there is none.
 * Errors: rejects with `JobRefused` where what is stored is not what was put there.
 */
export async function fetchFile(redis: Redis, hash: string): Promise<Uint8Array | null> {
  const packed = await redis.getBuffer(fileKey(hash));
  if (packed === null) return null;
  const bytes = await promisify(inflate)(packed).catch(() => null);
  if (bytes === null || textHash(bytes) !== hash)
    throw new JobRefused('a file of the job has changed on its way');
  return new Uint8Array(bytes);
}
