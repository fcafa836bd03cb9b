import { batch } from '@preact/signals';
import { parse } from 'yaml';
import { withAlternative, withValue } from '../../scenarios/edit-site.ts';
import { edit, readFields } from './edits.ts';
import type { Changes } from './messages.ts';
import { askPicture } from './picture-loop.ts';
import * as state from './state.ts';

/** Trials and alternatives: what is tried changes nothing in the file until it is kept. */

/** Puts changes on trial; they change nothing in the file until they are kept. */
export function tryOut(changes: Changes, since: number | null): void {
  state.unfinished.value = true;
  state.trial.value = { ...state.trial.value, ...changes };
  state.told.value = null;
  state.askedRun.value = null;
  void askPicture(false, since);
}

/** A number on trial, else what the picture shows. */
export function tried(path: string, drawn: number): number {
  const value = state.trial.value[path];
  return typeof value === 'number' ? value : drawn;
}

export function putBack(): void {
  state.unfinished.value = true;
  state.trial.value = {};
  state.trialIssues.value = [];
  state.told.value = null;
  void askPicture(true);
}

/** Writes what is on trial into the alternative in hand. */
export async function keepTrial(): Promise<void> {
  let text = state.text.value;
  for (const [path, to] of Object.entries(state.trial.value)) text = withChange(text, path, to);
  state.trial.value = {};
  await edit(text);
  state.said.value = `Kept in ${state.inHandName.value}.`;
}

/** A value of the alternative in hand: of the site itself, or a change of the alternative. */
export function withChange(text: string, path: string, to: unknown): string {
  const shared = ['site', 'period'].includes(path.split('.')[0]);
  if (state.inHand.value === 0 || shared) return withValue(text, stepsOf(path), to);
  return withValue(text, ['alternatives', state.inHand.value - 1, 'changes', path], to);
}

/** Steps of a dotted path in the file as it is: items of lists by name or place. */
function stepsOf(path: string): (string | number)[] {
  const arrays = state.picture.value?.levers.arrays.map(({ name }) => name) ?? [];
  const steps = path.split('.');
  if (steps[0] !== 'arrays' || steps.length < 3) return steps;
  const name = steps.slice(1, -1).join('.');
  const place = arrays.indexOf(name);
  return ['arrays', place >= 0 ? place : Number(name), steps[steps.length - 1]];
}

/** What is on trial becomes an alternative of its own, which is then in hand. */
export async function trialAsAlternative(): Promise<void> {
  const words = state.picture.value?.trialWords.join(', ') ?? '';
  await addAlternative(words || 'a trial', { ...ownChanges(), ...state.trial.value });
}

/** The alternative in hand once more, under another name. */
export async function duplicate(): Promise<void> {
  await addAlternative(`${state.inHandName.value}, again`, ownChanges());
}

function ownChanges(): Changes {
  return state.inHand.value === 0 ? {} : (ownEntry().changes ?? {});
}

/** The alternative in hand as the file has it. */
export function ownEntry(): { name?: string; note?: string; capital?: number; changes?: Changes } {
  return alternativesOf(state.text.value)[state.inHand.value - 1] ?? {};
}

async function addAlternative(wish: string, changes: Changes): Promise<void> {
  const names = new Set(['as filed', ...alternativesOf(state.text.value).map(({ name }) => name)]);
  let name = wish;
  for (let i = 2; names.has(name); i++) name = `${wish} (${i})`;
  const { capital, note } = state.inHand.value === 0 ? {} : ownEntry();
  const entry = { name, ...(note && { note }), ...(capital && { capital }), changes };
  const place = alternativesOf(state.text.value).length + 1;
  state.trial.value = {};
  await edit(withAlternative(state.text.value, entry), place);
  state.said.value = `${name} is in hand.`;
}

export async function removeAlternative(): Promise<void> {
  const place = state.inHand.value;
  if (place === 0) return;
  const last = alternativesOf(state.text.value).length === 1;
  state.trial.value = {};
  const gone = last ? ['alternatives'] : ['alternatives', place - 1];
  await edit(withValue(state.text.value, gone, undefined), place - 1);
}

export async function takeInHand(place: number): Promise<void> {
  batch(() => {
    state.unfinished.value = true;
    state.inHand.value = place;
    state.trial.value = {};
    state.trialIssues.value = [];
    state.askedRun.value = null;
    state.told.value = null;
  });
  await askPicture(true);
  if (state.view.value === 'site') await readFields();
}

/** The alternatives as the file has them; none where it cannot be read. */
function alternativesOf(
  text: string,
): { name?: string; note?: string; capital?: number; changes?: Changes }[] {
  try {
    const list = (parse(text, { logLevel: 'silent' }) as { alternatives?: unknown } | null)?.alternatives;
    return Array.isArray(list) ? list : [];
  } catch {
    return [];
  }
}
