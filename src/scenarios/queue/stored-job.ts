import { hashesOf, textHash } from './file-hash.ts';
import type { Job } from './job.ts';

/** A job as it is put on a queue: its files are kept apart, once each, under their hashes. */
export interface StoredJob extends Omit<Job, 'files'> {
  /** SHA-256 by the name under which the job asks for the file */
  files: Record<string, string>;
}

export function storedJob({ kind, version, payload, files }: Job): StoredJob {
  return { kind, version, payload, files: hashesOf(files) };
}

/** A name that only the same work has: put on a queue twice, it is done once. */
export function jobId({ kind, version, payload, files }: StoredJob): string {
  return textHash(JSON.stringify([kind, version, payload, files]));
}
