import { computed, signal } from '@preact/signals';
import type { Issue } from '../../scenarios/issue.ts';
import type {
  Changes,
  Compared,
  Field,
  LeverFacts,
  LookedAtFile,
  Picture,
  Shows,
  SiteFacts,
  Told,
} from './messages.ts';

/** What the page holds. Signals only: who writes them is in actions.ts, and session.ts keeps them. */

export const VIEWS = ['year', 'alternatives', 'many', 'site', 'files'] as const;
export type View = (typeof VIEWS)[number];

/** The site file as it is being worked on, and its name. */
export const text = signal('');
export const fileName = signal('');
/** the last text in which nothing was wrong: what the picture shows */
export const goodText = signal('');
/** files that were given to the page: their names */
export const fileNames = signal<string[]>([]);
/** text that was last saved or opened */
export const savedText = signal('');

export const view = signal<View>('year');
/** place of the alternative in hand; 0: the site as filed */
export const inHand = signal(0);
/** changes on trial, not yet kept */
export const trial = signal<Changes>({});
export const shows = signal<Shows>('soc');
/** steps looked at closely; null: the dark week */
export const span = signal<{ fromStep: number; toStep: number } | null>(null);
/** place of the run that is asked about */
export const askedRun = signal<number | null>(null);

/** What the worker said last. */
export const site = signal<SiteFacts | null>(null);
/** problems and doubts of the text as it stands */
export const issues = signal<Issue[]>([]);
/** problems of what is on trial */
export const trialIssues = signal<Issue[]>([]);
export const picture = signal<Picture | null>(null);
/** true while what takes longer than a drag is under way */
export const unfinished = signal(false);
export const compared = signal<Compared | null>(null);
export const comparing = signal<{ done: number; of: number } | null>(null);
export const fields = signal<Field[]>([]);
export const told = signal<Told | null>(null);
export const telling = signal(false);
/** in hand, nothing on trial: what the levers start from */
export const baseLevers = signal<LeverFacts | null>(null);
/** files that were dropped and looked at */
export const looked = signal<LookedAtFile[]>([]);
/** a site file that could not be opened */
export const refused = signal<{ file: string; text: string; issues: Issue[] } | null>(null);
/** one line for those who do not see the page change */
export const said = signal('');

export const undoable = signal(0);
export const redoable = signal(0);

export const errors = computed(() => issues.value.filter(({ severity }) => severity === 'error'));
export const isTrial = computed(() => Object.keys(trial.value).length > 0);
export const inHandName = computed(() => site.value?.alternatives[inHand.value]?.name ?? 'as filed');
export const isUnsaved = computed(() => text.value !== savedText.value);
