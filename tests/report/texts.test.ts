/** The languages of the owner's report, and how each writes quantities. */
import { describe, expect, it } from 'vitest';
import { QuantityWriter } from '../../src/report/owner/quantity.ts';
import { LANGUAGES, textsOf } from '../../src/report/texts/all.ts';
import { DE } from '../../src/report/texts/de.ts';
import { EN } from '../../src/report/texts/en.ts';

function leaves(value: unknown, path = ''): [string, string][] {
  if (typeof value === 'string') return [[path, value]];
  return Object.entries(value as Record<string, unknown>).flatMap(([key, each]) =>
    leaves(each, `${path}.${key}`),
  );
}

const placeholders = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map(([, name]) => name).sort();

describe('languages', () => {
  it.each(Object.entries(LANGUAGES))(
    '%s has every text of English, with the same figures in it',
    (_, texts) => {
      const english = leaves({ ...EN, units: {} });
      const other = new Map(leaves({ ...texts, units: {} }));
      expect([...other.keys()].sort()).toEqual(english.map(([key]) => key).sort());
      for (const [key, text] of english)
        expect([key, placeholders(other.get(key)!)]).toEqual([key, placeholders(text)]);
      expect(Object.keys(texts.units).sort()).toEqual(Object.keys(EN.units).sort());
    },
  );

  it('no text of German was left in English', () => {
    // a name with its figure, and units, are alike in both
    const alike = new Set(['.sentences.arrayItem']);
    const german = new Map(leaves({ ...DE, units: {} }));
    const same = leaves({ ...EN, units: {} }).filter(
      ([key, text]) => german.get(key) === text && !alike.has(key),
    );
    expect(same).toEqual([]);
  });

  it('are found by locale, and only by theirs', () => {
    expect(textsOf('de-AT')).toBe(DE);
    expect(textsOf('en')).toBe(EN);
    expect(textsOf('fr-FR')).toBeNull();
  });
});

describe('quantities', () => {
  const plain = (text: string) => text.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');
  const english = new QuantityWriter(EN, 'en-AU', '$');
  const german = new QuantityWriter(DE, 'de-DE', '€');
  const american = new QuantityWriter(EN, 'en-US', '$');

  it.each([
    ['hours', 0, '0 hours'],
    ['hours', 1, '1 hour'],
    ['hours', 0.97, '1 hour'],
    ['hours', 1.04, '1 hour'],
    ['hours', 1.05, '1.1 hours'],
    ['hours', 9.96, '10 hours'],
    ['hours', 438.9, '439 hours'],
    ['hours', 0.001, 'under 0.01 hours'],
    ['times', 1, '1 time'],
    ['times', 0.5, '0.5 times'],
    ['times', 0.004, 'under 0.1 times'],
    ['litres', 1204.4, '1,204 litres'],
    ['money', 1900.4, '$1,900'],
    ['money', 9.06, '$9.06'],
    ['money', -24.6, '−$25'],
    ['money', 0, '$0'],
    ['moneyPerLitre', 1.6, '$1.60 a litre'],
    ['share', 0.456, '46 %'],
    ['share', 0.0046, '0.5 %'],
    ['length', 40 / 60, '40 minutes'],
    ['length', 1 / 60, '1 minute'],
    ['length', 1, '1 hour'],
    ['length', 2.25, '2 hours 15 minutes'],
    ['length', 84, '3.5 days'],
    ['length', 0.001, 'under 1 minute'],
    ['plain', 12, '12'],
  ] as const)('in English %s %d: %s', (kind, value, text) => {
    expect(plain(english.write(kind, value))).toBe(text);
  });

  it.each([
    ['hours', 1, '1 Stunde'],
    ['hours', 4.25, '4,3 Stunden'],
    ['litres', 1204.4, '1.204 Liter'],
    ['money', 1900.4, '1.900 €'],
    ['moneyPerLitre', 1.6, '1,60 € je Liter'],
    ['runs', 1, '1 Lauf'],
    ['length', 2.25, '2 Stunden 15 Minuten'],
    ['hours', 0.001, 'unter 0,01 Stunden'],
  ] as const)('in German %s %d: %s', (kind, value, text) => {
    expect(plain(german.write(kind, value))).toBe(text);
  });

  it('take the gallons of the United States: 231 cubic inches, 3.785411784 L', () => {
    expect(plain(american.write('litres', 3.785411784 * 250))).toBe('250 gallons');
    expect(plain(american.write('moneyPerLitre', 1))).toBe('$3.79 a gallon');
  });

  it.each([
    ['AUD', 'en-AU', 'AUD 1,900'],
    ['AUD', 'de-DE', '1.900 AUD'],
    ['kr', 'de-DE', '1.900 kr'],
    ['kr', 'en-GB', 'kr 1,900'],
  ] as const)('write the currency %s in %s as %s', (currency, locale, text) => {
    expect(plain(new QuantityWriter(EN, locale, currency).write('money', 1900))).toBe(text);
  });

  it('refuse what is no number', () => {
    expect(() => english.write('hours', Number.NaN)).toThrow();
    expect(() => english.write('money', Number.POSITIVE_INFINITY)).toThrow();
  });
});
