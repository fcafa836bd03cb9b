import { given } from './open.ts';
import * as state from './state.ts';
import { type Link, startBench } from './worker-link.ts';

/**
 * Work that takes seconds or minutes, on a second bench, so that levers go on answering; stopping ends its worker.
 * Questions of many runs (sweeps and the like) belong here too: one `ask` each.
 */
let under: Link | null = null;

async function ask<T>(question: (bench: Link['bench']) => Promise<T>): Promise<T | null> {
  stopSlow();
  const link = startBench();
  under = link;
  const files = [...given].map(([name, bytes]) => ({ name, bytes }));
  await link.bench.giveFiles(files);
  await link.bench.take(state.goodText.value, state.fileName.value);
  const answer = await question(link.bench);
  if (under !== link) return null;
  stopSlow();
  return answer;
}

export function stopSlow(): void {
  under?.stop();
  under = null;
  state.telling.value = false;
}

/** Why one run of what is shown started; a later question ends an earlier one. */
export async function askWhy(run: number): Promise<void> {
  state.askedRun.value = run;
  state.told.value = null;
  const { value: index } = state.inHand;
  const { value: trial } = state.trial;
  const asking = ask((bench) => bench.why(index, trial, run));
  state.telling.value = true;
  const told = await asking;
  if (told === null || state.askedRun.value !== run) return;
  state.told.value = told;
  state.said.value = told.heading;
}
