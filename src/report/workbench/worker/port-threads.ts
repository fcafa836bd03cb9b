import {
  type FromThread,
  makeThreadWork,
  type StartThread,
  type ToThread,
} from '../../../scenarios/many/thread.ts';

/** What a thread sends when it cannot go on. */
interface Failed {
  failed: string;
}

/** Starts and ends workers: only the page can, on behalf of the worker that hands out the work. */
export interface ThreadHost {
  /** starts a worker that listens to a port */
  start(id: number, port: MessagePort): void;
  stop(id: number): void;
}

/** Threads of a browser, each a worker at the other end of a port. */
export class PortThreads {
  private readonly ends = new Map<number, (why: string) => void>();
  private last = 0;

  constructor(private readonly host: ThreadHost) {}

  readonly start: StartThread = () => {
    this.last++;
    const id = this.last;
    const { port1: here, port2: there } = new MessageChannel();
    this.host.start(id, there);
    return {
      send: (message) => here.postMessage(message),
      onAnswer: (listener) => {
        here.onmessage = ({ data }: MessageEvent<FromThread | Failed>) => {
          if ('failed' in data) this.ended(id, data.failed);
          else listener(data);
        };
      },
      onEnd: (listener) => this.ends.set(id, listener),
      stop: () => this.ended(id, 'it was stopped'),
    };
  };

  /** Told by the page when a worker has died, and by whoever stops one. */
  ended(id: number, why: string): void {
    const listener = this.ends.get(id);
    this.ends.delete(id);
    if (!listener) return;
    this.host.stop(id);
    listener(why);
  }
}

/** The thread's side: runs variants that come through a port. */
export function serveThread(port: MessagePort): void {
  const work = makeThreadWork();
  port.onmessage = ({ data }: MessageEvent<ToThread>) => {
    try {
      const answer = work(data);
      if (answer) port.postMessage(answer);
    } catch (error) {
      port.postMessage({ failed: error instanceof Error ? (error.stack ?? error.message) : String(error) });
    }
  };
}
