/**
 * The page in a real browser: nothing for axe to find, nothing wider than the screen. Needs Chromium (Debian's package);
 * without it these tests are skipped, and say so.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { horizonPage } from '../../src/report/horizon/page.ts';
import { lookPage } from '../../src/report/look/page.ts';
import { ownerReport } from '../../src/report/owner/page.ts';
import { reportPage } from '../../src/report/page.ts';
import { commissioningSheet } from '../../src/report/sheet/page.ts';
import { sitesPage } from '../../src/report/sites/page.ts';
import { sizePage } from '../../src/report/size/page.ts';
import { sweepPage } from '../../src/report/sweep/page.ts';
import { DE } from '../../src/report/texts/de.ts';
import { EN } from '../../src/report/texts/en.ts';
import { tunePage } from '../../src/report/tune/page.ts';
import { visitPages } from '../../src/report/visit/page.ts';
import { readAny } from '../../src/scenarios/read-any.ts';
import { withStories } from '../../src/scenarios/study-stories.ts';
import { runFarm } from '../scenarios/cold-farm.ts';
import { axeFinds } from './axe.ts';
import { CHROMIUM, isInstalled, launch } from './chromium.ts';
import { fixtureStudy } from './fixture.ts';
import { handover } from './handover.ts';
import { alternative, battery, studyOf, year } from './horizon-fixture.ts';
import { withYields } from './invented-yields.ts';
import { sizeResult, tuneResult } from './search-fixture.ts';
import { manySites } from './sites/made-ranks.ts';
import { KW, MODULES, madeOutcome, madeSweep, SOC } from './sweep/made-sweep.ts';
import { richVisit } from './visit/fixture-visit.ts';

if (!isInstalled) console.warn(`SKIPPED: no ${CHROMIUM}, so the report page was not looked at in a browser`);

/** A day of meter data, looked at. */
function smallLook(): string {
  const bytes = new Uint8Array(readFileSync(new URL('../scenarios/samples/nem12_tiny.csv', import.meta.url)));
  return lookPage([{ file: 'nem12_tiny.csv', result: readAny(bytes, 'nem12_tiny.csv'), zone: '+10:00' }]);
}

/** A study of ten days that was run again: single starts, and a cabinet. */
function storiesPage(): string {
  const farm = { seed: 'told', modules: 3, kWp: 3, startSoc: 0.35, peakKw: 2.2, airC: -7 };
  const { study, again } = runFarm({ ...farm, heater: true, cooler: false });
  if (!study || !again) throw new Error('no study');
  return reportPage(withStories(study, again));
}

/** Two alternatives over three years, with load that is not supplied. */
function smallHorizon(): string {
  const short = year(2, { unservedKwh: 4, battery: battery(0.9, 0.97, [0.7]) });
  const sums = { ...alternative().sums, unservedKwh: 4 };
  return horizonPage(
    studyOf(alternative(), alternative({ name: 'less', years: [year(1), short, year(3)], sums })),
  );
}

/** Maps over three numbers, some of whose variants serve too little or contradict themselves. */
function smallSweep(): string {
  const axes = [KW, SOC, MODULES];
  const { cells } = madeSweep(axes);
  cells[0].outcome = madeOutcome(151_000, 2500, 8);
  cells[5] = { ...cells[5], outcome: null, problems: ['control.charge.startSoc: found 0.9; expected less'] };
  return sweepPage(madeSweep(axes, { cells }), []);
}

describe.skipIf(!isInstalled).each([
  ['stories', storiesPage],
  ['report', () => reportPage(withYields(fixtureStudy({ stepMin: 15, alternatives: 2 })))],
  ['look', smallLook],
  ['horizon', smallHorizon],
  ['sweep', smallSweep],
  ['tune', () => tunePage(tuneResult())],
  ['size', () => sizePage(sizeResult())],
  ['owner', () => ownerReport(handover('farm'), { locale: 'en-GB', texts: EN }, '2026-01-31')],
  ['German owner', () => ownerReport(handover('hut'), { locale: 'de-AT', texts: DE }, '2026-01-31')],
  ['visit', () => visitPages(richVisit(), null)[0].html],
  ['sites', () => sitesPage(manySites(30), { name: 'sites', made: richVisit().made })],
  ['sheet', () => commissioningSheet(handover('farm').sheet, '2026-01-31')],
])('the %s page in a browser', (_, make) => {
  let browser: Browser;
  const file = join(mkdtempSync(join(tmpdir(), 'darkweek-page-')), 'page.html');

  beforeAll(async () => {
    writeFileSync(file, make());
    browser = await launch();
  });
  afterAll(() => browser?.close());

  const screens = [
    { name: 'wide', width: 1280, colorScheme: 'light', looked: 'all' },
    { name: 'wide and dark', width: 1280, colorScheme: 'dark', looked: 'contrast' },
    { name: 'narrow', width: 360, colorScheme: 'light', looked: 'all but contrast' },
  ] as const;
  for (const { name, width, colorScheme, looked } of screens)
    it(`has nothing for axe to find and fits the screen: ${name}`, async () => {
      const context = await browser.newContext({
        viewport: { width, height: 900 },
        colorScheme,
        offline: true,
      });
      const page = await context.newPage();
      const complaints: string[] = [];
      page.on('console', (message) => complaints.push(message.text()));
      page.on('pageerror', (error) => complaints.push(error.message));
      await page.goto(`file://${file}`);
      // one month of runs and the years of money; all months alike would take axe half a minute
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll('details:first-of-type, .fold'))
          fold.setAttribute('open', '');
      });
      expect(await axeFinds(page, looked)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      expect(complaints).toEqual([]);
      await context.close();
    });
});
