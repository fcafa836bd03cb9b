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
  return JSON.parse(commandOn(text, ['simulate', '--json']).said).alternatives;
}

/**
 * Any command on a site.
 * @param words the command and its options, without the site
 * @returns what it printed, and the folder that pages and tables went to
 */
export function commandOn(text: string, [command, ...options]: string[]): { said: string; out: string } {
  const folder = mkdtempSync(join(tmpdir(), 'darkweek-workbench-'));
  for (const data of ['loads', 'weather']) symlinkSync(join(ROOT, 'profiles', data), join(folder, data));
  mkdirSync(join(folder, 'sites'));
  const site = join(folder, 'sites', 'site.yaml');
  writeFileSync(site, text);
  const words = [join(ROOT, 'dist/cli.js'), command, site, ...options];
  const said = execFileSync('node', words, { cwd: folder, encoding: 'utf8', maxBuffer: 1e9 });
  return { said, out: join(folder, 'out') };
}
