/** What is not to be lost: a trial when something else is taken in hand, and what is open in another tab. */
import type { Browser, BrowserContext, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dragThreshold, goTo, launch, newContext, openPage, savedText, there } from './browser.ts';

const startSoc = (page: Page) =>
  page.getByRole('slider', { name: 'Generator starts at' }).getAttribute('aria-valuenow');
const handText = (page: Page) => page.getByLabel('In hand').locator('option:checked').textContent();
const eventually = { timeout: 30_000 };

describe.skipIf(!there)('nothing is lost unasked', () => {
  let browser: Browser;
  let context: BrowserContext;
  beforeAll(async () => {
    browser = await launch();
    context = await newContext(browser);
  });
  afterAll(() => browser?.close());

  it('asks what becomes of a trial before another alternative is taken in hand', async () => {
    const { page, complaints } = await openPage(context);
    const take = (name: string) => page.getByLabel('In hand').selectOption(name);
    const press = (name: string) => page.getByRole('dialog').getByRole('button', { name }).click();
    await dragThreshold(page, 'starts', -30);
    const tried = await startSoc(page);
    expect(Number(tried)).toBeGreaterThan(35);
    await take('24 modules');
    await press('Go back to it');
    expect(await handText(page)).toBe('as filed');
    expect(await startSoc(page)).toBe(tried);
    // closed by the keyboard it is as if nobody had asked for anything
    await take('24 modules');
    await page.getByRole('dialog').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    expect(await startSoc(page)).toBe(tried);
    await take('24 modules');
    await press('Keep it in as filed');
    await expect.poll(() => handText(page), eventually).toBe('24 modules');
    expect(await savedText(page)).toContain(`startSoc: 0.${tried},`);
    await dragThreshold(page, 'starts', 30);
    await take('as filed');
    await press('Drop it');
    await expect.poll(() => handText(page), eventually).toBe('as filed');
    await expect.poll(() => startSoc(page), eventually).toBe(tried);
    expect(await page.locator('.trial').count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('keeps what is open in each tab by itself, over a reload and for whoever comes next', async () => {
    const { page: first } = await openPage(context);
    await dragThreshold(first, 'starts', -20);
    const ofFirst = await startSoc(first);
    const { page: second } = await openPage(context);
    await goTo(second, 'Files');
    await expect
      .poll(() => second.locator('.files').textContent(), eventually)
      .toContain('Another tab of the workbench is open');
    await second.getByRole('button', { name: 'The hut' }).click();
    await expect.poll(() => second.locator('h1').textContent(), eventually).toMatch(/hut/i);
    // longer than it takes to keep
    await second.waitForTimeout(600);
    await first.reload();
    await first.waitForSelector('.threshold.starts');
    expect(await first.locator('h1').textContent()).toMatch(/^Farm/);
    await expect.poll(() => startSoc(first), eventually).toBe(ofFirst);
    await second.reload();
    await second.waitForSelector('h1');
    await expect.poll(() => second.locator('h1').textContent(), eventually).toMatch(/hut/i);
    // who comes next goes on with what was closed last
    await first.close({ runBeforeUnload: true });
    await expect.poll(() => context.pages().includes(first), eventually).toBe(false);
    const { page: third } = await openPage(context);
    expect(await third.locator('h1').textContent()).toMatch(/^Farm/);
    await expect.poll(() => startSoc(third), eventually).toBe(ofFirst);
    await context.close();
  });
});
