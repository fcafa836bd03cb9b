import { batch } from '@preact/signals';
import type { Picture } from './messages.ts';
import * as state from './state.ts';
import { drawing } from './worker-link.ts';

/** Widths of the drawings as laid out [px]. */
export const widths = { year: 900, span: 900 };

let wanted: { full: boolean; since: number | null } | null = null;
let running: Promise<void> | null = null;
/** how many drags are measured before the list begins anew */
const MOST_MEASURED = 1000;
let measured = 0;

/**
 * Asks for a new picture. While one is being made later wishes are one wish: the newest.
 * @param full false while dragging; a full one follows by itself when nothing is asked for a while
 * @param since time of the movement that asked for it [ms of the page's clock], to measure how long it takes
 */
export function askPicture(full: boolean, since: number | null = null): Promise<void> {
  wanted = { full: full || (wanted?.full ?? false), since: since ?? wanted?.since ?? null };
  running ??= work().finally(() => {
    running = null;
  });
  return running;
}

async function work(): Promise<void> {
  while (wanted) {
    const { full, since } = wanted;
    wanted = null;
    const answer = await drawing.bench.picture({
      index: state.inHand.value,
      trial: state.trial.value,
      shows: state.shows.value,
      columns: Math.max(200, Math.round(widths.year)),
      spanColumns: Math.max(200, Math.round(widths.span)),
      span: state.span.value,
      full,
    });
    show(answer, full);
    if (since !== null) measure(since, 'weeks' in answer ? answer.simulatedMs : 0);
    if (!full) finishSoon();
  }
}

function show(answer: Picture | { issues: typeof state.trialIssues.value }, full: boolean): void {
  batch(() => {
    if ('weeks' in answer) {
      state.picture.value = answer;
      state.trialIssues.value = [];
      // what was asked for meanwhile is still to come
      state.unfinished.value = !full || wanted !== null;
      state.baseLevers.value = answer.baseLevers;
    } else {
      state.trialIssues.value = answer.issues;
      state.unfinished.value = false;
    }
  });
}

let timer: ReturnType<typeof setTimeout> | undefined;
const QUIET_MS = 160;

/** What was left out while dragging, once the hand rests. */
function finishSoon(): void {
  clearTimeout(timer);
  timer = setTimeout(() => askPicture(true), QUIET_MS);
}

/** From the movement until after the frame that shows its answer, as an entry of the browser's own performance list. */
function measure(since: number, simulatedMs: number): void {
  requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
      if (++measured % MOST_MEASURED === 0) performance.clearMeasures();
      performance.measure('drag to picture', { start: since, end: performance.now() });
      performance.measure('simulation', { start: since, duration: simulatedMs });
      channel.port1.close();
    };
    channel.port2.postMessage(null);
  });
}
