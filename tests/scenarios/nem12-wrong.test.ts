import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readNem12 } from '../../src/scenarios/read-nem12.ts';
import { bytes, channel, codes, day, doubts, errors, file, kwh, nem } from './small-nem12.ts';

/** Rules: AEMO, Meter Data File Format Specification NEM12 & NEM13, v2.6, as transcribed in public code. */
const sample = new Uint8Array(readFileSync(new URL('./samples/nem12_tiny.csv', import.meta.url)));
const text = new TextDecoder().decode(sample).replaceAll('\r', '');

describe('what is wrong is listed with its line', () => {
  const good = day('20240101', 1);
  const cut = good.split(',').slice(0, 30).join(',');
  it.each<[string, string[], string]>([
    [
      'a negative value',
      [channel(), day('20240101', -1)],
      "f.csv:3: interval 1: found '-1'; expected a number of at least 0",
    ],
    [
      'an exponent',
      [channel(), day('20240101', '1e3')],
      "f.csv:3: interval 1: found '1e3'; expected a number of at least 0",
    ],
    [
      'two points',
      [channel(), day('20240101', '1.2.3')],
      "f.csv:3: interval 1: found '1.2.3'; expected a number of at least 0",
    ],
    [
      'thirteen digits',
      [channel(), day('20240101', '1234567890123')],
      "f.csv:3: interval 1: found '1234567890123'; expected a number of at least 0",
    ],
    [
      'a power no site has',
      [channel(), day('20240101', '123456789012')],
      'f.csv:3: NEM1201009 E1: found 123456789012 kWh in 30 min; expected at most 1000000 kW',
    ],
    [
      'a date that is none',
      [channel(), day('20240230', 1)],
      "f.csv:3: date: found '20240230'; expected CCYYMMDD",
    ],
    [
      'a length that is none',
      [channel('E1', 'kWh', 25), good],
      "f.csv:2: interval length: found '25'; expected 5, 15 or 30 minutes",
    ],
    [
      'a day without a channel',
      [good],
      'f.csv:2: 300: found a day without a channel; expected a 200 record before it',
    ],
    [
      'an unknown flag',
      [channel(), day('20240101', 1, 30, 'X,,')],
      "f.csv:3: quality: found 'X'; expected A, V, or E, F or S with two digits",
    ],
    [
      'a 400 record on its own',
      [channel(), '400,1,48,A,,', good],
      'f.csv:3: 400: found a quality without a day; expected a 300 record before it',
    ],
    [
      'a record of no kind',
      [channel(), good, '301,x'],
      "f.csv:4: record: found '301'; expected a record 100, 200, 300, 400, 500 or 900",
    ],
    [
      'two rows in one line',
      [channel(), `${good}20240101000000,${day('20240102', 1)}`],
      'f.csv:3: 300: found 55 more cells; expected four after the quality',
    ],
    [
      'two rows in one line, the first a channel',
      [`${channel()}300,20240101,1,1,A`],
      'f.csv:2: 200: found 4 more cells; expected nine after the 200',
    ],
    [
      'NEM13 records',
      [channel(), good, '250,1234567890,11'],
      'f.csv:4: file: found a 250 record; expected NEM12: interval data, not readings of a register',
    ],
    [
      'a day twice with other values',
      [channel(), good, day('20240101', 2)],
      'f.csv:4: 300: found 20240101 with other values than in line 3, neither of them newer; expected each day of a channel once',
    ],
  ])('%s', (_, records, sentence) => {
    const result = nem(file(...records));
    expect(errors(result)).toEqual([sentence]);
    expect(result.series).toEqual([]);
  });

  it.each<[string, Uint8Array, string]>([
    ['another version', bytes(text.replace('NEM12', 'NEM14')), "f.csv:1: 100: found 'NEM14'; expected NEM12"],
    [
      'NEM13',
      bytes('100,NEM13,1,A,B\n900\n'),
      'f.csv:1: file: found the header of NEM13; expected NEM12: interval data, not readings of a register',
    ],
    [
      'UTF-16',
      bytes(`\0${[...text].join('\0')}`),
      'f.csv: file: found zero bytes, as in UTF-16 or a program; expected plain text in ASCII or UTF-8',
    ],
    [
      'UTF-16 with its mark',
      Uint8Array.of(0xff, 0xfe, 49, 0),
      'f.csv: file: found text in UTF-16; expected plain text in ASCII or UTF-8',
    ],
    [
      'a zip archive',
      Uint8Array.of(0x50, 0x4b, 3, 4, 9),
      'f.csv: file: found a zip archive; expected plain text in ASCII or UTF-8: unpack it first',
    ],
    [
      'nothing',
      bytes(''),
      'f.csv: channels: found no days of a channel E or B; expected kWh or kW drawn (E) or sent (B)',
    ],
    [
      'only reactive channels',
      bytes(file(channel('K1', 'kVArh'), good)),
      'f.csv: channels: found no days of a channel E or B; expected kWh or kW drawn (E) or sent (B)',
    ],
  ])('%s', (_, whole, sentence) => {
    const result = readNem12(whole, 'f.csv');
    expect(errors(result)).toEqual([sentence]);
    expect(result.series).toEqual([]);
  });

  it('all of it at once', () => {
    const result = nem(
      file(channel(), day('20240230', 1), day('20240101', -1), 'x', channel('E2', 'kWh', 7)),
    );
    expect(codes(result)).toEqual(['date:3', 'value:4', 'record:5', 'interval-length:6']);
  });

  it('more registers over a longer time than memory holds', () => {
    const meters = Array.from({ length: 400 }, (_, i) => [
      channel('E1', 'kWh', 30, `NEM1${100_000 + i}`),
      day(i === 0 ? '19950101' : '20240101', 1),
    ]);
    expect(errors(nem(file(...meters.flat())))[0]).toMatch(/registers: found 400 over \d+ steps/);
  });

  it('up to a hundred errors, then no further', () => {
    const result = nem(file(...new Array(5000).fill('x')));
    expect(errors(result).length).toBe(100);
    expect(codes(result).at(-1)).toBe('more:101');
  });

  it.each<[string, string, string]>([
    ['cut within its values', cut, '28 of 48 values'],
    ['a value short', good.replace('1,1,', '1,'), '47 of 48 values'],
    ['a value too many', good.replace('1,1,', '1,1,1,'), 'more than 48 values'],
    ['cut before its quality', good.slice(0, good.indexOf(',A')), '48 values without a quality'],
  ])('a row %s is left out, doubted and filled as a gap', (_, row, got) => {
    const rows = [day('20231231', 2), row, day('20240102', 3)];
    const result = nem(file(channel(), ...rows));
    expect(errors(result)).toEqual([]);
    expect(doubts(result)).toEqual([
      `f.csv:4: 300: found ${got}; expected 48 values and a quality; the day is left out`,
    ]);
    expect(result.sheet).toMatchObject({ filled: 48 });
    // the same time the day before
    expect(kwh(result, 'loadKw')).toBe(48 * (2 + 2 + 3));
  });

  it('an empty cell is a gap of one interval', () => {
    const result = nem(file(channel(), good.replace(',1,1,1,', ',1,,1,'), day('20240102', 1)));
    expect(result.sheet?.gaps).toEqual([
      {
        startS: Date.UTC(2023, 11, 31, 14, 30) / 1000,
        steps: 1,
        filledBy: 'straight line between neighbours',
      },
    ]);
    expect(kwh(result, 'loadKw')).toBeCloseTo(96, 12);
  });

  it('lost days are filled and counted up to the longest gap allowed, and refused beyond', () => {
    const without = (...lost: number[]) =>
      file(
        channel(),
        ...[1, 2, 3, 4, 5, 6, 7].filter((d) => !lost.includes(d)).map((d) => day(`2024050${d}`, d)),
      );
    const oneGone = nem(without(4));
    expect(oneGone.issues).toEqual([]);
    expect(oneGone.sheet).toMatchObject({ filled: 48, duplicates: 0 });
    expect(kwh(oneGone, 'loadKw')).toBe(48 * (1 + 2 + 3 + 3 + 5 + 6 + 7));
    expect(errors(nem(without(3, 4, 5)))[0]).toMatch(/no values for 72 h from 2024-05-02T14:00/);
    expect(errors(nem(without(4), { maxGapMin: 60 }))[0]).toMatch(/gaps of at most 60 min/);
  });

  it('an array that came later: nothing sent before, counted and doubted; a load that came later is refused', () => {
    const year = [1, 2, 3, 4, 5, 6, 7, 8].map((d) => `2024050${d}`);
    const late = (first: string, second: string) =>
      nem(
        file(
          channel(first),
          ...year.map((date) => day(date, 1)),
          channel(second),
          ...year.slice(5).map((date) => day(date, 2)),
        ),
      );
    const array = late('E1', 'B1');
    expect(errors(array)).toEqual([]);
    expect(doubts(array)).toEqual([
      'f.csv: NEM1201009 B1: found a register that begins at 2024-05-05T14:00Z; expected values all the time; 0 where it has none',
    ]);
    expect(kwh(array, 'generationKw')).toBe(48 * 2 * 3);
    expect(array.sheet?.filled).toBe(5 * 48);
    expect(errors(late('B1', 'E1'))[0]).toMatch(/NEM1201009 E1: found no values for 120 h/);
    expect(kwh(late('E1', 'E2'), 'loadKw')).toBe(48 * (8 + 2 * 3));
  });

  it('a file without its end, channels named and absent, days out of order, one value far above all others', () => {
    expect(codes(nem(text.replace('900\n', '')))).toEqual(['no-end:10']);
    const absent = nem(file(channel().replace(',E1,E1,E1,', ',E1E2B1K1,E1,E1,'), good));
    expect(doubts(absent)).toEqual([
      'f.csv:2: channels: found nothing of NEM1201009 E2, NEM1201009 B1; expected a 200 record of each channel that the configuration names',
    ]);
    expect(codes(nem(file(channel(), day('20240102', 1), good)))).toEqual(['order:4']);
    const outlier = nem(file(channel(), good.replace(',1,1,', ',1,999,'), day('20240102', 1)));
    expect(doubts(outlier)).toEqual([
      'f.csv: NEM1201009 E1: found 1998 kW at 2023-12-31T14:30Z; expected values nearer the mean of the others, 2 kW',
    ]);
    expect(codes(nem(file(channel('B1'), good)))).toEqual(['no-load:-']);
  });
});
