/** A Redis of the test's own: on a free port, in a folder of its own, its append-only file on. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { until } from './until.ts';

const REDIS = '/usr/bin/redis-server';

/** The server, and the packages that a queue needs; `npm test` installs them where it may. */
export const canQueue = existsSync(REDIS) && ['bullmq', 'ioredis'].every(isInstalled);

function isInstalled(name: string): boolean {
  try {
    createRequire(import.meta.url).resolve(name);
    return true;
  } catch {
    return false;
  }
}

export class RedisServer {
  private readonly folder = mkdtempSync(join(tmpdir(), 'darkweek-redis-'));
  private child: ChildProcess | null = null;

  private constructor(readonly port: number) {}

  static async started(): Promise<RedisServer> {
    const server = new RedisServer(await freePort());
    await server.start();
    return server;
  }

  get url(): string {
    return `redis://127.0.0.1:${this.port}`;
  }

  /** As when the power fails, and comes back. */
  async killAndStart(): Promise<void> {
    await this.end();
    await this.start();
  }

  async tearDown(): Promise<void> {
    await this.end();
    rmSync(this.folder, { recursive: true, force: true });
  }

  private async start(): Promise<void> {
    const options = { port: this.port, bind: '127.0.0.1', dir: this.folder, appendonly: 'yes', save: '' };
    const args = Object.entries(options).flatMap(([name, value]) => [`--${name}`, String(value)]);
    const child = spawn(REDIS, args, { stdio: ['ignore', 'pipe', 'inherit'] });
    this.child = child;
    // also where a test did not come to its end
    process.once('exit', () => child.kill('SIGKILL'));
    let said = '';
    child.stdout.on('data', (text) => {
      said += text;
    });
    await until('Redis to start', () => {
      if (child.exitCode !== null) throw new Error(`Redis ended: ${said}`);
      return said.includes('Ready to accept connections');
    });
  }

  private async end(): Promise<void> {
    const { child } = this;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const ended = new Promise((done) => child.on('exit', done));
    child.kill('SIGKILL');
    await ended;
  }
}

function freePort(): Promise<number> {
  return new Promise((done, failed) => {
    const server = createServer();
    server.on('error', failed);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => done(typeof address === 'object' && address ? address.port : 0));
    });
  });
}
