/** The commissioning sheet with old and new settings, of the farm. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { commissioningSheet } from '../../../src/report/sheet/page.ts';
import { visitPages } from '../../../src/report/visit/page.ts';
import { settingsSource } from '../../../src/report/visit/settings-source.ts';
import { richVisit } from './fixture-visit.ts';

const FILE = resolve(import.meta.dirname, '../../../profiles/sites/farm.yaml');
const request = {
  text: readFileSync(FILE, 'utf8').replace('days: 365', 'days: 60'),
  file: FILE,
  readFile: (path: string) => readFileSync(resolve(FILE, '..', path)),
  version: '0.0.0',
  stepMin: 30,
  calibration: { 'battery.modules': 11 },
  changes: richVisit().retune.changes ?? [],
  madeOn: '2026-01-31',
};
const { source } = settingsSource(request);

/** Rows that change: name, what it was, what it is. */
function changedRows(page: string): string[][] {
  const { document } = parseHTML(page.replaceAll('\u00a0', ' '));
  return [...document.querySelectorAll('tr.changed')].map((row) => [
    row.querySelector('th')?.textContent ?? '',
    row.querySelector('.was')?.textContent ?? '',
    (row.querySelector('.value')?.textContent ?? '').replace(/^.*→ /, ''),
  ]);
}

describe('the sheet with old and new settings', () => {
  it('shows each setting that changes, old and new, and no other', () => {
    const page = commissioningSheet(source!.after, source!.madeOn, source!.before);
    expect(changedRows(page)).toEqual([
      ['Start at state of charge', '40 %, for 1 min →', '25 %, for 1 min'],
      ['Minimum run; longest run', '45 min on load; 24 h →', '75 min on load; 24 h'],
    ]);
    expect(page.replaceAll('\u00a0', ' ')).toContain('2 settings to change, marked: old → new.');
  });

  it('reckons with the plant that the log shows', () => {
    expect(source?.before.site.battery?.modules).toBe(11);
    expect(source?.after.site.battery?.modules).toBe(11);
  });

  it('has nothing marked without an old one', () => {
    expect(changedRows(commissioningSheet(source!.after, '2026-01-31'))).toEqual([]);
  });

  it('says what is taken out and what is new', () => {
    const { before, after } = source!;
    const full = { everyDays: 14, stopSoc: 1, absorptionMaxMin: 120 } as never;
    const withFull = { ...after, site: { ...after.site, control: { ...after.site.control, full } } };
    const put = changedRows(commissioningSheet(withFull, '2026-01-31', before));
    expect(put.find(([name]) => name === 'Periodic full charge')?.[1]).toBe('not set →');
    const taken = changedRows(commissioningSheet(after, '2026-01-31', withFull));
    expect(taken.find(([name]) => name === 'Periodic full charge')?.[2]).toBe('take out');
  });

  it('is written beside the visit only where settings are to change', () => {
    const files = (visit = richVisit()) => visitPages(visit, source).map(({ file }) => file);
    expect(files()).toEqual(['visit.html', 'settings.html']);
    const nothing = { ...richVisit().retune, changes: null, why: 'nothing-better' as const };
    expect(files(richVisit({ retune: nothing }))).toEqual(['visit.html']);
    expect(visitPages(richVisit(), null)).toHaveLength(1);
  });

  it('gives every problem where a change is wrong', () => {
    const wrong = settingsSource({ ...request, changes: [{ path: 'control.none', from: 1, to: 2 }] });
    expect(wrong.source).toBeNull();
    expect(wrong.issues.filter(({ severity }) => severity === 'error').length).toBeGreaterThan(0);
  });
});
