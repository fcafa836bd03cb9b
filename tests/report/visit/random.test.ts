/** The visit's page and terminal over random visits: whole sentences, and nothing said of what is not there. */
import fc from 'fast-check';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { firstSentence } from '../../../src/report/visit/fault-lines.ts';
import { faultCheck } from '../../../src/report/visit/fault-words.ts';
import { visitPages } from '../../../src/report/visit/page.ts';
import { visitTerminal } from '../../../src/report/visit/terminal.ts';
import { FAULTS, type Visit } from '../../../src/scenarios/visit/visit.ts';
import { randomVisit } from './random-visit.ts';

/** Words that betray a part of a site. */
const PARTS: Record<keyof Visit['parts'], RegExp> = {
  generator: /generator|engine|\bfuel\b|exhaust|litre|tank holds/i,
  battery: /batter/i,
  array: /\barrays?\b/i,
  cabinet: /cabinet/i,
};

/** What names of columns, extensions and cautions say of other parts is left out. */
function readVisit(page: string) {
  const { document } = parseHTML(page.replaceAll('\u00a0', ' '));
  const main = document.querySelector('main')!;
  const paragraphs = [...main.querySelectorAll('p, li, dd')]
    .filter((each) => !each.closest('.key, .for'))
    .map((each) => (each.textContent ?? '').replace(/\s+/g, ' ').trim());
  const text = main.innerHTML.replace(/<svg.*?<\/svg>/gs, '').replace(/<[^>]+>/g, ' ');
  const drawings = [...main.querySelectorAll('svg.chart')];
  return { paragraphs, text, drawings, document };
}

function grammar(text: string): string[] {
  return [
    ...text.matchAll(/.{0,25}(?:NaN|undefined|null|Infinity|\[object|\{|\}).{0,10}/g),
    ...text.matchAll(/.{0,25}(?: [.,;:](?!\d)|\.\.|,\.|,,|\( | \)|\(\)).{0,10}/g),
    ...text.matchAll(/.{0,10}(?<![\d.,])1 (?:days|nights|runs|swings|starts|gaps|rows|settings|times)\b/g),
    ...text.matchAll(
      /(?<![\d.,])(?!1 )\d[\d,]* (?:day|night|run|swing|start|gap|row|setting)(?![a-z])(?! of| more).{0,10}/g,
    ),
  ].map(([found]) => found);
}

describe('random visits', () => {
  it('are told in whole sentences, of what is there, in drawings that hold', () => {
    let seen = 0;
    fc.assert(
      fc.property(randomVisit, (visit) => {
        const [{ html }] = visitPages(visit, null);
        const { paragraphs, text, drawings } = readVisit(html);
        expect(paragraphs.flatMap(grammar)).toEqual([]);
        for (const said of paragraphs)
          expect(said).toMatch(/^[\p{Lu}“\d−+].*[.!…)]$|^log\.csv|: found .*expected/su);
        for (const drawing of drawings) {
          expect(drawing.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
          expect(drawing.getAttribute('aria-label')).toMatch(/\d|kWh/);
        }
        const terminal = visitTerminal(visit, 80, false);
        expect(grammar(terminal.replace(/\n +/g, ' ')).filter((found) => !/ {2}/.test(found))).toEqual([]);
        expect(terminal.split('\n').length).toBeLessThanOrEqual(60);
        for (const line of terminal.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
        absent(visit, `${text} ${terminal}`);
        seen++;
      }),
      { numRuns: 120 },
    );
    expect(seen).toBeGreaterThanOrEqual(120);
  }, 240_000);
});

/** Columns of the log and what was asked to be added may name what the site has not. */
function absent(visit: Visit, all: string): void {
  const text = FAULTS.map(faultCheck)
    // what to check first is the same at every site
    .flatMap((check) => [check, firstSentence(check)])
    .reduce((rest, check) => rest.replaceAll(check, ''), all.replace(/\s+/g, ' '))
    .replace(/Columns: .*?\./gs, '')
    .replace(/\(for want of.*?\)|\(the log lacks.*?\)|\(too little.*?\)|\(not told apart.*?\)/gs, '')
    .replace(/If it were extended.*?(?=Leave looking)/s, '')
    .replace(/batteries, generators and\s+mains can kill/g, '')
    .replace(/those for stand-alone power systems.*?rules\./s, '');
  for (const [part, words] of Object.entries(PARTS))
    if (!visit.parts[part as keyof Visit['parts']])
      expect(text.match(new RegExp(`.{0,60}(?:${words.source}).{0,40}`, 'i'))?.[0], part).toBeUndefined();
}
