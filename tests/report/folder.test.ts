import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium, repeatable } from '../../src/report/commands/print-pdf.ts';
import { hashText } from '../../src/scenarios/hash.ts';
import { SMALL_SITE } from '../scenarios/small-site.ts';
import { CLI, runIn, smallSiteFolder } from './built-command.ts';

const chromium = findChromium();
if (chromium === null) console.warn('SKIPPED: no Chromium on the path, so no PDF was printed');
const PAGES = [
  'about.txt',
  'commissioning-sheet.html',
  'data-sheets.txt',
  'figures.xlsx',
  'owner-report.html',
  'site.yaml',
];

let folder = '';

beforeAll(() => {
  folder = smallSiteFolder();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: string[]) => runIn(folder, 'folder', 'site.yaml', ...args);

/** Files of the one folder in `out`, by name. */
function written(out: string): Map<string, Buffer> {
  const [name, ...others] = readdirSync(join(folder, out));
  expect(others).toEqual([]);
  const inside = join(folder, out, name);
  return new Map(readdirSync(inside).map((file) => [file, readFileSync(join(inside, file))]));
}

describe('darkweek folder', () => {
  it('writes everything into a folder named by site and date', () => {
    const { status, stdout } = run('--out', 'first', '--date', '2026-01-31', '--no-pdf');
    expect(status).toBe(0);
    const [name] = readdirSync(join(folder, 'first'));
    expect(name).toMatch(/^[a-z0-9-]+-2026-01-31$/);
    expect(stdout).toContain(join('first', name));
    const files = written('first');
    expect([...files.keys()].sort()).toEqual(PAGES);
    expect(files.get('site.yaml')?.toString()).toBe(SMALL_SITE);
  });

  it('says which version and inputs made it, and the fingerprint of every file', () => {
    const files = written('first');
    const about = files.get('about.txt')!.toString();
    const { version } = JSON.parse(readFileSync(resolve(CLI, '../../package.json'), 'utf8'));
    const hash = about.match(/inputs ([0-9a-f]{16})/)?.[1];
    expect(about).toContain(`Darkweek ${version}`);
    for (const page of ['owner-report.html', 'commissioning-sheet.html'])
      expect(files.get(page)!.toString()).toContain(hash!);
    for (const [name, content] of files)
      if (name !== 'about.txt') expect(about).toContain(`${hashText(content)}  ${name}`);
  });

  it('writes the same bytes again, and other dates change only dates', () => {
    run('--out', 'again', '--date', '2026-01-31', '--no-pdf');
    const first = written('first');
    for (const [name, content] of written('again'))
      expect([name, content.equals(first.get(name)!)]).toEqual([name, true]);
    run('--out', 'later', '--date', '2026-02-28', '--no-pdf');
    const later = written('later');
    for (const name of ['figures.xlsx', 'data-sheets.txt', 'site.yaml'])
      expect([name, later.get(name)!.equals(first.get(name)!)]).toEqual([name, true]);
    const dateless = (text: string) =>
      text.replaceAll(/2026-\d\d-\d\d|31 January 2026|28 February 2026/g, '');
    for (const name of ['owner-report.html', 'commissioning-sheet.html']) {
      expect(later.get(name)!.equals(first.get(name)!)).toBe(false);
      expect(dateless(later.get(name)!.toString())).toBe(dateless(first.get(name)!.toString()));
    }
  });

  it('hands over the alternative asked for, in the language asked for', () => {
    const name = 'more modules';
    const { status } = run('--out', 'german', '--no-pdf', '--locale', 'de-AT', '--proposed', name);
    expect(status).toBe(0);
    const page = written('german').get('owner-report.html')!.toString();
    expect(page).toContain('lang="de-AT"');
    expect(page).toContain(`Dieser Bericht handelt von „${name}“.`);
    expect(written('german').get('about.txt')!.toString()).toContain(`Proposed: ${name}.`);
  });

  it('refuses an alternative, a language or a date that there is not, with what would be right', () => {
    const both = run('--proposed', 'none', '--locale', 'fr-FR', '--out', 'no');
    expect(both.status).toBe(1);
    expect(both.stderr).toMatch(/--proposed: found no alternative 'none'; expected 'as filed' or/);
    expect(both.stderr).toMatch(/locale: found 'fr-FR'; expected .*en, de/);
    expect(existsSync(join(folder, 'no'))).toBe(false);
    expect(run('--date', '2026-02-30').status).toBe(2);
    expect(run('--locale', '!', '--out', 'no').status).toBe(1);
  });
});

describe.skipIf(chromium === null)('printed', () => {
  it('is tagged, has an outline, real text and its date, and can be made again', () => {
    run('--out', 'printed', '--date', '2026-01-31');
    run('--out', 'reprinted', '--date', '2026-01-31');
    const first = written('printed');
    const again = written('reprinted');
    for (const name of ['owner-report.pdf', 'commissioning-sheet.pdf']) {
      const pdf = first.get(name)!.toString('latin1');
      expect(pdf.startsWith('%PDF-')).toBe(true);
      expect(pdf).toMatch(/\/MarkInfo\s*<<\s*\/Type\s*\/MarkInfo\s*\/Marked true|\/Marked true/);
      expect(pdf).toMatch(/\/StructTreeRoot/);
      expect(pdf).toMatch(/\/Outlines/);
      expect(pdf).toMatch(/\/ToUnicode/);
      expect(pdf).toContain("/CreationDate (D:20260131000000+00'00')");
      expect([name, again.get(name)!.equals(first.get(name)!)]).toEqual([name, true]);
      // as if the page had named more before it was printed, on another day
      const shifted = pdf
        .replaceAll('D:20260131', 'D:20260402')
        .replace(/node(\d{8})/g, (_, id) => `node${String(Number(id) + 926).padStart(8, '0')}`);
      expect(shifted).not.toBe(pdf);
      expect(Buffer.from(repeatable(Buffer.from(shifted, 'latin1'), '2026-01-31')).toString('latin1')).toBe(
        pdf,
      );
    }
    const pages = (name: string) =>
      [
        ...first
          .get(name)!
          .toString('latin1')
          .matchAll(/\/Type\s*\/Page\b(?!s)/g),
      ].length;
    expect(pages('commissioning-sheet.pdf')).toBe(2);
    expect(pages('owner-report.pdf')).toBeGreaterThanOrEqual(3);
  }, 120_000);
});
