import type { Alternative } from '../alternatives.ts';
import type { StressRun } from '../many/stress-result.ts';
import { simulateRun } from '../many/stress-run.ts';
import { drawOf, planStress, type StressPlan, type StressRequest } from '../many/stress-study.ts';
import { simulateStudy } from '../many/study-run.ts';
import { type Job, JobRefused, SITE_TEXT } from './job.ts';
import type { Doer, JobAtHand } from './kinds.ts';
import { lastGround } from './last-ground.ts';

/** Some runs of an alternative. */
export interface StressJob extends Pick<StressRequest, 'file' | 'only' | 'runs' | 'seed' | 'stepMin'> {
  /** of all that was read where the job comes from */
  inputsHash: string;
  /** what the first year of the site as filed gives there: an engine that gives another must not take part */
  firstYear: string;
  alternative: string;
  /** which, from 1 */
  runNumbers: number[];
}

/** What each of them gave, in their order. */
export type StressJobResult = StressRun[];

/** One run of one alternative. */
export interface StressUnit {
  name: string;
  /** from 1 */
  run: number;
}

/** All runs that a plan has, in the order in which they are shown. */
export function stressUnits({ study, alternatives }: StressPlan): StressUnit[] {
  const numbers = Array.from({ length: study.terms.runs }, (_, i) => i + 1);
  return alternatives.flatMap(({ name }) => numbers.map((run) => ({ name, run })));
}

/**
 * A job for each of these runs.
 * @param files all that the plan has read, by the names in the site file
 */
export function stressJobs(
  plan: StressPlan,
  { text, file, only, runs, seed, stepMin, version }: StressRequest,
  files: Readonly<Record<string, Uint8Array>>,
  units: readonly StressUnit[],
): Job<'stress runs'>[] {
  const { inputsHash } = plan.study.made;
  const withSite = { ...files, [SITE_TEXT]: new TextEncoder().encode(text) };
  const shared = { file, only, runs, seed, stepMin, inputsHash, firstYear: firstYearOf(plan) };
  return units.map(({ name, run }) => ({
    kind: 'stress runs',
    version,
    payload: { ...shared, alternative: name, runNumbers: [run] },
    files: withSite,
  }));
}

/** Simulates runs; series and weather years of a site are made once. */
export function makeStressDoer(): Doer<'stress runs'> {
  const planOf = lastGround(makePlan);
  return (job) => {
    const { alternative: name, runNumbers, ...ground } = job.payload;
    const plan = planOf(JSON.stringify([ground, job.filesKey]), job);
    const alternative = plan.alternatives.find((one) => one.name === name);
    if (!alternative) throw new JobRefused(`no alternative '${name}'`);
    return runNumbers.map((run) => runOf(plan, alternative, run));
  };
}

function runOf({ weathers }: StressPlan, alternative: Alternative, run: number): StressRun {
  return simulateRun(alternative, drawOf(alternative.site, run, weathers), weathers);
}

function makePlan({ version, payload, readFile }: JobAtHand<'stress runs'>): StressPlan {
  const text = new TextDecoder().decode(readFile(SITE_TEXT));
  const { plan } = planStress({ ...payload, text, readFile, version });
  if (plan?.study.made.inputsHash !== payload.inputsHash)
    throw new JobRefused('the inputs that came with the job are not those that it was made from');
  if (firstYearOf(plan) !== payload.firstYear)
    throw new JobRefused('the site as filed gives other numbers here than where the job comes from');
  return plan;
}

function firstYearOf({ alternatives: [{ site }], maker }: StressPlan): string {
  return JSON.stringify(simulateStudy(site, 0, maker, 1).uses);
}
