/** The command line on a site file of which the text is given, beside the demonstration data. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const ROOT = resolve(import.meta.dirname, '../../..');

export interface Simulated {
  name: string;
  ledger: { totals: { fuelL: number; runH: number; starts: number; curtailedKwh: number } };
}

/** @returns what the command line says of each alternative */
export function simulateText(text: string): Simulated[] {
  const folder = mkdtempSync(join(tmpdir(), 'darkweek-workbench-'));
  for (const data of ['loads', 'weather']) symlinkSync(join(ROOT, 'profiles', data), join(folder, data));
  mkdirSync(join(folder, 'sites'));
  const site = join(folder, 'sites', 'site.yaml');
  writeFileSync(site, text);
  const command = [join(ROOT, 'dist/cli.js'), 'simulate', site, '--json'];
  return JSON.parse(execFileSync('node', command, { cwd: folder, encoding: 'utf8', maxBuffer: 1e9 }))
    .alternatives;
}
