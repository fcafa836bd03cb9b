import type { FromThread, OpenMessage, StartThread, Thread, ToThread } from './thread.ts';

/** The thread ended before it answered. */
export class ThreadEnded extends Error {}

/** A place for one thread: the next one takes it when the one before has died. */
export class Seat {
  private thread: Thread | null = null;
  private opened = new Set<number | null>();
  private files = 0;
  private closed = false;
  private waiting: { resolve(answer: FromThread): void; reject(why: Error): void } | null = null;

  constructor(private readonly startThread: StartThread) {}

  /**
   * Runs variants, one call at a time; the thread is told first what it does not yet know.
   * Errors: rejects with `ThreadEnded` when the thread dies over it.
   */
  run(
    variants: Extract<ToThread, { kind: 'run' }>,
    site: OpenMessage,
    files: ReadonlyMap<string, Uint8Array>,
  ): Promise<FromThread> {
    if (this.closed) return Promise.reject(new Error('the pool is closed'));
    const thread = this.thread ?? this.start();
    return new Promise((resolve, reject) => {
      this.waiting = { resolve, reject };
      if (!this.opened.has(site.stepMin)) thread.send(site);
      this.opened.add(site.stepMin);
      if (files.size > this.files) thread.send({ kind: 'files', files });
      this.files = files.size;
      thread.send(variants);
    });
  }

  close(): void {
    this.closed = true;
    this.thread?.stop();
    this.take()?.reject(new Error('the pool was closed'));
  }

  private start(): Thread {
    const thread = this.startThread();
    this.thread = thread;
    this.opened = new Set();
    this.files = 0;
    thread.onAnswer((answer) => this.take()?.resolve(answer));
    thread.onEnd((why) => {
      this.thread = null;
      this.take()?.reject(new ThreadEnded(why));
    });
    return thread;
  }

  private take() {
    const { waiting } = this;
    this.waiting = null;
    return waiting;
  }
}
