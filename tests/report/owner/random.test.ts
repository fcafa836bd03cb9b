/** The owner's report over hundreds of random results: grammar, and nothing said of what is not there. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hasMoney } from '../../../src/report/facts.ts';
import { ownerReport } from '../../../src/report/owner/page.ts';
import type { OwnerSource } from '../../../src/report/owner/source.ts';
import { LANGUAGES } from '../../../src/report/texts/all.ts';
import type { Texts } from '../../../src/report/texts/text.ts';
import { randomOwner } from './random-owner.ts';
import { readOwnerPage } from './read-page.ts';

const LOCALES: Record<string, string> = { en: 'en-AU', de: 'de-DE' };

/** Words that betray a part of a site. */
const PARTS: Record<string, Record<'battery' | 'generator' | 'tank' | 'array' | 'cabinet', RegExp>> = {
  en: {
    battery: /batter/i,
    generator: /diesel|\bfuel\b|oil and filters|exhaust|it starts|test run/i,
    tank: /\btank/i,
    array: /panel|the sun\b/i,
    cabinet: /cabinet/i,
  },
  de: {
    battery: /batterie/i,
    generator: /diesel(?!be)|öl und filter|abgas|er startet|probelauf/i,
    tank: /\btank/i,
    array: /solarmodul|die sonne\b/i,
    cabinet: /schrank/i,
  },
};

function singularsOf({ units }: Texts): [string, string][] {
  return Object.values(units).flatMap(({ one, other }): [string, string][] =>
    one && one !== other ? [[one, other]] : [],
  );
}

function grammar(text: string, texts: Texts): string[] {
  const wrong = [
    ...text.matchAll(/.{0,25}(?:NaN|undefined|null|Infinity|\[object|\{|\}).{0,10}/g),
    ...text.matchAll(/.{0,25}(?: [.,;:]|\.\.|,\.|,,|\( | \)).{0,10}/g),
  ].map(([found]) => found);
  for (const [one, other] of singularsOf(texts)) {
    wrong.push(
      ...[...text.matchAll(new RegExp(`(?<![\\d.,])1 ${other}(?![a-zäöü])`, 'g'))].map(([found]) => found),
    );
    const many = new RegExp(`(?<![\\d.,])(?!1 )\\d[\\d.,]* ${one}(?![a-zäöü])`, 'g');
    wrong.push(...[...text.matchAll(many)].map(([found]) => found));
  }
  return wrong;
}

/** The page without the parts that tell of other choices. */
function ownText(source: OwnerSource, page: string, texts: Texts): string {
  const { sections, text } = readOwnerPage(page);
  return text
    .replace(sections.get(texts.headings.alternatives) ?? '', '')
    .replaceAll(source.study.site.name, '');
}

describe.each(Object.entries(LANGUAGES))('random results in %s', (language, texts) => {
  it('are told in whole sentences, of what is there, without contradiction', () => {
    let pages = 0;
    fc.assert(
      fc.property(randomOwner, (source) => {
        const page = ownerReport(source, { locale: LOCALES[language], texts }, '2026-01-31');
        const { text, figures, sentences } = readOwnerPage(page);
        expect(grammar(text, texts)).toEqual([]);
        for (const said of sentences) expect(said).toMatch(/^[\p{Lu}“„\d].*[.!…]$/su);
        const values = new Map<string, string>();
        for (const { key, value } of figures) {
          const same = key.replace(/^(?:choice\.(\d+)|case\.asPlanned)\.(?!difference)/, (whole, place) =>
            place === undefined || Number(place) === source.proposed ? '' : whole,
          );
          expect([same, values.get(same) ?? String(value)]).toEqual([same, String(value)]);
          values.set(same, String(value));
        }
        absent(source, ownText(source, page, texts), language);
        pages++;
      }),
      { numRuns: 120 },
    );
    expect(pages).toBeGreaterThanOrEqual(120);
  }, 240_000);
});

function absent(source: OwnerSource, text: string, language: string): void {
  const { site } = source.alternatives[source.proposed];
  const words = PARTS[language];
  const found = (part: keyof typeof words) =>
    text.match(new RegExp(`.{0,40}${words[part].source}.{0,40}`, 'i'));
  if (site.battery === null) expect(found('battery')).toBeNull();
  if (site.generator === null) expect(found('generator')).toBeNull();
  if (site.tank === null || site.generator === null) expect(found('tank')).toBeNull();
  if (site.arrays.length === 0) expect(found('array')).toBeNull();
  if (site.cabinet === null) expect(found('cabinet')).toBeNull();
  if (!hasMoney(source.study)) expect(text).not.toMatch(/[$€]|\bAUD\b|\bkr\b/);
}
