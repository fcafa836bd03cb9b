/**
 * Somebody who presses, types and drags anything for a while: no error, and memory that does not grow. Half a
 * minute here; `npm run workbench:random` takes thirty.
 */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright';
import seedrandom from 'seedrandom';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { goTo, launch, newContext, openPage, there } from './browser.ts';

const MINUTES = Number(process.env.WORKBENCH_MINUTES ?? 0.5);
const SEED = process.env.SEED ?? 'hands';
const VIEWS = ['The year', 'Alternatives', 'Try many', 'The site', 'Files'];
/** Would leave the page, or wait for a person. */
const LEFT_ALONE = /Choose files/;

type Act = (page: Page, draw: () => number) => Promise<void>;

const pickOf = <T>(items: readonly T[], draw: () => number): T => items[Math.floor(draw() * items.length)];

async function pressAny(page: Page, draw: () => number): Promise<void> {
  // a question is answered before anything else can be pressed
  const asked = await page.locator('dialog button:visible').all();
  const buttons =
    asked.length > 0 ? asked : await page.locator('button:visible:enabled, summary:visible').all();
  const button = pickOf(buttons, draw);
  if (button && !LEFT_ALONE.test((await button.textContent({ timeout: 500 })) ?? ''))
    await button.click({ timeout: 500 });
}

async function typeAny(page: Page, draw: () => number): Promise<void> {
  const inputs = await page
    .locator('input[type=text]:visible, input[type=number]:visible, input:not([type]):visible')
    .all();
  const input = pickOf(inputs, draw);
  if (!input) return;
  const typed = pickOf(['0', '1', '3', '0.5', '12', '-4', '1e9', 'x', '', '{', '[1, 2]', '07:30'], draw);
  const isNumber = (await input.getAttribute('type', { timeout: 500 })) === 'number';
  await input.fill(isNumber && Number.isNaN(Number(typed)) ? '2' : typed, { timeout: 500 });
  await input.blur({ timeout: 500 });
}

async function chooseAny(page: Page, draw: () => number): Promise<void> {
  const select = pickOf(await page.locator('select:visible').all(), draw);
  const count = await select?.locator('option').count();
  if (select && count) await select.selectOption({ index: Math.floor(draw() * count) }, { timeout: 500 });
}

async function dragAny(page: Page, draw: () => number): Promise<void> {
  const { width, height } = page.viewportSize() ?? { width: 800, height: 600 };
  await page.mouse.move(draw() * width, draw() * height);
  await page.mouse.down();
  await page.mouse.move(draw() * width, draw() * height, { steps: 5 });
  await page.mouse.up();
}

async function keysAny(page: Page, draw: () => number): Promise<void> {
  const keys = [
    'Tab',
    'Tab',
    'Shift+Tab',
    'ArrowUp',
    'ArrowDown',
    'ArrowLeft',
    'Shift+ArrowRight',
    'PageUp',
    'Control+z',
  ];
  for (let i = 0; i < 6; i++) await page.keyboard.press(pickOf(keys, draw));
}

const ACTS: readonly Act[] = [
  pressAny,
  pressAny,
  typeAny,
  chooseAny,
  dragAny,
  dragAny,
  keysAny,
  async (page, draw) => {
    if ((await page.locator('dialog').count()) === 0) await goTo(page, pickOf(VIEWS, draw));
  },
  (page, draw) => page.mouse.wheel(0, 1200 * (draw() - 0.5)),
];

/** What the page holds after its collector has run, and all that its processes (page and workers) take [MB]. */
async function memoryMb(page: Page, browser: Browser): Promise<{ heap: number; process: number }> {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  await session.detach();
  const whole = await browser.newBrowserCDPSession();
  const { processInfo } = await whole.send('SystemInfo.getProcessInfo');
  await whole.detach();
  const renderers = processInfo.filter(({ type }) => type === 'renderer');
  const pages = renderers.map(({ id }) => Number(readFileSync(`/proc/${id}/statm`, 'utf8').split(' ')[1]));
  return { heap: usedSize / 1e6, process: (Math.max(...pages) * 4096) / 1e6 };
}

describe.skipIf(!there)('random use of the workbench', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it(
    `bears ${MINUTES} minutes of it`,
    async () => {
      const { page, context, complaints } = await openPage(await newContext(browser));
      const draw = seedrandom(SEED);
      const end = Date.now() + MINUTES * 60_000;
      let acts = 0;
      let early: { heap: number; process: number } | null = null;
      while (Date.now() < end) {
        // what is pressed may go away under the hand, as it would for a person
        await pickOf(ACTS, draw)(page, draw).catch((error: Error) => {
          if (!/Timeout|detached|not attached|not visible|closed/i.test(error.message)) throw error;
        });
        acts++;
        if (early === null && Date.now() > end - MINUTES * 45_000) early = await memoryMb(page, browser);
        if (acts % 40 === 0) await page.keyboard.press('Escape');
      }
      expect(complaints).toEqual([]);
      expect(acts).toBeGreaterThan(20 * MINUTES);
      // and it still works
      await page.keyboard.press('Escape');
      await goTo(page, 'Files');
      await page.getByRole('button', { name: 'The hut' }).click();
      // whether a trial is left depends on what was done last
      const question = page.getByRole('dialog').getByRole('button', { name: 'Drop it' });
      await question.or(page.locator('nav [aria-current=page]', { hasText: 'The year' })).waitFor();
      if (await question.isVisible()) await question.click();
      await page.getByRole('heading', { level: 1, name: 'Weekend hut' }).waitFor();
      await expect
        .poll(() => page.locator('tr[data-figure="fuelL"] td').first().textContent())
        .toMatch(/ L$/);
      const late = await memoryMb(page, browser);
      console.log(`${acts} acts; memory early and late [MB]: ${JSON.stringify([early, late])}`);
      expect(early?.heap).toBeGreaterThan(1);
      expect(late.heap).toBeLessThan((early?.heap ?? 0) + 20);
      // the year's series come and go with the collector; what is not let go of would show in half an hour
      expect(late.process).toBeLessThan((early?.process ?? 0) + 400);
      await context.close();
    },
    MINUTES * 60_000 + 180_000,
  );
});
