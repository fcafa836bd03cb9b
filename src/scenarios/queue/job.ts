import type { StressJob, StressJobResult } from './stress-job.ts';
import type { VariantsJob, VariantsJobResult } from './variants-job.ts';
import type { VisitJob, VisitJobResult } from './visit-job.ts';

/** What kinds of work there are: what each is asked, and what it gives. Both are plain data, as JSON has it. */
export interface JobKinds {
  variants: { payload: VariantsJob; result: VariantsJobResult };
  'stress runs': { payload: StressJob; result: StressJobResult };
  visit: { payload: VisitJob; result: VisitJobResult };
}

export type JobKind = keyof JobKinds;

/** A piece of work that any machine can do: it has with it everything that its result depends on. */
export interface Job<K extends JobKind = JobKind> {
  kind: K;
  /** of darkweek; another one may give other numbers */
  version: string;
  payload: JobKinds[K]['payload'];
  /** all files that it reads, by the name under which it asks for them */
  files: Readonly<Record<string, Uint8Array>>;
}

/** The name under which jobs about a site have the text of its site file; no file beside a site is called that. */
export const SITE_TEXT = '::site';

/** Why a job is not done here and would not be elsewhere: it is not tried again. */
export class JobRefused extends Error {}
