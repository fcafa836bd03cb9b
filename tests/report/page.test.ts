import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { reportPage } from '../../src/report/page.ts';
import { fixtureStudy } from './fixture.ts';

const study = fixtureStudy();
const page = reportPage(study);
const { document } = parseHTML(page);

/** What a person reads, a line for each block. */
function readText(html: string): string {
  return html
    .replace(/<head>.*?<\/head>/s, '')
    .replace(/<svg.*?<\/svg>/gs, '')
    .replace(/(<\/summary>).*?<\/details>/gs, '$1')
    .replace(/<\/(td|th)>/g, ' | ')
    .replace(/<\/(p|h\d|li|tr|caption|figcaption|summary|small)>/g, '\n')
    .replace(/<[^>]+>/g, '')
    .replace(/&#(\d+);/g, (_, code) => String.fromCharCode(Number(code)))
    .replaceAll('\u00a0', ' ')
    .split('\n')
    .map((line) => line.replace(/\s+/g, ' ').trim())
    .filter((line) => line !== '' && line !== '|')
    .join('\n');
}

describe('the report page', () => {
  it('reads as it did', async () => {
    const small = fixtureStudy({ stepMin: 15, alternatives: 2 });
    await expect(readText(reportPage(small))).toMatchFileSnapshot('page-text.txt');
  });

  it('is one file that needs no network and no script', () => {
    expect(page).not.toMatch(/<script|<link|<iframe|<img|@import|src=|https?:(?!\/\/www\.w3\.org\/)/);
    expect(page).not.toMatch(/url\((?!#)/);
  });

  it('stays small', () => {
    expect(page.length).toBeLessThan(1_500_000);
  });

  it('says the same again of the same study', () => {
    expect(reportPage(study)).toBe(page);
  });

  it('has unique ids, and links that lead somewhere', () => {
    const ids = [...document.querySelectorAll('[id]')].map((element) => element.id);
    expect(new Set(ids).size).toBe(ids.length);
    const links = [...document.querySelectorAll('a[href]')].map((link) => link.getAttribute('href') ?? '');
    expect(links.length).toBeGreaterThan(8);
    for (const link of links) expect(ids).toContain(link.slice(1));
  });

  it('carries version, inputs, step, doubts and gaps', () => {
    const text = readText(page);
    expect(text).toContain('Made by Darkweek 0.1.0 from inputs 3f9a0c51d2e87b64 in steps of 5 min');
    expect(text).toContain('gap of 1 h from 10 February 2025, 00:00: filled by a straight line');
    expect(text).toContain('farm-load.csv:11522: load kW: found 12 missing steps');
  });

  it('carries the cautions', () => {
    const text = readText(page);
    for (const words of [
      'design aid, not a wiring design',
      'can kill',
      'licensed people',
      'carbon monoxide',
      'interlocked',
      'starts by itself',
      'stay hot',
      'Earthing',
    ])
      expect(text).toContain(words);
  });

  it('lists every generator run of every alternative', () => {
    const rows = [...document.querySelectorAll('details:not(.fold,.checks) tbody tr')].length;
    const runs = study.alternatives.reduce((sum, { ledger }) => sum + Math.min(ledger.runs.length, 400), 0);
    expect(rows).toBeGreaterThan(0.3 * runs);
    const few = study.alternatives.findIndex(({ ledger }) => ledger.runs.length < 400);
    const section = document.getElementById(`alternative-${few + 1}`);
    expect(section?.querySelectorAll('details:not(.fold,.checks) tbody tr').length).toBe(
      study.alternatives[few].ledger.runs.length,
    );
  });

  it('takes names as text, not as markup', () => {
    const hostile = fixtureStudy({ stepMin: 60, days: 9, alternatives: 1 });
    hostile.site.name = '<script>alert("x")</script>';
    hostile.alternatives[0].name = '<b>&';
    const html = reportPage(hostile);
    expect(html).not.toMatch(/<script|<b>&/);
    expect(readText(html)).toContain('<script>alert("x")</script>');
  });

  it('draws the whole run where it is shorter than a week, and says no dark week', () => {
    const text = readText(reportPage(fixtureStudy({ days: 3, alternatives: 1 })));
    expect(text).toContain('Step by step');
    expect(text).not.toContain('The dark week');
  });

  it('marks starts on a peak as understated wherever they are shown, when the load data are coarse', () => {
    const coarse = fixtureStudy({ stepMin: 30, alternatives: 2 });
    const text = readText(reportPage(coarse));
    expect(text).toMatch(/Generator starts \*/);
    expect(text).toContain('starts at least ');
    expect(text).toMatch(/At least \d+ starts? on a high load/);
    expect(text).toContain('Starts on a high load are understated:');
    expect(readText(page)).not.toMatch(/nderstated|at least/);
  });
});
