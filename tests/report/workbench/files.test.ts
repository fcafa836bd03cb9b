/** Files that are dropped, right and wrong; what survives a closed tab. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  dragThreshold,
  figureText,
  goTo,
  launch,
  newContext,
  openPage,
  savedText,
  settled,
  there,
} from './browser.ts';

const farm = readFileSync(resolve(import.meta.dirname, '../../../profiles/sites/farm.yaml'), 'utf8');
const sample = (name: string) => ({
  name,
  mimeType: 'text/plain',
  buffer: readFileSync(resolve(import.meta.dirname, '../../scenarios/samples', name)),
});
const site = (name: string, text: string) => ({ name, mimeType: 'text/yaml', buffer: Buffer.from(text) });

describe.skipIf(!there)('files in the workbench', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  it('says what is wrong in a broken site file, with lines, and leaves the open one alone', async () => {
    const { page, context, complaints } = await openPage(await newContext(browser));
    const before = await figureText(page, 'fuelL');
    await goTo(page, 'Files');
    const broken = farm.replace('startSoc: 0.3', 'startSoc: 30').replace('modules: 12', 'modlues: 12');
    await page.getByLabel('Choose files').setInputFiles(site('broken.yaml', broken));
    await page.getByRole('heading', { name: 'broken.yaml was not opened' }).waitFor();
    const list = (await page.locator('.care .issues').first().textContent()) ?? '';
    const line = (text: string) => broken.split('\n').findIndex((one) => one.includes(text)) + 1;
    expect(list).toContain(`broken.yaml:${line('modlues')}:`);
    expect(list).toContain("expected 'modules'");
    expect(list).toContain(`broken.yaml:${line('startSoc: 30')}:`);
    expect(list).toContain('0.3 for 30 %');
    await goTo(page, 'The year');
    expect(await figureText(page, 'fuelL')).toBe(before);
    // opened all the same it can be put right, and the picture stays the last good one
    await goTo(page, 'Files');
    await page.getByRole('button', { name: /^Open it all the same/ }).click();
    const text = page.getByLabel('Text of the site file');
    await text.fill(farm.replace('startSoc: 0.3', 'startSoc: 0.4'));
    await text.blur();
    await page.waitForSelector('[role=alert]', { state: 'detached' });
    await goTo(page, 'The year');
    await page.getByText('starts at 40 %').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('reads a meter file that is dropped, shows its doubts, and uses it as the load', async () => {
    const { page, context, complaints } = await openPage(await newContext(browser));
    const transfer = await page.evaluateHandle(
      ([name, text]) => {
        const data = new DataTransfer();
        data.items.add(new File([text], name));
        return data;
      },
      ['nem12_tiny.csv', sample('nem12_tiny.csv').buffer.toString('utf8')],
    );
    await page.dispatchEvent('.page', 'drop', { dataTransfer: transfer });
    await page.getByRole('heading', { name: 'nem12_tiny.csv' }).waitFor();
    expect(await page.locator('pre').first().textContent()).toContain('nem12');
    await page.getByRole('button', { name: 'Use it as the load' }).click();
    // a day of data does not cover the year: that is said, and the last good picture stays
    await page.getByRole('alert').waitFor();
    expect(await page.locator('.files .issues').last().textContent()).toContain('the whole period');
    await goTo(page, 'The year');
    expect(await figureText(page, 'fuelL')).toMatch(/ L$/);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('shows and keeps what a site says of its own log, and takes the log for nothing else', async () => {
    const { page, context, complaints } = await openPage(await newContext(browser));
    const before = await figureText(page, 'fuelL');
    await goTo(page, 'Files');
    // the load file of the farm has the same name as its log, in another folder
    const log = readFileSync(resolve(import.meta.dirname, '../../../profiles/logs/farm.csv'));
    await page
      .getByLabel('Choose files')
      .setInputFiles([{ name: 'farm.csv', mimeType: 'text/csv', buffer: log }, site('farm.yaml', farm)]);
    await expect
      .poll(() => page.getByRole('button', { name: 'The year', exact: true }).getAttribute('aria-current'))
      .toBe('page');
    await settled(page);
    expect(await figureText(page, 'fuelL')).toBe(before);
    await goTo(page, 'Files');
    await page.getByText('It is the site’s own log.').waitFor();
    expect(await page.getByRole('button', { name: /Use it as the/ }).count()).toBe(0);
    await goTo(page, 'The site');
    const group = page.locator('details.group', {
      has: page.locator('> summary', { hasText: /^the site's own log/ }),
    });
    await group.locator('> summary').click();
    expect(await group.getByLabel('file', { exact: true }).inputValue()).toBe('../logs/farm.csv');
    expect(await group.getByLabel('columns', { exact: true }).inputValue()).toContain('charge %');
    expect(await savedText(page)).toBe(farm);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('says of a file that is no site and no data what is wrong with it, and loses nothing', async () => {
    const { page, context, complaints } = await openPage(await newContext(browser));
    const before = await figureText(page, 'fuelL');
    await goTo(page, 'Files');
    const choose = page.getByLabel('Choose files');
    await choose.setInputFiles({
      ...{ name: 'photo.png', mimeType: 'image/png' },
      buffer: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 255]),
    });
    await page.getByText('It cannot be used as it is.').waitFor();
    expect(await page.locator('.issues').first().textContent()).toContain('Problem photo.png:1');
    for (const [name, text, words] of [
      ['list.yaml', '- a\n- b\n', 'found a list of 2; expected a group of site'],
      ['unclosed.yaml', 'site: [one\n', 'expected YAML or JSON'],
      ['nothing.yaml', '', 'Problem nothing.yaml:1:1'],
    ]) {
      await choose.setInputFiles(site(name, text));
      await page.getByRole('heading', { name: `${name} was not opened` }).waitFor();
      expect(await page.locator('.care .issues').first().textContent()).toContain(words);
    }
    await goTo(page, 'The year');
    expect(await figureText(page, 'fuelL')).toBe(before);
    expect(await savedText(page)).toBe(farm);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('says a wrong value beside it, and keeps the last good result', async () => {
    const { page, context, complaints } = await openPage(await newContext(browser));
    const before = await figureText(page, 'fuelL');
    await goTo(page, 'The site');
    const battery = page.locator('details.group', {
      has: page.locator('> summary', { hasText: /^battery(?! cabinets)/ }),
    });
    await battery.locator('> summary').click();
    const modules = battery.getByLabel('modules in parallel');
    await modules.fill('12 pieces');
    await modules.blur();
    await battery.getByText("Found '12 pieces'; expected a number without its unit: 12.").waitFor();
    await goTo(page, 'The year');
    expect(await figureText(page, 'fuelL')).toBe(before);
    await goTo(page, 'The site');
    await modules.fill('13');
    await modules.blur();
    await page.waitForSelector('[role=alert]', { state: 'detached' });
    expect(await savedText(page)).toBe(farm.replace('modules: 12', 'modules: 13'));
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('loses nothing when the tab is closed: edits, trial, span and files', async () => {
    const context = await newContext(browser);
    const first = await openPage(context);
    await goTo(first.page, 'Files');
    await first.page.getByLabel('Choose files').setInputFiles(sample('nem12_tiny.csv'));
    await first.page.getByRole('heading', { name: 'nem12_tiny.csv' }).waitFor();
    await goTo(first.page, 'Alternatives');
    await first.page.getByRole('button', { name: 'Duplicate' }).click();
    await first.page.getByRole('heading', { name: 'In hand: as filed, again' }).waitFor();
    await goTo(first.page, 'The year');
    await dragThreshold(first.page, 'starts', -24);
    const fuel = await figureText(first.page, 'fuelL');
    const words = await first.page.locator('.trial strong').textContent();
    const text = await savedText(first.page);
    await first.page.close();
    const second = await openPage(context);
    await expect.poll(() => figureText(second.page, 'fuelL')).toBe(fuel);
    expect(await second.page.locator('.trial strong').textContent()).toBe(words);
    expect(await savedText(second.page)).toBe(text);
    await second.page.reload();
    await settled(second.page);
    await expect.poll(() => figureText(second.page, 'fuelL')).toBe(fuel);
    await goTo(second.page, 'Files');
    expect(await second.page.locator('main').textContent()).toContain('nem12_tiny.csv');
    expect([...first.complaints, ...second.complaints]).toEqual([]);
    await context.close();
  });

  it('begins with an empty site, which can be simulated and filled in', async () => {
    const { page, context, complaints } = await openPage(await newContext(browser));
    await goTo(page, 'Files');
    await page.getByRole('button', { name: 'An empty site' }).click();
    await page.getByRole('heading', { level: 1, name: 'New site' }).waitFor();
    await expect.poll(() => figureText(page, 'fuelL')).toMatch(/ L$/);
    await goTo(page, 'The site');
    const arrays = page
      .locator('details.group', { has: page.locator('> summary', { hasText: /^arrays/ }) })
      .first();
    await arrays.locator('> summary').click();
    await arrays.getByRole('button', { name: 'add to arrays' }).click();
    await arrays.locator('summary', { hasText: 'new' }).waitFor();
    expect(await savedText(page)).toContain('name: new');
    expect(complaints).toEqual([]);
    await context.close();
  });
});
