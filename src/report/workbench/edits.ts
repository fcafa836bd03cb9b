import { batch } from '@preact/signals';
import { askPicture } from './picture-loop.ts';
import * as state from './state.ts';
import * as study from './study-state.ts';
import { drawing } from './worker-link.ts';

/** Edits of the site file: each goes through `edit`, so that it can be undone, and is read by the worker at once. */

const undo: string[] = [];
const redo: string[] = [];
const MOST_UNDO = 100;

export function history(): { undo: string[]; redo: string[] } {
  return { undo: undo.slice(-20), redo: redo.slice(-20) };
}

export function setHistory(kept: { undo: string[]; redo: string[] }): void {
  undo.splice(0, undo.length, ...kept.undo);
  redo.splice(0, redo.length, ...kept.redo);
  countHistory();
}

export function forgetHistory(): void {
  setHistory({ undo: [], redo: [] });
}

function countHistory(): void {
  state.undoable.value = undo.length;
  state.redoable.value = redo.length;
}

/**
 * Replaces the text of the site file; what it says is checked, and a wrong one leaves the last good picture.
 * @param hand place of the alternative that is then in hand; left out: the same
 */
export async function edit(next: string, hand?: number): Promise<void> {
  if (next === state.text.value) return;
  undo.push(state.text.value);
  if (undo.length > MOST_UNDO) undo.shift();
  redo.length = 0;
  countHistory();
  state.text.value = next;
  await take(hand);
}

export async function stepBack(): Promise<void> {
  await step(undo, redo);
}

export async function stepForward(): Promise<void> {
  await step(redo, undo);
}

async function step(from: string[], to: string[]): Promise<void> {
  const next = from.pop();
  if (next === undefined) return;
  to.push(state.text.value);
  countHistory();
  state.text.value = next;
  await take();
}

let edits = 0;

/** Has the worker read the text as it stands, and draws what it says. */
export async function take(hand?: number): Promise<void> {
  const mine = ++edits;
  const text = state.text.value;
  const taken = await drawing.bench.take(text, state.fileName.value);
  if (mine !== edits) return;
  const most = (taken.site?.alternatives.length ?? 1) - 1;
  batch(() => {
    state.issues.value = taken.issues;
    if (taken.ok) state.goodText.value = text;
    state.site.value = taken.site;
    if (taken.ok && hand !== undefined) state.inHand.value = hand;
    if (taken.ok && state.inHand.value > most) state.inHand.value = Math.max(0, most);
    if (state.span.value && taken.site && state.span.value.toStep > taken.site.count) state.span.value = null;
    if (taken.ok) state.compared.value = null;
    if (taken.ok) state.unfinished.value = true;
  });
  if (taken.ok) await askPicture(true);
  if (state.view.value === 'site') await readFields();
  if (state.view.value === 'many') await readVaryChoices();
  if (state.view.value === 'alternatives' && taken.ok) void compareAll();
}

export async function readFields(): Promise<void> {
  state.fields.value = await drawing.bench.fields(state.inHand.value);
}

/** Numbers that a study may vary. */
async function readVaryChoices(): Promise<void> {
  study.varyChoices.value = await drawing.bench.varyChoices();
}

/** Simulates what is not simulated yet, one after the other, so that a drag need not wait for all. */
async function compareAll(): Promise<void> {
  const mine = edits;
  const of = state.site.value?.alternatives.length ?? 0;
  for (let i = 0; i < of; i++) {
    state.comparing.value = { done: i, of };
    await drawing.bench.prepare(i);
    if (mine !== edits) return;
  }
  state.comparing.value = null;
  state.compared.value = await drawing.bench.compared();
}

export async function go(view: (typeof state.VIEWS)[number]): Promise<void> {
  state.view.value = view;
  if (view === 'site') await readFields();
  if (view === 'many') await readVaryChoices();
  if (view === 'alternatives' && state.compared.value === null) await compareAll();
}
