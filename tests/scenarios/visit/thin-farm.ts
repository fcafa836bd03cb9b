/**
 * The farm with every fifth minute of its load, for tests that lay it beside many logs: its file is read in a fifth of
 * the time. Truth and design read the same.
 */
import { Cache } from '../../../src/scenarios/cache.ts';
import { type RecorderTraits, recordTruth, USUAL_RECORDER } from '../../../src/scenarios/log/recorder.ts';
import type { SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import { simulateTruth, type Truth, type TruthStretch } from '../../../src/scenarios/log/truth.ts';
import { type VisitGround, visitGround } from '../../../src/scenarios/visit/ground.ts';
import { FARM_FILES } from './logged-farm.ts';

const kept = new Map<string, Uint8Array>();

export function thinFarm(days: number, { text, readFile: read } = FARM_FILES) {
  const readFile = (path: string): Uint8Array => {
    const known = kept.get(path);
    if (known) return known;
    const bytes = read(path);
    const made = path.endsWith('loads/farm.csv') ? everyFifthMinute(bytes) : bytes;
    kept.set(path, made);
    return made;
  };
  return {
    file: FARM_FILES.file,
    text: text.replace('days: 365', `days: ${days}`),
    readFile,
    cache: new Cache(),
  };
}

type Files = ReturnType<typeof thinFarm>;

/** @param stepMin shorter than the recorder's: part steps are told by the running contact */
export function truthOf(files: Files, stretches: readonly TruthStretch[], stepMin = 5): Truth {
  const truth = simulateTruth({ ...files, stepMin, stretches });
  if (Array.isArray(truth)) throw new Error(JSON.stringify(truth, null, 1));
  return truth;
}

export function logOf(truth: Truth, traits: Partial<RecorderTraits> = {}): SiteRecord {
  return recordTruth(truth, { ...USUAL_RECORDER, seed: 'thin farm', ...traits });
}

export function groundOf(files: Files, record: SiteRecord): VisitGround {
  const { ground, issues } = visitGround(files, record);
  if (ground === null) throw new Error(JSON.stringify(issues, null, 1));
  return ground;
}

function everyFifthMinute(bytes: Uint8Array): Uint8Array {
  const rows = Buffer.from(bytes).toString('utf8').split('\n');
  const thinned = rows.filter((row) => !/^\d{4}-\d{2}-\d{2} \d{2}:\d[^05],/.test(row));
  return Buffer.from(thinned.join('\n'));
}
