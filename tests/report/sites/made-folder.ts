/** A folder of made sites as a customer's folder is: some with their logs, some with something wrong. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { madeSite, type SiteFiles } from '../../scenarios/sites/made-sites.ts';

/** Long enough for estimates, short enough to be visited often. */
const DAYS = 45;

const LOADED = madeSite({ number: 1, days: DAYS, planted: 'load' });
const FADED = madeSite({ number: 2, days: DAYS, planted: 'battery' });
const FINE = madeSite({ number: 3, days: DAYS, planted: 'nothing' });

const { 'site.yaml': fineText } = FINE;
const without = fineText.slice(0, fineText.indexOf('log:'));
const named = (text: string, name: string) => text.replace(/name: Made site \d+/, `name: ${name}`);

/** Files by their paths in a folder. */
export const MADE_FOLDER: SiteFiles = {
  ...under('loaded', LOADED),
  ...under('faded', FADED),
  ...under('fine', FINE),
  'fine/no-log.yaml': named(without, 'Without a log'),
  'fine/broken.yaml': named(fineText, 'Broken').replace('startSoc: 0.3', 'startSoc: 30'),
  'fine/gone.yaml': named(fineText, 'Gone').replace('file: log.csv', 'file: gone.csv'),
  'prices.yaml': 'fuel: 1.9\n',
};
export const LOGGED = ['faded/site.yaml', 'fine/site.yaml', 'loaded/site.yaml'];
export const ALL_SITES = LOGGED.length + 3;

function under(folder: string, files: SiteFiles): SiteFiles {
  return Object.fromEntries(Object.entries(files).map(([name, text]) => [`${folder}/${name}`, text]));
}

/** Files in a fresh folder `sites` of a fresh folder. @returns the outer one */
export function folderOfSites(files: SiteFiles): string {
  const folder = mkdtempSync(join(tmpdir(), 'darkweek-sites-'));
  for (const [name, text] of Object.entries(files)) {
    const path = join(folder, 'sites', name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  return folder;
}

/** A site that is visited quickly, so often. */
export function manyCopies(count: number): SiteFiles {
  const short = madeSite({ number: 4, days: 14, planted: 'nothing' });
  const { 'site.yaml': text, ...files } = short;
  const copies = Array.from({ length: count }, (_, i) => [`site-${String(i).padStart(3, '0')}.yaml`, text]);
  return { ...files, ...Object.fromEntries(copies) };
}
