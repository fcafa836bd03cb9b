import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { ThreadEnded } from '../many/seat.ts';
import { type Job, JobRefused } from './job.ts';

/** A job as a thread is told of it. */
export interface ToJobThread extends Job {
  /** other for other files */
  filesKey: string;
}

export type FromJobThread = { result: unknown } | { refused: string } | { failed: string };

/** Beside the file that this one is bundled into. */
const BUNDLE = resolve(dirname(fileURLToPath(import.meta.url)), 'job-work.js');

/** A thread that does one job after another, until it is stopped; when it has died, the next job starts another. */
export class JobThread {
  private thread: Worker | null = null;
  private stopped = false;
  private waiting: { resolve(result: unknown): void; reject(why: Error): void } | null = null;

  /** @param bundle of `job-work.ts` */
  constructor(private readonly bundle = BUNDLE) {}

  /**
   * Does a job, one call at a time, while the thread that calls stays free.
   * Errors: rejects with `JobRefused`, with `ThreadEnded` when the thread dies over it, or with what went wrong.
   */
  run(job: ToJobThread): Promise<unknown> {
    if (this.stopped) return Promise.reject(new Error('the thread was stopped'));
    this.thread ??= this.start();
    const { thread } = this;
    return new Promise((resolve, reject) => {
      this.waiting = { resolve, reject };
      thread.postMessage(job);
    });
  }

  stop(): void {
    this.stopped = true;
    void this.thread?.terminate();
  }

  private start(): Worker {
    const thread = new Worker(this.bundle);
    let why = '';
    thread.on('message', (answer: FromJobThread) => {
      const waiting = this.take();
      if ('result' in answer) waiting?.resolve(answer.result);
      else if ('refused' in answer) waiting?.reject(new JobRefused(answer.refused));
      else waiting?.reject(new Error(answer.failed));
    });
    thread.on('error', (error) => {
      why = error.stack ?? String(error);
    });
    thread.on('exit', (code) => {
      this.thread = null;
      this.take()?.reject(new ThreadEnded(why || `exit code ${code}`));
    });
    return thread;
  }

  private take() {
    const { waiting } = this;
    this.waiting = null;
    return waiting;
  }
}
