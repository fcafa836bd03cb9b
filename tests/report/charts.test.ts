/** Every drawing, of a simulated year and of random studies without one part or another. */
import fc from 'fast-check';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { yearSpan } from '../../src/report/charts/year-frame.ts';
import { reportPage } from '../../src/report/page.ts';
import { makeView } from '../../src/report/view.ts';
import { fixtureStudy } from './fixture.ts';
import { randomStudy } from './random-study.ts';

const page = reportPage(fixtureStudy({ stepMin: 15 }));

function drawingsOf(html: string): Element[] {
  return [...parseHTML(html).document.querySelectorAll('svg.chart')] as unknown as Element[];
}

describe('the drawings of a year', () => {
  const drawings = drawingsOf(page);

  it('are all there: seven to compare, ten for each of four alternatives', () => {
    // a week and a line of costs are drawn twice: wide, and narrow for a phone
    expect(drawings).toHaveLength(6 + 2 + 4 * (2 + 2 + 2 + 2 + 1));
  });

  it('hold no NaN and nothing undefined', () => {
    for (const drawing of drawings) expect(drawing.outerHTML).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('are images with a finding in their label, and no labels inside', () => {
    for (const drawing of drawings) {
      expect(drawing.getAttribute('role')).toBe('img');
      expect(drawing.getAttribute('aria-label')).toMatch(/\d|never|None/);
      expect(drawing.querySelectorAll('[aria-label]')).toHaveLength(0);
    }
  });

  it('have few marks, however many steps there are', () => {
    for (const drawing of drawings) expect(drawing.querySelectorAll('*').length).toBeLessThan(220);
  });

  it('take every colour from the page', () => {
    for (const drawing of drawings)
      for (const part of [...drawing.querySelectorAll('[fill], [stroke]')])
        for (const name of ['fill', 'stroke'])
          expect(part.getAttribute(name) ?? 'none').toMatch(
            /^(none|currentColor|var\(--[\w-]+\)|url\(#[\w-]+\))$/,
          );
  });

  it('use only colours and patterns that the page defines', () => {
    const defined = new Set([...page.matchAll(/(--[\w-]+):/g)].map((match) => match[1]));
    for (const [, name] of page.matchAll(/var\((--[\w-]+)\)/g)) expect(defined).toContain(name);
    const ids = new Set([...page.matchAll(/ id="([\w-]+)"/g)].map((match) => match[1]));
    for (const [, id] of page.matchAll(/url\(#([\w-]+)\)/g)) expect(ids).toContain(id);
  });
});

describe('the drawings of random studies', () => {
  it('hold no NaN, whatever the site lacks', () => {
    fc.assert(
      fc.property(randomStudy, (study) => {
        const html = reportPage(study);
        for (const drawing of drawingsOf(html))
          expect(drawing.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
        expect(html.replace(/<svg.*?<\/svg>/gs, '')).not.toMatch(/NaN|undefined|Infinity|>null|\[object/);
      }),
      { numRuns: 60 },
    );
  });
});

describe('the year of a longer run', () => {
  it('is the 365 days around the dark week', () => {
    const study = fixtureStudy({ stepMin: 60, days: 800, alternatives: 1 });
    const [result] = study.alternatives;
    const span = yearSpan(makeView(study), result);
    expect(span).toMatchObject({ days: 365, cut: true });
    expect(span.toStep - span.fromStep).toBe(365 * 24);
    expect(result.darkWeek?.fromStep).toBeGreaterThanOrEqual(span.fromStep);
    expect(result.darkWeek?.toStep).toBeLessThanOrEqual(span.toStep);
  });
});
