import { duration } from '../numbers.ts';

/** How often the line is written anew [ms]. */
const EVERY_MS = 200;

/**
 * One line on a terminal, written over as many things are done: how many, and the time that is left.
 * @param before how many were done by an earlier run
 */
export function makeProgressLine(things: string, before: number, shows: boolean) {
  const startMs = performance.now();
  let writtenMs = Number.NEGATIVE_INFINITY;
  const at = (done: number, of: number) => {
    const nowMs = performance.now();
    if (!shows || nowMs - writtenMs < EVERY_MS) return;
    writtenMs = nowMs;
    const kept = before > 0 ? `, ${before} kept from before` : '';
    const left = done > 0 ? `, about ${timeLeft(((nowMs - startMs) / done) * (of - done))} left` : '';
    process.stderr.write(`\r\x1b[K${done} of ${of} ${things}${kept}${left} (Ctrl-C keeps what is done)`);
  };
  const clear = () => {
    if (shows) process.stderr.write('\r\x1b[K');
  };
  return { at, clear };
}

function timeLeft(ms: number): string {
  return ms < 60_000 ? `${Math.ceil(ms / 1000)} s` : duration(ms / 3_600_000);
}
