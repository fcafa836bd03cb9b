/**
 * How long the workbench takes, in headless Chromium: from opening its file to the first picture, and from a movement
 * of the hand to the frame that shows what it does, over 200 drags, at the farm's own step and at one minute.
 * `npm run build && npm run bench:workbench`
 */
import { readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright';

const PAGE = new URL('../../dist/workbench.html', import.meta.url);
const ARGS = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'];
const DRAGS = 200;

const print = (text) => process.stdout.write(`${text}\n`);
const at = (sorted, share) =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(1);

const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ARGS });
print(`page: ${(statSync(fileURLToPath(PAGE)).size / 1e6).toFixed(2)} MB`);

const firsts = [];
for (let i = 0; i < 5; i++) {
  const { page, context } = await open();
  firsts.push(await page.evaluate(() => performance.getEntriesByName('first picture')[0].startTime));
  await context.close();
}
firsts.sort((a, b) => a - b);
print(`first picture after opening from disk: median ${at(firsts, 0.5)} ms, most ${at(firsts, 1)} ms`);
for (const stepMin of [5, 1]) await drags(stepMin);
await browser.close();

async function open() {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, offline: true });
  const page = await context.newPage();
  await page.goto(PAGE.href);
  await page.waitForFunction(() => performance.getEntriesByName('first picture').length > 0);
  return { page, context };
}

async function drags(stepMin) {
  const { page, context } = await open();
  const go = (view) => page.getByRole('navigation').getByRole('button', { name: view }).click();
  if (stepMin !== 5) {
    await go('The site');
    const area = page.getByLabel('Text of the site file');
    await area.fill((await area.inputValue()).replace('stepMin: 5', `stepMin: ${stepMin}`));
    await area.blur();
    await go('The year');
    await page.waitForSelector('.waiting', { state: 'detached' });
    await page.waitForTimeout(3000);
  }
  const box = await page.getByRole('slider', { name: 'Generator starts at' }).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  let cpuBefore = 0;
  // the first ones are the engine getting warm, which a person does not wait for either
  for (let i = 0; i < DRAGS + 20; i++) {
    if (i === 20) {
      await page.evaluate(() => performance.clearMeasures());
      cpuBefore = await cpuMs();
    }
    const before = await page.evaluate(() => performance.getEntriesByName('drag to picture').length);
    await page.mouse.move(x, y - 4 - 3 * (i % 20));
    await page.waitForFunction((n) => performance.getEntriesByName('drag to picture').length > n, before);
  }
  const cpu = ((await cpuMs()) - cpuBefore) / DRAGS;
  await page.mouse.up();
  const ms = await page.evaluate(() => ({
    drag: performance.getEntriesByName('drag to picture').map((entry) => entry.duration),
    sim: performance.getEntriesByName('simulation').map((entry) => entry.duration),
  }));
  for (const list of [ms.drag, ms.sim]) list.sort((a, b) => a - b);
  const all = (list) => `${at(list, 0.5)} / ${at(list, 0.95)} / ${at(list, 1)}`;
  print(
    `drag to picture at ${stepMin} min [ms], median / 95th percentile / most: ${all(ms.drag)} of ${ms.drag.length}`,
  );
  print(`  the simulation alone: ${all(ms.sim)}`);
  print(`  processor time a drag, page and worker together, asking for it included: ${cpu.toFixed(1)}`);
  await context.close();
}

/** Used so far by the processes of pages [ms]: what a drag takes of a machine that others keep busy. */
async function cpuMs() {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  const ticks = processInfo
    .filter(({ type }) => type === 'renderer')
    .map(({ id }) => readFileSync(`/proc/${id}/stat`, 'utf8').split(') ')[1].split(' '))
    .map((stat) => Number(stat[11]) + Number(stat[12]));
  return Math.max(...ticks) * 10;
}
