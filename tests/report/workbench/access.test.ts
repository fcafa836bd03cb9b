/** Everything by keyboard; nothing for axe to find in any view; nothing wider than the screen. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFinds } from '../axe.ts';
import { figureText, goTo, launch, newContext, openPage, there } from './browser.ts';

const VIEWS = ['The year', 'Alternatives', 'Try many', 'The site', 'Files'];

/** Presses Tab until what has the focus is called so. */
async function tabTo(page: Page, name: RegExp, key = 'Tab'): Promise<void> {
  for (let i = 0; i < 150; i++) {
    await page.keyboard.press(key);
    const focused = await page.evaluate(() => {
      const { activeElement } = document;
      const label = (activeElement as HTMLInputElement | null)?.labels?.[0]?.textContent;
      return activeElement?.getAttribute('aria-label') ?? label ?? activeElement?.textContent ?? '';
    });
    if (name.test(focused.trim())) return;
  }
  throw new Error(`no ${name} by keyboard`);
}

/** A small sweep, so that maps and choices are there. */
async function tryMany(page: Page): Promise<void> {
  await page.getByLabel('Values').first().fill('0.2, 0.3');
  await page.getByLabel('Values').nth(1).fill('12, 18');
  await page.getByLabel('Step of the figures').selectOption('60');
  await page.getByRole('button', { name: 'Run', exact: true }).click();
  await page.locator('.spots button').first().waitFor({ timeout: 120_000 });
}

/** Months under the state of charge that are cut, or run into the next. */
function cutMonths(page: Page): Promise<string[]> {
  return page.locator('.month-ticks span').evaluateAll((ticks) =>
    ticks
      .filter((tick, i) => {
        const next = ticks[i + 1]?.getBoundingClientRect().left ?? Number.POSITIVE_INFINITY;
        return tick.scrollWidth > tick.clientWidth || tick.getBoundingClientRect().right > next;
      })
      .map((tick) => tick.textContent ?? ''),
  );
}

describe.skipIf(!there)('the workbench for everybody', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  const screens = [
    { name: 'wide', width: 1280, colorScheme: 'light', looked: 'all' },
    { name: 'wide and dark', width: 1280, colorScheme: 'dark', looked: 'contrast' },
    { name: 'narrow', width: 360, colorScheme: 'light', looked: 'all but contrast' },
    { name: 'very wide', width: 3840, colorScheme: 'light', looked: 'all but contrast' },
  ] as const;
  for (const { name, looked, ...screen } of screens)
    it(`has nothing for axe to find and fits the screen, in every view: ${name}`, async () => {
      const { page, context, complaints } = await openPage(await newContext(browser, screen));
      // something on trial, so that all that can be there is
      await page.getByRole('slider', { name: 'Generator starts at' }).press('ArrowUp');
      await page.locator('.trial').waitFor();
      expect(await cutMonths(page)).toEqual([]);
      for (const view of VIEWS) {
        await goTo(page, view);
        if (view === 'Alternatives') await page.locator('.side-by-side').waitFor();
        if (view === 'The site') await page.locator('summary', { hasText: /^battery$/ }).click();
        if (view === 'Try many') await tryMany(page);
        await page.waitForSelector('.waiting', { state: 'detached' });
        expect([view, ...(await axeFinds(page, looked))]).toEqual([view]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(screen.width);
      }
      expect(complaints).toEqual([]);
      await context.close();
    });

  it('does everything by keyboard', async () => {
    const { page, context, complaints } = await openPage(await newContext(browser));
    const before = await figureText(page, 'fuelL');
    await tabTo(page, /^Generator starts at$/);
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowUp');
    await expect.poll(() => page.locator('.threshold.starts').getAttribute('aria-valuenow')).toBe('35');
    await expect.poll(() => figureText(page, 'fuelL')).not.toBe(before);
    await tabTo(page, /^Make it an alternative$/);
    await page.keyboard.press('Enter');
    // the five alternatives of the farm, and this one
    await expect.poll(() => page.getByLabel('In hand').inputValue()).toBe('6');
    // the map: a week later, then a day longer
    await tabTo(page, /^The year, a week a line/);
    const span = () => page.locator('#span-title').textContent();
    const first = await span();
    await page.keyboard.press('ArrowDown');
    await expect.poll(span).not.toBe(first);
    const second = await span();
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(span).not.toBe(second);
    // a slider, a view, a value, and undo
    await tabTo(page, /^Battery modules$/, 'Shift+Tab');
    await page.keyboard.press('ArrowRight');
    await page.locator('.trial strong', { hasText: 'thirteen battery modules' }).waitFor();
    await tabTo(page, /^The site$/, 'Shift+Tab');
    await page.keyboard.press('Enter');
    await tabTo(page, /^minimum run$/);
    await page.keyboard.press('Control+A');
    await page.keyboard.type('60');
    await page.keyboard.press('Tab');
    await expect
      .poll(() => page.getByLabel('Text of the site file').inputValue())
      .toContain('control.minRunMin: 60');
    await tabTo(page, /^Undo$/);
    await page.keyboard.press('Enter');
    await expect
      .poll(() => page.getByLabel('Text of the site file').inputValue())
      .not.toContain('control.minRunMin: 60');
    expect(complaints).toEqual([]);
    await context.close();
  });
});
