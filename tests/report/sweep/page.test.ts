import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { sweepPage } from '../../../src/report/sweep/page.ts';
import { CHOICE, KW, MODULES, madeOutcome, madeSweep, SOC } from './made-sweep.ts';

function page(...parts: Parameters<typeof madeSweep>) {
  const { document } = parseHTML(sweepPage(madeSweep(...parts), []).replaceAll('\u00a0', ' '));
  const captions = [...document.querySelectorAll('figcaption')].map((node) => node.textContent ?? '');
  return { document, captions };
}

/** The numbers printed in a drawing's cells, and the labels of its sides. */
const textsOf = (svg: Element) => [...svg.querySelectorAll('text')].map((node) => node.textContent ?? '');

describe('the page of a sweep', () => {
  it('has a map of each figure over two numbers, with its values in the cells', () => {
    const { document, captions } = page([KW, SOC]);
    expect(captions).toEqual([
      'Life-cycle cost over generator rating and generator started at, thousand $.',
      'Fuel, L.',
      'Generator starts.',
    ]);
    const [wide, narrow, fuel] = [...document.querySelectorAll('#pictures svg.chart')];
    for (const text of ['150', '154', '166', '152', '10', '25', '20', '40'])
      expect(textsOf(wide), text).toContain(text);
    expect(textsOf(narrow).length).toBeGreaterThan(10);
    expect(textsOf(fuel)).toContain('2,800');
    // nothing goes unserved anywhere: a sentence is enough
    expect(document.querySelector('#pictures')?.textContent).toContain(
      'Unserved energy: 0 kWh in every variant here.',
    );
    // the site as filed lies between two values of one number: a ring; the cheapest has a dashed frame
    expect(wide.querySelectorAll('circle')).toHaveLength(2);
    expect(wide.querySelectorAll('rect[stroke-dasharray], g[stroke-dasharray] rect')).toHaveLength(1);
  });

  it('marks variants that contradict themselves, and those that leave more unserved', () => {
    const cells = madeSweep([KW, SOC]).cells;
    cells[2] = { at: [0, 2], outcome: null, problems: ['start: found 0.4; expected less'] };
    cells[5].outcome = madeOutcome(151_000, 2500, 8);
    const { document } = page([KW, SOC], { cells });
    const key = document.querySelector('#pictures .key')?.textContent ?? '';
    expect(key).toContain('leaves more unserved than the limit');
    expect(key).toContain('contradicts itself');
    expect(document.querySelector('#basis')?.textContent).toContain('start: found 0.4; expected less');
    const svg = document.querySelector('#pictures svg.chart');
    expect(svg?.innerHTML).toContain('url(#hatch-saved)');
    expect(svg?.innerHTML).toContain('url(#hatch-unserved)');
  });

  it('has curves over one number, and stalks over choices', () => {
    const one = page([KW]);
    expect(one.captions[0]).toBe('Life-cycle cost over generator rating, $.');
    expect(one.document.querySelectorAll('#pictures svg.chart path[d]').length).toBeGreaterThan(3);
    const choice = page([CHOICE]);
    const [svg] = choice.document.querySelectorAll('#pictures svg.chart');
    expect(textsOf(svg)).toContain('24 modules');
  });

  it('has every pair, slices and cuts over three numbers, and dots for a sample', () => {
    const axes = [KW, MODULES, SOC];
    const { captions, document } = page(axes);
    expect(captions.filter((text) => text.startsWith('Least life-cycle cost over'))).toHaveLength(3);
    expect(
      captions.filter((text) => text.startsWith('Life-cycle cost at generator started at')),
    ).toHaveLength(3);
    expect(document.querySelector('#pictures')?.textContent).toContain(
      'Through the cheapest: generator started at 30 %',
    );
    const { cells } = madeSweep(axes);
    const sample = page(axes, { cells: cells.filter((_, i) => i % 7 === 0), best: null });
    expect(sample.captions).toHaveLength(3);
    // four variants lie at four places of each pair
    expect(sample.document.querySelectorAll('#pictures svg.chart path[fill^="#"]')).toHaveLength(12);
    expect(sample.document.querySelector('#basis')?.textContent).toContain('Of 24 variants 4 were run');
  });

  it('shows in each pair the cheapest of the variants at that place that serves enough', () => {
    const axes = [KW, SOC, MODULES];
    const { cells } = madeSweep(axes);
    for (const { at, outcome } of cells) {
      if (outcome === null) continue;
      // six modules are cheaper, and short
      outcome.lifeCycleCost = 100_000 * (1 + at[2]) + 1000 * (at[0] + 4 * at[1]);
      outcome.unservedKwh = at[2] === 0 ? 5 : 0;
    }
    const { document } = page(axes, { cells });
    const printed = textsOf([...document.querySelectorAll('#pictures svg.chart')][0]);
    for (const text of ['200', '203', '207', '211']) expect(printed).toContain(text);
    expect(printed).not.toContain('100');
  });

  it('is the same bytes for the same sweep, and never a number that is none', () => {
    const text = sweepPage(madeSweep([KW, SOC]), []);
    expect(sweepPage(madeSweep([KW, SOC]), [])).toBe(text);
    for (const axes of [[KW], [KW, SOC], [KW, SOC, MODULES], [CHOICE, SOC]])
      expect(sweepPage(madeSweep(axes), [])).not.toMatch(/NaN|undefined|Infinity/);
  });
});
