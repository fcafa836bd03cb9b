import { batch } from '@preact/signals';
import { parse } from 'yaml';
import { withAlternative, withValue } from '../../scenarios/edit-site.ts';
import { edit, readFields } from './edits.ts';
import type { Changes } from './messages.ts';
import { askPicture } from './picture-loop.ts';
import * as state from './state.ts';
import * as study from './study-state.ts';
import { trialMayGo } from './trial-question.ts';

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
  const { capital, note } = own();
  await addAlternative({
    ...{ name: words || 'a trial', capital, note },
    changes: { ...ownChanges(), ...state.trial.value },
  });
}

/** The alternative in hand once more, under another name. */
export async function duplicate(): Promise<void> {
  if (!(await trialMayGo())) return;
  const { capital, note } = own();
  await addAlternative({ name: `${state.inHandName.value}, again`, capital, note, changes: ownChanges() });
}

/** A choice of a study becomes an alternative, which is then in hand; one that is there already is taken. */
export async function takeChoice({ name, capital, changes }: Entry & { name: string }): Promise<void> {
  const isSame = (one: Entry) =>
    JSON.stringify(one.changes) === JSON.stringify(changes) && (one.capital ?? 0) === (capital ?? 0);
  const there = alternativesOf(state.text.value).findIndex(isSame);
  if (Object.keys(changes ?? {}).length === 0 && !capital) await takeInHand(0);
  else if (there >= 0) await takeInHand(there + 1);
  else if (await trialMayGo()) await addAlternative({ name, capital, changes });
  study.taken.value = state.inHandName.value;
}

function ownChanges(): Changes {
  return state.inHand.value === 0 ? {} : (ownEntry().changes ?? {});
}

/** An alternative as a site file has it. */
interface Entry {
  name?: string;
  note?: string;
  capital?: number;
  changes?: Changes;
}

/** The alternative in hand as the file has it. */
export function ownEntry(): Entry {
  return alternativesOf(state.text.value)[state.inHand.value - 1] ?? {};
}

/** The same; nothing for the site as filed. */
function own(): Entry {
  return state.inHand.value === 0 ? {} : ownEntry();
}

async function addAlternative({
  name: wish,
  note,
  capital,
  changes,
}: Entry & { name: string }): Promise<void> {
  const others = alternativesOf(state.text.value);
  const names = new Set(['as filed', ...others.map(({ name }) => name)]);
  let name = wish;
  for (let i = 2; names.has(name); i++) name = `${wish} (${i})`;
  const entry = { name, ...(note && { note }), ...(capital && { capital }), changes };
  state.trial.value = {};
  await edit(withAlternative(state.text.value, entry), others.length + 1);
  state.said.value = `${name} is in hand.`;
}

export async function removeAlternative(): Promise<void> {
  const place = state.inHand.value;
  if (place === 0 || !(await trialMayGo())) return;
  const last = alternativesOf(state.text.value).length === 1;
  state.trial.value = {};
  const gone = last ? ['alternatives'] : ['alternatives', place - 1];
  await edit(withValue(state.text.value, gone, undefined), place - 1);
}

export async function takeInHand(place: number): Promise<void> {
  if (place === state.inHand.value || !(await trialMayGo())) return;
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
function alternativesOf(text: string): Entry[] {
  try {
    const list = (parse(text, { logLevel: 'silent' }) as { alternatives?: unknown } | null)?.alternatives;
    return Array.isArray(list) ? list : [];
  } catch {
    return [];
  }
}
