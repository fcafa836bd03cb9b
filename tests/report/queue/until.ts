import { setTimeout as pause } from 'node:timers/promises';

/** Far longer than anything takes on a machine that is not broken. */
const LONG_MS = 100_000;

/**
 * Waits for something, however busy the machine is.
 * @returns what the condition gave, which is neither false nor null
 * Errors: rejects, saying what was waited for, after very long.
 */
export async function until<T>(
  what: string,
  condition: () => T | false | null | Promise<T | false | null>,
  longMs = LONG_MS,
): Promise<T> {
  const startMs = performance.now();
  for (;;) {
    const found = await condition();
    if (found !== false && found !== null) return found;
    if (performance.now() - startMs > longMs) throw new Error(`waited in vain for ${what}`);
    await pause(10);
  }
}
