import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  alone,
  asEntered,
  asShown,
  decimalsFor,
  digits,
  duration,
  figure,
  type Kind,
  keepUnits,
} from '../../src/report/numbers.ts';
import { counted, listed, numberWord } from '../../src/report/words.ts';

const KINDS: Kind[] = [
  'count',
  'hours',
  'litres',
  'kwh',
  'kw',
  'share',
  'kg',
  'cycles',
  'money',
  'moneyPerKwh',
];

describe('figures', () => {
  it('are grouped in threes, with a true minus and no minus nothing', () => {
    expect(digits(1234567.891, 1)).toBe('1,234,567.9');
    expect(digits(-1234)).toBe('−1,234');
    expect(digits(-0.2)).toBe('0');
    expect(digits(0, 2)).toBe('0');
    expect(digits(999.96, 1)).toBe('1,000.0');
  });

  it('carry their unit', () => {
    expect(alone('litres', 1204.4)).toBe('1,204 L');
    expect(alone('share', 0.456)).toBe('46 %');
    expect(alone('money', 1899.6, '$')).toBe('$1,900');
    expect(alone('money', -1899.6, 'AUD')).toBe('−AUD 1,900');
    expect(alone('moneyPerKwh', 0.7149, 'kr')).toBe('kr 0.71/kWh');
    expect(alone('count', 12)).toBe('12');
  });

  it('say "under" of what is smaller than the last digit shown, and a dash where there is none', () => {
    expect(figure('kwh', 0.004, 1)).toBe('under 0.1 kWh');
    expect(figure('kwh', null, 1)).toBe('–');
    expect(figure('hours', Number.NaN, 1)).toBe('–');
  });

  it('show as many digits as keep the smallest beside them readable', () => {
    expect(decimalsFor('litres', [1200, 640, 0])).toBe(0);
    expect(decimalsFor('litres', [1200, 6.4, null])).toBe(1);
    expect(decimalsFor('kwh', [3, 0.04])).toBe(2);
    expect(decimalsFor('money', [96_000, 0.84])).toBe(0);
  });

  it('are never NaN, and asShown is what is shown', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS),
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        (kind, value, decimals) => {
          const text = figure(kind, value, decimals, '$');
          expect(text).not.toMatch(/NaN|undefined|−0(?![.\d])|−[$]?0\.?0*$/);
          if (text.startsWith('under')) return;
          const shown = Number(text.replace(/[$,]|[ /].*$/g, '').replace('−', '-'));
          expect(shown / (kind === 'share' ? 100 : 1)).toBeCloseTo(asShown(kind, value, decimals), 9);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('of time are in the unit that suits them', () => {
    expect(duration(0.001)).toBe('under 1 min');
    expect(duration(2 / 3)).toBe('40 min');
    expect(duration(0.9999)).toBe('1 h');
    expect(duration(2.25)).toBe('2 h 15 min');
    expect(duration(60)).toBe('2.5 days');
    expect(duration(500)).toBe('21 days');
  });

  it('that were entered keep the digits they have', () => {
    expect(asEntered(12)).toBe('12');
    expect(asEntered(0.1 + 0.2)).toBe('0.3');
    expect(asEntered(2.345)).toBe('2.345');
  });

  it('stay on one line with their unit', () => {
    expect(keepUnits('runs 210 h a year at AUD 900, 1 kWh')).toBe(
      'runs 210\u00a0h a year at AUD\u00a0900, 1\u00a0kWh',
    );
    expect(keepUnits('3 Lines, 4 had')).toBe('3 Lines, 4 had');
  });
});

describe('words', () => {
  it('count', () => {
    expect([0, 1, 12, 19, 20, 24, 99, 100].map(numberWord)).toEqual([
      'no',
      'one',
      'twelve',
      'nineteen',
      'twenty',
      'twenty-four',
      'ninety-nine',
      '100',
    ]);
    expect(counted('1', 'start')).toBe('1 start');
    expect(counted('at least 1', 'start')).toBe('at least 1 start');
    expect(counted('21', 'start')).toBe('21 starts');
    expect(counted('0', 'battery', 'batteries')).toBe('0 batteries');
  });

  it('list', () => {
    expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map(listed)).toEqual(['', 'a', 'a and b', 'a, b and c']);
  });
});
