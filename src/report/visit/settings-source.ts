import { withValue } from '../../scenarios/edit-site.ts';
import type { Issue } from '../../scenarios/issue.ts';
import type { ReadFile } from '../../scenarios/load-files.ts';
import { runStudy } from '../../scenarios/run-study.ts';
import type { Change } from '../../scenarios/study.ts';
import type { SettingsSource } from './page.ts';

/** What the sheet of settings is made from. */
export interface SettingsRequest {
  /** text and name of the site file */
  text: string;
  file: string;
  readFile: ReadFile;
  version: string;
  stepMin?: number;
  /** what the log says of the plant, as changes of the site file */
  calibration: Record<string, unknown>;
  /** what is to be changed */
  changes: readonly Change[];
  /** yyyy-mm-dd */
  madeOn: string;
}

const NOW = 'settings in force';
const NEW = 'settings as proposed';

/**
 * Simulates the site as the log says it is, with the settings in force and with the new ones, for a sheet that shows
 * both: what it expects of a first month is then what this plant does, not the one that was designed.
 * Errors: every problem of the site file and of the changes; then no source.
 */
export function settingsSource(request: SettingsRequest): { source: SettingsSource | null; issues: Issue[] } {
  const { text, file, readFile, version, stepMin, calibration, changes, madeOn } = request;
  const at = (key: 'from' | 'to') => Object.fromEntries(changes.map((change) => [change.path, change[key]]));
  // alternatives of the site file are no matter of this sheet
  const both = withValue(
    text,
    ['alternatives'],
    [
      { name: NOW, changes: { ...calibration, ...at('from') } },
      { name: NEW, changes: { ...calibration, ...at('to') } },
    ],
  );
  const { study, again, issues } = runStudy({ text: both, file, readFile, version, stepMin });
  if (study === null || again === null) return { source: null, issues };
  const [before, after] = [1, 2].map((place) => ({
    ...{ study, result: study.alternatives[place], site: again.alternatives[place].site },
  }));
  return { source: { before, after, madeOn }, issues };
}
