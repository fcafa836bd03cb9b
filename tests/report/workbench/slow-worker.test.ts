/** A machine so slow that every answer comes late: what was typed meanwhile stays. */
import type { Browser, BrowserContext } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { goTo, launch, newContext, openPage, savedText, there } from './browser.ts';

const LATE_MS = 500;

/** Messages to workers arrive late, in their order. */
async function slowContext(browser: Browser): Promise<BrowserContext> {
  const context = await newContext(browser);
  await context.addInitScript((late) => {
    const { postMessage } = Worker.prototype;
    Worker.prototype.postMessage = function (this: Worker, ...args: unknown[]) {
      setTimeout(() => Reflect.apply(postMessage, this, args), late);
    };
  }, LATE_MS);
  return context;
}

describe.skipIf(!there)('typing on a slow machine', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('keeps the values to vary that are typed at once', async () => {
    const { page, context, complaints } = await openPage(await slowContext(browser));
    await goTo(page, 'Try many');
    await page.getByLabel('Values').first().fill('0.2, 0.3');
    const varied = page.locator('.vary select').first().locator('option:checked');
    await expect.poll(() => varied.textContent()).toMatch(/^generator started at/);
    expect(await page.getByLabel('Values').first().inputValue()).toBe('0.2, 0.3');
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('keeps what is half typed in one field while the field before it is being worked out', async () => {
    const { page, context, complaints } = await openPage(await slowContext(browser));
    await goTo(page, 'The site');
    const battery = page.locator('details.group', {
      has: page.locator('> summary', { hasText: /^battery(?! cabinets)/ }),
    });
    await battery.locator('> summary').click();
    await battery.getByLabel('modules in parallel').fill('13');
    const next = battery.getByLabel('capacity of a module');
    await next.fill('');
    await next.pressSequentially('4');
    // the answer to the first is shown
    await expect.poll(() => page.getByLabel('Text of the site file').inputValue()).toContain('modules: 13');
    await page.waitForTimeout(4 * LATE_MS);
    expect(await next.inputValue()).toBe('4');
    await next.blur();
    await page.waitForTimeout(4 * LATE_MS);
    const saved = await savedText(page);
    expect(saved).toContain('modules: 13');
    expect(saved).toContain('moduleKwh: 4');
    expect(complaints).toEqual([]);
    await context.close();
  });
});
