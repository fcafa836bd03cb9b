/** What is dragged is what the command line simulates, and what is saved is what it reads. */
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  dragThreshold,
  figureText,
  goTo,
  launch,
  newContext,
  type Opened,
  openPage,
  savedText,
  there,
} from './browser.ts';
import { simulateText } from './command-line.ts';

/** As people write it: 2,575. */
const grouped = (value: number) => Math.round(value).toLocaleString('en-US');

describe.skipIf(!there)('the year in the workbench', () => {
  let browser: Browser;
  let opened: Opened;

  beforeAll(async () => {
    browser = await launch();
    opened = await openPage(await newContext(browser));
  });
  afterAll(() => browser?.close());

  it('opens the farm from disk without a network and tells when its generator runs', async () => {
    const { page } = opened;
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(
      'Farm with milking and a cool room',
    );
    expect(await figureText(page, 'fuelL')).toMatch(/^\d,\d{3} L$/);
    expect(await page.locator('#span-title').textContent()).toMatch(/^The dark week, /);
  });

  it('drags the start threshold: litres, hours and starts change to what the command line says', async () => {
    const { page } = opened;
    const before = await figureText(page, 'fuelL');
    await dragThreshold(page, 'starts', -30);
    const after = await figureText(page, 'fuelL');
    expect(after).not.toBe(before);
    const line = page.getByRole('slider', { name: 'Generator starts at' });
    const startSoc = Number(await line.getAttribute('aria-valuenow')) / 100;
    expect(startSoc).toBeGreaterThan(0.35);
    // the file is as it was until the trial is kept
    expect(await savedText(page)).toContain('startSoc: 0.3,');
    await page.getByRole('button', { name: 'Keep it in as filed' }).click();
    await page.waitForSelector('.trial', { state: 'detached' });
    const text = await savedText(page);
    expect(text).toContain(`startSoc: ${startSoc},`);
    const [filed] = simulateText(text);
    const { fuelL, runH, starts, curtailedKwh } = filed.ledger.totals;
    expect(after).toBe(`${grouped(fuelL)} L`);
    expect(await figureText(page, 'fuelL')).toBe(`${grouped(fuelL)} L`);
    expect(await figureText(page, 'runH')).toBe(`${grouped(runH)} h`);
    expect(await figureText(page, 'starts')).toBe(grouped(starts));
    expect(await figureText(page, 'curtailedKwh')).toBe(`${grouped(curtailedKwh)} kWh`);
  });

  it('duplicates, renames and changes an alternative; saved, all come out alike on the command line', async () => {
    const { page } = opened;
    await goTo(page, 'Alternatives');
    await page.getByRole('button', { name: '24 modules', exact: true }).click();
    await page.getByRole('button', { name: 'Duplicate' }).click();
    await page.getByRole('heading', { name: 'In hand: 24 modules, again' }).waitFor();
    await page.getByLabel('Name', { exact: true }).fill('18 modules and late');
    await page.getByLabel('Name', { exact: true }).blur();
    await page.getByRole('heading', { name: 'In hand: 18 modules and late' }).waitFor();
    await goTo(page, 'The year');
    const modules = page.getByLabel('Battery modules, typed');
    await modules.fill('18');
    await modules.blur();
    await page
      .locator('.trial strong', { hasText: 'eighteen battery modules instead of twenty-four' })
      .waitFor();
    await page.getByRole('button', { name: 'Keep it in 18 modules and late' }).click();
    await page.waitForSelector('.trial', { state: 'detached' });
    await goTo(page, 'Alternatives');
    const row = page.locator('.side-by-side tr', { hasText: '18 modules and late' });
    await row.waitFor();
    expect(await row.locator('th small').textContent()).toContain(
      'eighteen battery modules instead of twelve',
    );
    const text = await savedText(page);
    // comments stay
    expect(text).toContain('# A farm, invented for demonstration');
    expect(text).toContain('# bare sheet steel');
    const said = simulateText(text);
    expect(said.map(({ name }) => name)).toContain('18 modules and late');
    await page.getByText('All figures', { exact: true }).click();
    const cells = page.locator('.all-figures tr[data-figure="fuelL"] td');
    const shown = (await cells.allTextContents()).map((cell) => /^[\d,]+ L/.exec(cell)?.[0]);
    expect(shown).toEqual(said.map(({ ledger }) => `${grouped(ledger.totals.fuelL)} L`));
  });

  it('moves the generator’s size with its fuel curve, and puts it back', async () => {
    const { page } = opened;
    await goTo(page, 'The year');
    await page.getByLabel('In hand').selectOption('as filed');
    await page.waitForSelector('.waiting', { state: 'detached' });
    const before = await figureText(page, 'fuelL');
    const size = page.getByLabel('Generator, kW, typed');
    await size.fill('10');
    await size.blur();
    await page.locator('.trial strong', { hasText: 'generator rating 10 kW instead of 20 kW' }).waitFor();
    await page.waitForSelector('.waiting', { state: 'detached' });
    expect(await figureText(page, 'fuelL')).not.toBe(before);
    await page.getByRole('button', { name: 'Put back' }).click();
    await page.waitForSelector('.trial', { state: 'detached' });
    await expect.poll(() => figureText(page, 'fuelL')).toBe(before);
  });

  it('shows a picked span, and tells why a run in it started', async () => {
    const { page } = opened;
    const map = page.getByRole('application');
    const box = (await map.boundingBox())!;
    // Saturday of the sixth line
    await page.mouse.click(box.x + box.width * (5.5 / 7), box.y + box.height * (5.5 / 53));
    await expect.poll(() => page.locator('#span-title').textContent()).toMatch(/^8 February: load/);
    await page.getByRole('button', { name: 'the dark week' }).click();
    await page.getByText(/generator runs: pick one/).click();
    await page.locator('.runs li button').first().click();
    await page.locator('.why h3', { hasText: /^Run \d+/ }).waitFor({ timeout: 60_000 });
    expect(await page.locator('.why').textContent()).toContain('It started because');
    expect(await page.locator('.why li').count()).toBeGreaterThan(1);
  });

  it('has put nothing on the console', () => {
    expect(opened.complaints).toEqual([]);
  });
});
