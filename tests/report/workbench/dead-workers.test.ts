/** Workers of a study that die: another takes the place of one, and where none can live that is said in words. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { goTo, launch, newContext, openPage, there } from './browser.ts';

async function beginSweep(page: Page, soc: string, modules: string): Promise<void> {
  await goTo(page, 'Try many');
  await page.getByLabel('Values').first().fill(soc);
  await page.getByLabel('Values').nth(1).fill(modules);
  await page.getByLabel('Step of the figures').selectOption('60');
  await page.getByRole('button', { name: 'Run', exact: true }).click();
}

/** Ends every worker that runs variants, from within. @returns how many there were */
async function endThreads(page: Page): Promise<number> {
  let ended = 0;
  for (const worker of page.workers()) {
    const isThread = await worker.evaluate(() => self.name === 'thread').catch(() => false);
    if (!isThread) continue;
    ended++;
    await worker.evaluate(() => {
      setTimeout(() => {
        throw new Error('ended on purpose');
      });
    });
  }
  return ended;
}

describe.skipIf(!there)('workers that die', { timeout: 300_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('another takes the place of one, and every variant is there in the end', async () => {
    const { page, context } = await openPage(await newContext(browser));
    await beginSweep(page, '0.1:0.5:0.01', '6:45:1');
    // looked for from within, at every frame: it is gone once the runs are done
    const someDone = () =>
      (document.querySelector<HTMLProgressElement>('.study-progress progress')?.value ?? 0) > 10;
    await page.waitForFunction(someDone, undefined, { timeout: 120_000 });
    expect(await endThreads(page)).toBeGreaterThan(0);
    await page.getByRole('status').filter({ hasText: 'The runs are done.' }).waitFor({ timeout: 240_000 });
    const map = page.locator('.study svg.chart:visible').first();
    expect(await map.locator('.cells > *').count()).toBe(41 * 40);
    await context.close();
  });

  it('where none can live the runs break off in words, and may be asked for again', async () => {
    const context = await newContext(browser);
    await context.addInitScript(() => {
      const { Worker } = window;
      window.Worker = class extends Worker {
        constructor(url: string | URL, options?: WorkerOptions) {
          const dead = URL.createObjectURL(new Blob(['throw new Error("no room for it")']));
          super(options?.name === 'thread' ? dead : url, options);
        }
      };
    });
    const { page } = await openPage(context);
    await beginSweep(page, '0.2, 0.3', '12, 18');
    const alert = page.locator('.many [role=alert]');
    await alert.waitFor({ timeout: 120_000 });
    expect(await alert.textContent()).toMatch(/^The runs broke off: .*What was finished is kept/);
    expect(await page.getByRole('button', { name: 'Run', exact: true }).isEnabled()).toBe(true);
    expect(await page.locator('.study-progress').count()).toBe(0);
    await context.close();
  });
});
