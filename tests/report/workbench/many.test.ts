/** Studies of many runs in the workbench: the figures of the command line, stopping, and choices that are pressed. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { figureText, goTo, launch, newContext, type Opened, openPage, savedText, there } from './browser.ts';
import { commandOn, simulateText } from './command-line.ts';

const FARM = readFileSync(resolve(import.meta.dirname, '../../../profiles/sites/farm.yaml'), 'utf8');

/** As people write it: 2,575. */
const grouped = (value: number) => Math.round(value).toLocaleString('en-US');

const run = (page: Page) => page.getByRole('button', { name: 'Run', exact: true });
const progress = (page: Page) => page.locator('.study-progress');

async function runAndWait(page: Page): Promise<void> {
  // the click says that they have begun, before it returns
  await run(page).click();
  await page
    .getByRole('status')
    .filter({ hasText: /runs are done|was not run/ })
    .waitFor({ timeout: 300_000 });
}

async function choose(page: Page, study: string): Promise<void> {
  await page.getByLabel(study, { exact: true }).check();
}

/** Rows of the table of choices: the name, what it is, and its figures. */
async function choiceRows(page: Page): Promise<{ name: string; mark: string; figures: string[] }[]> {
  const more = page.getByRole('button', { name: /^Show \d+ more$/ });
  if (await more.isVisible()) await more.click();
  return page.locator('.choice-table tbody tr').evaluateAll((rows) =>
    rows.map((row) => ({
      name: row.querySelector('button')?.textContent ?? '',
      mark: row.querySelector('small')?.textContent ?? '',
      figures: [...row.querySelectorAll('td')].map((cell) => cell.textContent ?? ''),
    })),
  );
}

async function askSweep(
  page: Page,
  soc: string,
  modules: string,
  price: string,
  step: string,
): Promise<void> {
  await choose(page, 'Vary numbers');
  await page.getByLabel('Values').first().fill(soc);
  await page.getByLabel('Values').nth(1).fill(modules);
  await page.getByLabel('Price of one more, $').nth(1).fill(price);
  await page.getByLabel('Step of the figures').selectOption(step);
}

/** Until an alternative is in hand, on a machine however busy. */
async function inHand(page: Page, name: string): Promise<void> {
  const shown = () => page.getByLabel('In hand').locator('option:checked').textContent();
  await expect.poll(shown, { timeout: 30_000 }).toBe(name);
}

/** Alternatives of the site file as it would be saved. */
async function alternatives(page: Page): Promise<{ name: string; capital?: number; changes: object }[]> {
  return parse(await savedText(page)).alternatives;
}

describe.skipIf(!there)('studies of many runs in the workbench', { timeout: 400_000 }, () => {
  let browser: Browser;
  let opened: Opened;

  beforeAll(async () => {
    browser = await launch();
    opened = await openPage(await newContext(browser));
    await goTo(opened.page, 'Try many');
  });
  afterAll(() => browser?.close());

  it('sweeps: every variant has the figures of the command line, and prices count', async () => {
    const { page } = opened;
    await askSweep(page, '0.2:0.4:0.1', '12, 18', '1600', '60');
    await runAndWait(page);
    const { out } = commandOn(FARM, [
      ...['sweep', '--step', '60', '--price', 'battery.modules=1600'],
      ...['--vary', 'control.charge.startSoc=0.2:0.4:0.1', '--vary', 'battery.modules=12, 18'],
    ]);
    const said = JSON.parse(readFileSync(join(out, 'sweep.json'), 'utf8'));
    const rows = await choiceRows(page);
    expect(rows).toHaveLength(6);
    const costs = said.variants.map(({ outcome: one }: { outcome: Record<string, number> }) =>
      [one.lifeCycleCost, one.fuelL, one.starts, one.unservedKwh * 10].map(Math.round).join(),
    );
    const shown = rows.map(({ figures }) => {
      const [cost, fuel, starts, unserved] = figures.map((text) => Number(text.replaceAll(',', '')));
      return [cost, fuel, starts, Math.round(unserved * 10)].join();
    });
    expect(shown.sort()).toEqual(costs.sort());
    // those that serve enough first, the cheapest of them marked
    expect(rows[0].mark).toContain('cheapest that serves enough');
    expect(rows.find(({ name }) => name === 'generator started at 30 % and battery modules 12')?.mark).toBe(
      'as filed',
    );
  });

  it('a press on the map makes the alternative, which then has the figures of its place', async () => {
    const { page } = opened;
    const name = 'generator started at 20 % and battery modules 18';
    const row = (await choiceRows(page)).find((one) => one.name === name);
    await page
      .getByRole('button', { name: new RegExp(`^${name}, .*: make it an alternative$`) })
      .first()
      .click();
    await inHand(page, name);
    const made = (await alternatives(page)).at(-1);
    expect(made).toEqual({
      name,
      capital: 9600,
      changes: { 'control.charge.startSoc': 0.2, 'battery.modules': 18 },
    });
    // pressed again it is taken in hand and not made twice
    await page.getByLabel('In hand').selectOption('as filed');
    await page.locator('.choice-table').getByRole('button', { name, exact: true }).click();
    await inHand(page, name);
    expect((await alternatives(page)).filter((one) => one.name.startsWith(name))).toHaveLength(1);
    await page.getByRole('button', { name: 'See its year' }).click();
    // the map was run in steps of an hour, the year in those of the site file
    const filed = simulateText(await savedText(page)).find((one) => one.name === name);
    await expect
      .poll(() => figureText(page, 'fuelL'), { timeout: 30_000 })
      .toBe(`${grouped(filed?.ledger.totals.fuelL ?? 0)} L`);
    expect(row?.figures[1]).toMatch(/^\d,\d{3}$/);
    await goTo(page, 'Try many');
  });

  it('reaches every place of the map by keyboard', async () => {
    const { page } = opened;
    const spots = page.locator('.spots').first();
    await spots.locator('button[tabindex="0"]').focus();
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
    for (const key of ['ArrowDown', 'ArrowLeft', 'ArrowLeft']) await page.keyboard.press(key);
    const seen = new Set([await focused()]);
    for (const key of [
      'ArrowRight',
      'ArrowRight',
      'ArrowUp',
      'ArrowDown',
      'ArrowUp',
      'ArrowLeft',
      'ArrowLeft',
    ]) {
      await page.keyboard.press(key);
      seen.add(await focused());
    }
    expect(seen.size).toBe(6);
    await page.keyboard.press('Enter');
    const name = (await focused()).split(', ')[0];
    await inHand(page, name);
  });

  it('refuses what cannot be varied, in words', async () => {
    const { page } = opened;
    await page.getByLabel('Values').first().fill('0.4:0.2:0.1');
    await runAndWait(page);
    expect(await page.locator('.many .issues').textContent()).toContain(
      'found 0.4:0.2:0.1; expected from, to and step with from <= to',
    );
    await page.getByLabel('Values').first().fill('0.2:0.4:0.1');
  });

  it('unfolds what is wrong in a fold', async () => {
    const { page } = opened;
    await choose(page, 'Tune the generator');
    const fold = page.locator('.many form details', { hasText: 'Limits, by the year' }).first();
    await fold.locator('> summary').click();
    const box = page.getByLabel('Least charge, %');
    await box.fill('200');
    await fold.locator('> summary').click();
    expect(await box.isVisible()).toBe(false);
    await run(page).click();
    await expect.poll(() => box.isVisible()).toBe(true);
    expect(await progress(page).count()).toBe(0);
    await box.fill('');
    await fold.locator('> summary').click();
  });

  it('tunes: the settings that the command line chooses', async () => {
    const { page } = opened;
    await choose(page, 'Tune the generator');
    await page.getByLabel('Of', { exact: true }).selectOption('as filed');
    await page.getByLabel('At most so many runs').fill('60');
    await page.getByText('Only some settings').click();
    const boxes = page.getByRole('group', { name: 'Settings that may change' }).getByRole('checkbox');
    for (let i = 2; i < (await boxes.count()); i++) await boxes.nth(i).uncheck();
    await runAndWait(page);
    const { said } = commandOn(FARM, [
      ...['tune', '--json', '--step', '60', '--runs', '60', '--rules', 'startSoc,stopSoc'],
    ]);
    const { changes, chosen } = JSON.parse(said);
    const [best] = await choiceRows(page);
    expect(best.mark).toBe('the chosen set');
    expect(best.figures).toEqual(
      [
        chosen.capital,
        chosen.lifeCycleCost - chosen.capital,
        ...[chosen.fuelL, chosen.runH, chosen.unservedKwh],
      ].map(grouped),
    );
    await page.locator('.choice-table button').first().click();
    await inHand(page, best.name);
    expect((await alternatives(page)).at(-1)?.changes).toEqual(changes);
    expect(Object.keys(changes).length).toBeGreaterThan(0);
  });

  it('weighs sizes: the choices of the command line, with all that goes with a size', async () => {
    const { page } = opened;
    await choose(page, 'Choose sizes');
    await page.getByLabel('Of', { exact: true }).selectOption('as filed');
    await page.getByLabel('Generators, kW').fill('10, 20');
    await page.getByRole('textbox', { name: 'Battery modules' }).fill('12, 18');
    await page.getByLabel('All arrays together, kWp').fill('24');
    await page.getByLabel('Inverters, kVA a unit').fill('8');
    await page.getByLabel('Step of the figures').selectOption('60');
    await runAndWait(page);
    const { said } = commandOn(FARM, [
      ...['size', '--json', '--step', '60', '--generators', '10,20', '--modules', '12,18'],
      ...['--arrays', '24', '--inverters', '8', '--catalogue'],
      resolve(import.meta.dirname, '../../../profiles/equipment/catalogue.yaml'),
    ]);
    const { all } = JSON.parse(said);
    const rows = await choiceRows(page);
    expect(rows.map(({ figures: [capital, , fuel] }) => [capital, fuel])).toEqual(
      all.map(({ outcome }: { outcome: { capital: number; fuelL: number } }) =>
        [outcome.capital, outcome.fuelL].map(grouped),
      ),
    );
    const place = rows.findIndex(({ name }) => name.startsWith('10 kW generator, 18 modules'));
    await page.locator('.choice-table button').nth(place).click();
    await inHand(page, rows[place].name);
    expect((await alternatives(page)).at(-1)?.changes).toEqual(all[place].changes);
  });

  it('a press on a dot of the drawing of sizes makes the alternative', async () => {
    const { page } = opened;
    await page.getByLabel('In hand').selectOption('as filed');
    const filed = (await alternatives(page)).length;
    for (const drawing of [0, 1]) {
      const part = page.locator('.study-part', { has: page.locator('.spots') }).nth(drawing);
      const dots = part.locator('svg.chart:visible .cells > *');
      const spots = part.locator('.spots button');
      expect(await spots.count()).toBe(await dots.count());
      // they lie as their figures do: by capital, and by what goes unserved
      const rows = await choiceRows(page);
      const lying = await spots.evaluateAll((all) =>
        all.map((one) => ({
          left: one.getBoundingClientRect().left,
          name: (one.getAttribute('aria-label') ?? '').split(', At the start')[0],
        })),
      );
      expect(lying.length).toBeGreaterThan(1);
      const figureOf = (name: string) =>
        Number(rows.find((one) => one.name === name)?.figures[[0, 4][drawing]].replaceAll(',', ''));
      const across = lying.sort((one, other) => one.left - other.left).map(({ name }) => figureOf(name));
      expect(across).toEqual([...across].sort((one, other) => one - other));
      const spot = spots.and(page.getByRole('button', { name: /^10 kW generator, 1[28] modules/ })).first();
      const words = (await spot.getAttribute('aria-label')) ?? '';
      const [, name, capital] = /^(.*), At the start, \$: ([\d,]+), Paid after/.exec(words) ?? [];
      expect(rows.find((one) => one.name === name)?.figures[0]).toBe(capital);
      await spot.click();
      await inHand(page, name);
      const made = (await alternatives(page)).find((one) => one.name === name);
      expect(made?.changes).toMatchObject({ 'generator.ratedKw': 10 });
      await page.getByLabel('In hand').selectOption('as filed');
    }
    expect((await alternatives(page)).length).toBeGreaterThan(filed);
    // what is as filed already is taken in hand, and not made once more
    const count = (await alternatives(page)).length;
    await page.getByLabel('In hand').selectOption('24 modules');
    await page.locator('.choice-table tr', { hasText: 'yours' }).getByRole('button').click();
    await inHand(page, 'as filed');
    expect(await alternatives(page)).toHaveLength(count);
  });

  it('simulates bad years: the bands of the command line', async () => {
    const { page } = opened;
    await choose(page, 'Bad years');
    await page.getByLabel('Alternatives', { exact: true }).selectOption('24 modules');
    await page.getByLabel('Runs of each').fill('2');
    await runAndWait(page);
    const { said } = commandOn(FARM, [
      'stress',
      '--json',
      '--step',
      '60',
      '--runs',
      '2',
      '--only',
      '24 modules',
    ]);
    const { summaries } = JSON.parse(said);
    const fuel = await page
      .locator('.study table.side tr', { hasText: /^Fuel/ })
      .first()
      .locator('td b')
      .allTextContents();
    expect(fuel).toEqual(
      summaries.map(({ year }: { year: { fuelL: { p50: number } } }) => grouped(year.fuelL.p50)),
    );
  });

  it('stops a sweep: what is finished is shown and kept, and the same question goes on from there', async () => {
    const { page } = opened;
    // hours of work on any machine
    await askSweep(page, '0.1:0.58:0.01', '1:100:1', '', '1');
    const doneNow = async () => Number((await progress(page).locator('progress').getAttribute('value')) ?? 0);
    const stop = async () => {
      await page.getByRole('button', { name: 'Stop, keep what is finished' }).click();
      await progress(page).waitFor({ state: 'detached', timeout: 60_000 });
      const words = (await page.locator('.study .care').first().textContent()) ?? '';
      const [, done, of] = /Stopped: ([\d,]+) of ([\d,]+) variants/.exec(words) ?? [];
      return [done, of].map((text) => Number(text?.replace(',', '')));
    };
    await run(page).click();
    await expect.poll(async () => (await doneNow()) > 3, { timeout: 120_000 }).toBe(true);
    const [first, of] = await stop();
    expect(of).toBe(4900);
    expect(first).toBeGreaterThan(3);
    expect(first).toBeLessThan(of);
    expect(await page.locator('.study svg.chart .cells').first().locator('> *').count()).toBe(first);
    await run(page).click();
    await expect.poll(async () => (await doneNow()) >= first, { timeout: 120_000 }).toBe(true);
    const [second] = await stop();
    expect(second).toBeGreaterThanOrEqual(first);
  });

  it('stops a tune: the best of what was finished can be taken', async () => {
    const { page } = opened;
    await choose(page, 'Tune the generator');
    await page.getByLabel('At most so many runs').fill('100000');
    await page.getByLabel('Step of the figures').selectOption('1');
    await run(page).click();
    await expect
      .poll(async () => /: sets spread/.test((await progress(page).textContent()) ?? ''), {
        timeout: 120_000,
      })
      .toBe(true);
    const done = async () => Number(await progress(page).locator('progress').getAttribute('value'));
    await expect.poll(async () => (await done()) > 1, { timeout: 120_000 }).toBe(true);
    await page.getByRole('button', { name: 'Stop, keep what is finished' }).click();
    await progress(page).waitFor({ state: 'detached', timeout: 60_000 });
    expect(await page.locator('.study .care').first().textContent()).toMatch(/^Stopped after \d/);
    const rows = await choiceRows(page);
    expect(rows[0].mark).toMatch(/^today/);
    expect(rows.length).toBeGreaterThan(1);
  });

  it('stops a choice of sizes: the best of what was finished can be taken', async () => {
    const { page } = opened;
    await choose(page, 'Choose sizes');
    await page.getByLabel('Of', { exact: true }).selectOption('as filed');
    await page.getByLabel('Generators, kW').fill('8, 10, 12, 15, 20, 25, 30');
    await page
      .getByRole('textbox', { name: 'Battery modules' })
      .fill('6, 8, 10, 12, 14, 16, 18, 20, 24, 28, 32, 40');
    await page.getByLabel('All arrays together, kWp').fill('16, 20, 24, 28, 32, 36, 40, 50');
    await page.getByLabel('Inverters, kVA a unit').fill('5, 8, 10, 15');
    await page.getByLabel('Step of the figures').selectOption('1');
    await run(page).click();
    await progress(page).waitFor();
    const done = async () => Number(await progress(page).locator('progress').getAttribute('value'));
    await expect.poll(async () => (await done()) > 3, { timeout: 120_000 }).toBe(true);
    await page.getByRole('button', { name: 'Stop, keep what is finished' }).click();
    await progress(page).waitFor({ state: 'detached', timeout: 60_000 });
    expect(await page.locator('.study .care').first().textContent()).toMatch(/^Stopped after \d/);
    const rows = await choiceRows(page);
    expect(rows[0].mark).toMatch(/^today/);
    await page.locator('.choice-table button').nth(1).click();
    await inHand(page, rows[1].name);
  });

  it('stops bad years: the runs that are finished are shown, and the same question goes on from there', async () => {
    const { page } = opened;
    await choose(page, 'Bad years');
    await page.getByLabel('Alternatives', { exact: true }).selectOption('24 modules');
    await page.getByLabel('Runs of each').fill('5000');
    await page.getByLabel('Step of the figures').selectOption('60');
    const done = async () => Number((await progress(page).locator('progress').getAttribute('value')) ?? 0);
    const stop = async () => {
      await page.getByRole('button', { name: 'Stop, keep what is finished' }).click();
      await progress(page).waitFor({ state: 'detached', timeout: 120_000 });
      const words = (await page.locator('.study .care').first().textContent()) ?? '';
      return Number(/Stopped: ([\d,]+) of 5,000 runs of “as filed”/.exec(words)?.[1].replace(',', ''));
    };
    await run(page).click();
    await expect.poll(async () => (await done()) > 3, { timeout: 120_000 }).toBe(true);
    const first = await stop();
    expect(first).toBeGreaterThan(3);
    expect(first).toBeLessThan(5000);
    // bands of what is there
    expect(await page.locator('.study table.side td b').first().textContent()).toMatch(/\d/);
    await run(page).click();
    await expect.poll(async () => (await done()) >= first, { timeout: 120_000 }).toBe(true);
    expect(await stop()).toBeGreaterThanOrEqual(first);
  });

  it('has put nothing on the console', () => {
    expect(opened.complaints).toEqual([]);
  });
});
