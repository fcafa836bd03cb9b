import { computed, signal } from '@preact/signals';
import { parse } from 'yaml';
import type { Issue } from '../../scenarios/issue.ts';
import * as state from './state.ts';
import type { ShownStudy, StudyKind, StudyProgress, VaryChoice } from './study-messages.ts';

/** What the page holds of studies of many runs. */

export const kind = signal<StudyKind>('sweep');
/** the study that is under way */
export const running = signal<StudyKind | null>(null);
export const stopping = signal(false);
export const progress = signal<StudyProgress | null>(null);
/** the last answer of each kind */
export const shown = signal<Partial<Record<StudyKind, ShownStudy>>>({});
/** what is wrong with what was asked last */
export const refused = signal<Partial<Record<StudyKind, readonly Issue[]>>>({});
/** what broke off for a reason that lies not in what was asked, and why */
export const failed = signal<{ kind: StudyKind; why: string } | null>(null);
/** the alternative that was made of a choice last */
export const taken = signal('');
export const varyChoices = signal<VaryChoice[]>([]);
/** told apart: files with the same names may hold other data */
export const filesGiven = signal(0);

/** What outcomes belong to: the site as filed and its files. Adding an alternative changes nothing in them. */
export const siteKey = computed(() => {
  const { alternatives: _, ...filed } = (parse(state.goodText.value, { logLevel: 'silent' }) ?? {}) as Record<
    string,
    unknown
  >;
  return JSON.stringify([filesGiven.value, filed]);
});
