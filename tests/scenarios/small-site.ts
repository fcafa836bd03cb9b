import { readFileSync } from 'node:fs';

export const SMALL_SITE = readFileSync(new URL('./samples/small-site.yaml', import.meta.url), 'utf8');

/** Load and sky of the small site: eleven days of half hours, made by arithmetic. */
export function smallSiteFile(path: string): Uint8Array {
  const rows: string[] = [path === 'load.csv' ? 'time,house' : 'time,ghi,air'];
  if (path !== 'load.csv' && path !== 'sky.csv') throw new Error(`no file ${path}`);
  for (let i = 0; i < 11 * 48; i++) {
    const hour = (i % 48) / 2;
    const stamp = new Date(Date.UTC(2025, 2, 1) + i * 1_800_000).toISOString().slice(0, 16).replace('T', ' ');
    const sun = Math.max(
      0,
      Math.round(800 - 25 * (hour - 12) ** 2) * (Math.floor(i / 48) % 3 === 0 ? 0.1 : 1),
    );
    rows.push(path === 'load.csv' ? `${stamp},${hour > 17 ? 1.2 : 0.4}` : `${stamp},${sun},18`);
  }
  return new TextEncoder().encode(`${rows.join('\n')}\n`);
}
