/** The built workbench in a real browser, opened from disk with the network off. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContext, Page } from 'playwright';
import { CHROMIUM, isInstalled } from '../chromium.ts';

export { launch } from '../chromium.ts';

const PAGE = resolve(import.meta.dirname, '../../../dist/workbench.html');
export const there = isInstalled && existsSync(PAGE);
if (!there)
  console.warn(
    `SKIPPED: no ${CHROMIUM} or no ${PAGE} (npm run build), so the workbench was not tried in a browser`,
  );

export interface Opened {
  page: Page;
  context: BrowserContext;
  /** what the page has put on the console, and errors that nobody caught */
  complaints: string[];
}

export interface Screen {
  width?: number;
  height?: number;
  colorScheme?: 'light' | 'dark';
}

/** A browser without a past. */
export async function newContext(browser: Browser, screen: Screen = {}): Promise<BrowserContext> {
  const { width = 1280, height = 800, colorScheme = 'light' } = screen;
  const context = await browser.newContext({ viewport: { width, height }, colorScheme, offline: true });
  context.setDefaultTimeout(30_000);
  return context;
}

/** Opens the page and waits for its first picture. */
export async function openPage(context: BrowserContext, address = pathToFileURL(PAGE).href): Promise<Opened> {
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(address);
  await settled(page);
  return { page, context, complaints };
}

/** Until the first picture is there, and nothing is left to be worked out. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => performance.getEntriesByName('first picture').length > 0);
  await page.waitForSelector('.waiting', { state: 'detached' });
}

export async function goTo(page: Page, view: string): Promise<void> {
  await page.getByRole('navigation').getByRole('button', { name: view, exact: true }).click();
}

/** A figure of the year as it is shown: "2,575 L". */
export async function figureText(page: Page, key: string): Promise<string> {
  return (await page.locator(`.figure-table tr[data-figure="${key}"] td`).first().textContent()) ?? '';
}

/** Pulls a threshold up or down by so many pixels. */
export async function dragThreshold(page: Page, name: 'starts' | 'stops', byPx: number): Promise<void> {
  const line = page.getByRole('slider', { name: `Generator ${name} at` });
  const box = await line.boundingBox();
  if (!box) throw new Error(`no line for ${name}`);
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + byPx / 2, { steps: 3 });
  await page.mouse.move(x, y + byPx, { steps: 3 });
  await page.mouse.up();
  await page.waitForSelector('.waiting', { state: 'detached' });
}

/** Saves the site file and returns its text. */
export async function savedText(page: Page): Promise<string> {
  const waiting = page.waitForEvent('download');
  await page.locator('header').getByRole('button', { name: /^Save/ }).click();
  const stream = await (await waiting).createReadStream();
  const parts: Buffer[] = [];
  for await (const part of stream) parts.push(part as Buffer);
  return Buffer.concat(parts).toString('utf8');
}
