import { describe, expect, it } from 'vitest';
import { channel, codes, day, doubts, errors, file, kwh, nem } from './small-nem12.ts';

/** Rules: AEMO, Meter Data File Format Specification NEM12 & NEM13, v2.6, as transcribed in public code. */
describe('quality', () => {
  it.each([
    ['A', 0],
    ['E52', 48],
    ['F14', 48],
    ['S53', 48],
  ])('a day of flag %s has %d estimated values', (flag, estimated) => {
    const result = nem(file(channel(), day('20240101', 1, 30, `${flag},,,20240102000000,`)));
    expect(result.sheet?.estimated).toBe(estimated);
  });

  it('a null day (N, in older files) is a gap, filled by rule', () => {
    const rows = [1, 2, 3].map((d) => day(`2024010${d}`, d === 2 ? 0 : 1, 30, d === 2 ? 'N,,' : 'A,,'));
    const result = nem(file(channel(), ...rows));
    expect(result.sheet).toMatchObject({ filled: 48, estimated: 0 });
    expect(result.sheet?.gaps).toEqual([
      { startS: Date.UTC(2024, 0, 1, 14) / 1000, steps: 48, filledBy: 'same time 1 day before' },
    ]);
    expect(kwh(result, 'loadKw')).toBe(3 * 48);
  });

  it('a null stretch within a day is a gap of that length', () => {
    const quality = ['400,1,46,A,,', '400,47,48,N,,'];
    const result = nem(file(channel(), day('20240101', 1, 30, 'V,,'), ...quality, day('20240102', 1)));
    expect(result.sheet?.gaps.map(({ steps }) => steps)).toEqual([2]);
  });

  const variable = day('20240101', 1, 30, 'V,,,20240102000000,');
  it.each([
    ['nothing', [], 'f.csv:3: 400: found quality of 0 intervals; expected of all 48'],
    ['not to the end', ['400,1,47,A,,'], 'f.csv:3: 400: found quality of 47 intervals; expected of all 48'],
    [
      'a hole',
      ['400,1,10,A,,', '400,12,48,A,,'],
      "f.csv:5: 400: found '12,48,A'; expected intervals from 11, at most to 48, and a flag but V",
    ],
    [
      'an overlap',
      ['400,1,10,A,,', '400,10,48,A,,'],
      "f.csv:5: 400: found '10,48,A'; expected intervals from 11, at most to 48, and a flag but V",
    ],
    [
      'too far',
      ['400,1,49,A,,'],
      "f.csv:4: 400: found '1,49,A'; expected intervals from 1, at most to 48, and a flag but V",
    ],
    [
      'backwards',
      ['400,1,10,A,,', '400,11,10,A,,'],
      "f.csv:5: 400: found '11,10,A'; expected intervals from 11, at most to 48, and a flag but V",
    ],
    [
      'V again',
      ['400,1,48,V,,'],
      "f.csv:4: 400: found '1,48,V'; expected intervals from 1, at most to 48, and a flag but V",
    ],
  ])('400 records must cover a variable day: %s', (_, rows, sentence) => {
    expect(errors(nem(file(channel(), variable, ...rows)))).toEqual([sentence]);
  });

  it('a reason that needs 400 records, without them', () => {
    const result = nem(file(channel(), day('20240101', 1, 30, 'A,79,,20240102000000,')));
    expect(doubts(result)).toEqual([
      'f.csv:3: 300: found 1 days with reason 79, 89 or 61 alone; expected 400 records that tell which intervals the reason is about',
    ]);
  });

  it('is of no interest in a channel that is left out', () => {
    const rows = [channel('Q1', 'kVArh'), variable, '400,1,5,A,,', channel(), day('20240101', 1)];
    expect(codes(nem(file(...rows)))).toEqual(['left-out:2']);
  });
});
