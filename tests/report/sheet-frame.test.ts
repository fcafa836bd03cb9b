/** What every page that answers one question about a site has around its answer. */
import { parseHTML } from 'linkedom';
import { expect, it } from 'vitest';
import { html } from '../../src/report/html.ts';
import { sheet } from '../../src/report/page/sheet.ts';

/** The page with ordinary spaces where it keeps a number and its unit on one line. */
const read = (page: string) => parseHTML(page.replaceAll('\u00a0', ' ')).document;

const parts = {
  site: { name: 'Dairy <1>', note: 'What for?' },
  kind: 'tune',
  how: 'a year in steps of 5 min',
  question: 'Where should it start?',
  title: 'where it starts',
  contents: [{ id: 'answer', text: 'In short' }],
  main: html`<section id="answer"><h2>In short</h2></section>`,
  made: { version: '1.2.3', inputsHash: 'abc' },
  stepMin: 5,
};

it('says what is asked, of which site, how it was made, and where things stand', () => {
  const document = read(sheet({ ...parts, alternative: 'more & less' }));
  expect(document.title).toBe('Dairy <1>: where it starts');
  expect(document.querySelector('h1')?.textContent).toBe('Dairy <1>: more & less');
  expect(document.querySelector('header')?.textContent).toContain('Darkweek tune · a year in steps of 5 min');
  expect(document.querySelector('.question')?.textContent).toBe('Where should it start?');
  for (const link of document.querySelectorAll('nav a, .skip'))
    expect(document.querySelector(link.getAttribute('href') ?? ''), link.textContent ?? '').not.toBeNull();
  expect(document.querySelector('footer')?.textContent).toBe(
    'Made by Darkweek 1.2.3 from inputs abc in steps of 5 min. The same inputs and version give the same figures.',
  );
});

it('leaves out what there is not', () => {
  const document = read(
    sheet({ ...parts, site: { name: 'Hut', note: '' }, stepMin: null, also: 'on any machine' }),
  );
  expect(document.querySelector('header')?.textContent).not.toContain('What for?');
  expect(document.querySelector('footer')?.textContent).toBe(
    'Made by Darkweek 1.2.3 from inputs abc. The same inputs and version give the same figures, on any machine.',
  );
});
