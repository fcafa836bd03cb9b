/** The visit on paper: two sheets, one for the owner and one for the technician, however much there is. Needs Chromium. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { visitPages } from '../../../src/report/visit/page.ts';
import { CHROMIUM, isInstalled, launch } from '../chromium.ts';
import { fullestVisit, richVisit } from './fixture-visit.ts';

if (!isInstalled) console.warn(`SKIPPED: no ${CHROMIUM}, so the visit was not printed`);

describe.skipIf(!isInstalled)('the visit on paper', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it.each([
    ['a usual one', richVisit()],
    ['the fullest', fullestVisit()],
  ])('%s has two sides', async (_, visit) => {
    const file = join(mkdtempSync(join(tmpdir(), 'darkweek-visit-')), 'visit.html');
    writeFileSync(file, visitPages(visit, null)[0].html);
    const page = await browser.newPage();
    await page.goto(`file://${file}`);
    const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(2);
    expect(pdf).toMatch(/\/MediaBox\s*\[0 0 59[45][.\d]* 84[12]/);
    await page.close();
  });
});
