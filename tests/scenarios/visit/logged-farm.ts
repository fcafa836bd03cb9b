/** The farm with a log that its own recorder made: of the site as it really is. */
import { readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type RecorderTraits, recordTruth, USUAL_RECORDER } from '../../../src/scenarios/log/recorder.ts';
import type { SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import { simulateTruth, type Truth, type TruthStretch } from '../../../src/scenarios/log/truth.ts';
import { type VisitGround, visitGround } from '../../../src/scenarios/visit/ground.ts';

const FARM = resolve(import.meta.dirname, '../../../profiles/sites/farm.yaml');
/** A site file without the log that it has: each test makes its own. */
export const withoutLog = (text: string): string => text.replace(/^log:\n(?: {2}.*\n)+/m, '');

const TEXT = withoutLog(readFileSync(FARM, 'utf8'));
export const FARM_FILES = {
  text: TEXT,
  file: FARM,
  readFile: (path: string): Uint8Array => readFileSync(join(dirname(FARM), path)),
};

/** What happened on the farm from its first day on. */
export function farmTruth(days: number, stretches: readonly TruthStretch[], stepMin = 5): Truth {
  const text = TEXT.replace('days: 365', `days: ${days}`);
  const truth = simulateTruth({ ...FARM_FILES, text, stepMin, stretches });
  if (Array.isArray(truth)) throw new Error(JSON.stringify(truth, null, 1));
  return truth;
}

export function recorded(truth: Truth, traits: Partial<RecorderTraits> = {}): SiteRecord {
  return recordTruth(truth, { ...USUAL_RECORDER, seed: 'farm', ...traits });
}

/** The farm as filed beside a log of it. */
export function farmGround(record: SiteRecord): VisitGround {
  const { ground, issues } = visitGround(FARM_FILES, record);
  if (ground === null) throw new Error(JSON.stringify(issues, null, 1));
  return ground;
}
