import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { channel, codes, day, doubts, errors, file, kwh, nem } from './small-nem12.ts';

/** Rules: AEMO, Meter Data File Format Specification NEM12 & NEM13, v2.6, as transcribed in public code. */
const sample = new Uint8Array(readFileSync(new URL('./samples/nem12_tiny.csv', import.meta.url)));
const text = new TextDecoder().decode(sample).replaceAll('\r', '');

describe('what files have in the wild', () => {
  it('a byte-order mark, a blank first line, CRLF, and no 100 record', () => {
    const result = nem(`\uFEFF\r\n${text.slice(text.indexOf('\n') + 1).replaceAll('\n', '\r\n')}`);
    expect(doubts(result)).toEqual([
      'f.csv: 100: found no 100 record; expected one at the top; read all the same',
    ]);
    expect(kwh(result, 'loadKw')).toBeCloseTo(29.44, 12);
  });

  it('several files in one, with several ends: the same days twice count once, and are estimated once', () => {
    const twice = nem(`${text}\n${text}`);
    expect(errors(twice)).toEqual([]);
    expect(kwh(twice, 'loadKw')).toBeCloseTo(29.44, 12);
    expect(twice.sheet).toMatchObject({ duplicates: 4 * 48, estimated: 22 });
    expect(codes(twice)).toEqual(['duplicates:15', 'duplicates:21']);
    const next = nem(`${file(channel(), day('20240101', 1))}${file(channel(), day('20240102', 2))}`);
    expect(next.issues).toEqual([]);
    expect(kwh(next, 'loadKw')).toBe(48 + 96);
  });

  it.each([
    [5, 288],
    [10, 144],
    [15, 96],
    [30, 48],
    [60, 24],
  ])('intervals of %d minutes', (minutes, count) => {
    const result = nem(file(channel('E1', 'kWh', minutes), day('20240101', 0.25, minutes)));
    expect(result.issues).toEqual([]);
    expect(result.sheet?.axis).toMatchObject({ stepMin: minutes, count });
    expect(kwh(result, 'loadKw')).toBeCloseTo(0.25 * count, 12);
  });

  it('another interval length for the same channel: the finest step that all fall on', () => {
    const changed = (a: number, b: number) =>
      nem(
        file(channel('E1', 'kWh', a), day('20240101', 1, a), channel('E1', 'kWh', b), day('20240102', 1, b)),
      );
    expect(changed(15, 30).sheet?.axis.stepMin).toBe(15);
    expect(kwh(changed(15, 30), 'loadKw')).toBeCloseTo(96 + 48, 12);
    expect(changed(10, 15).sheet?.axis.stepMin).toBe(5);
    expect(kwh(changed(10, 15), 'loadKw')).toBeCloseTo(144 + 96, 12);
    expect(changed(10, 15).issues).toEqual([]);
  });

  it.each([
    ['WH', 0.048],
    ['Wh', 0.048],
    ['KWH', 48],
    ['MWh', 48_000],
    ['kW', 24],
    ['W', 0.024],
    ['MW', 24_000],
  ])('units: 48 half-hours of 1 %s are %d kWh', (unit, total) => {
    const result = nem(file(channel('E1', unit), day('20240101', 1)));
    expect(kwh(result, 'loadKw')).toBeCloseTo(total, 9);
    expect(errors(result)).toEqual([]);
    expect(codes(result)).toEqual(/h$/i.test(unit) ? [] : ['power:3']);
  });

  it('power beside energy of the same direction, which would count twice', () => {
    const both = [channel(), day('20240101', 1), channel('E2', 'kW'), day('20240101', 2)];
    const result = nem(file(...both));
    expect(kwh(result, 'loadKw')).toBe(48);
    expect(doubts(result)).toEqual([
      'f.csv:5: channel NEM1201009 E2 (power): found power beside energy; expected one; left out',
    ]);
  });

  it('several channels: drawn added up, sent apart, reactive and voltage counted and left out', () => {
    const channels = ['E1', 'E2', 'B1'].flatMap((suffix, i) => [channel(suffix), day('20240101', i + 1)]);
    const reactive = [channel('Q1', 'kVArh'), day('20240101', 9), day('20240102', 9)];
    // 10-minute voltage without a unit, as seen in real files
    const voltage = [channel('V1', '', 10), day('20240101', 240, 10)];
    const result = nem(file(...channels, ...reactive, ...voltage));
    expect(kwh(result, 'loadKw')).toBe(48 * (1 + 2));
    expect(kwh(result, 'generationKw')).toBe(48 * 3);
    expect(result.series.map(({ name }) => name)).toEqual(['NEM1201009 E1 + NEM1201009 E2', 'NEM1201009 B1']);
    expect(doubts(result)).toEqual([
      'f.csv:8: channel NEM1201009 Q1 in kVArh: found 2 days of a channel that is not energy or power drawn (E) or sent (B); expected kWh or kW; left out',
      'f.csv:11: channel NEM1201009 V1 in no unit: found 1 days of a channel that is not energy or power drawn (E) or sent (B); expected kWh or kW; left out',
    ]);
  });

  it('several meters: all added up with a doubt, or the one asked for, with or without check digit', () => {
    const both = file(
      channel('E1', 'kWh', 30, 'NEM1201009'),
      day('20240101', 1),
      channel('E1', 'kWh', 30, 'NEM1201010'),
      day('20240101', 2),
    );
    expect(kwh(nem(both), 'loadKw')).toBe(48 * 3);
    expect(doubts(nem(both))).toEqual([
      'f.csv: meters: found NEM1201009, NEM1201010; expected one meter (meter: ...); all were added up',
    ]);
    // check digit of NEM1201009 is 6, worked out by hand from the rule
    for (const meter of ['NEM1201009', 'nem12010096']) {
      expect(kwh(nem(both, { meter }), 'loadKw')).toBe(48);
      expect(nem(both, { meter }).issues).toEqual([]);
    }
    expect(errors(nem(both, { meter: 'NEM1201011' }))).toEqual([
      'f.csv: meter: found none of NEM1201011; expected one of NEM1201009, NEM1201010',
    ]);
  });

  it('a meter of eleven characters, whose check digit is looked at', () => {
    const eleven = (nmi: string) => nem(file(channel('E1', 'kWh', 30, nmi), day('20240101', 1)));
    expect(eleven('NEM12010096').issues).toEqual([]);
    expect(eleven('NEM12010096').series[0].name).toBe('NEM1201009 E1');
    expect(doubts(eleven('NEM12010095'))).toEqual([
      'f.csv:2: meter: found check digit 5 where 6 is right; expected 10 letters or digits',
    ]);
  });

  it('a day that comes again: the newer stays, whichever comes first', () => {
    const old = day('20240101', 1, 30, 'E52,,,20240102000000,');
    const fresh = day('20240101', 3, 30, 'A,,,20240203000000,');
    for (const rows of [
      [old, fresh],
      [fresh, old],
    ]) {
      const result = nem(file(channel(), ...rows));
      expect(kwh(result, 'loadKw')).toBe(48 * 3);
      expect(result.sheet).toMatchObject({ duplicates: 48, estimated: 0 });
      expect(doubts(result)[0]).toMatch(
        /48 intervals that are there twice, 48 of them with other values \(96\.000 kWh apart\)/,
      );
    }
    // a day elsewhere that does not say when it was made changes nothing
    const undatedToo = nem(file(channel(), fresh, old, day('20240102', 1, 30, 'A,,')));
    expect(kwh(undatedToo, 'loadKw')).toBe(48 * (3 + 1));
    // a newer estimate takes the place of what was measured: the meter was found wrong
    const corrected = day('20240101', 5, 30, 'S14,,,20240304000000,');
    const result = nem(file(channel(), fresh, corrected));
    expect(kwh(result, 'loadKw')).toBe(48 * 5);
    expect(result.sheet?.estimated).toBe(48);
    // neither says when it was made: what was measured stays
    const undated = nem(
      `${file(channel(), day('20240101', 1, 30, 'A,,'))}${file(channel(), day('20240101', 9, 30, 'S14,,'))}`,
    );
    expect(kwh(undated, 'loadKw')).toBe(48);
  });

  it('rows without their last two fields', () => {
    const result = nem(file(channel(), day('20240101', 1, 30, 'A,,')));
    expect(result.issues).toEqual([]);
  });

  it('time stamps that a spreadsheet has rounded', () => {
    const rounded = [1, 2, 3].map((d) => day(`2024010${d}`, 1, 30, 'A,,,2.0E+13,'));
    const result = nem(file(channel(), ...rounded));
    expect(kwh(result, 'loadKw')).toBe(3 * 48);
    expect(doubts(result)).toEqual([
      'f.csv:3: 300: found 3 days whose update times are not 14 digits; expected CCYYMMDDhhmmss',
    ]);
  });

  it('a record 500 and the trailing commas of a spreadsheet', () => {
    const result = nem(
      file(`${channel()},,,`, `${day('20240101', 1)},,,`, '500,A,RETNSRVCEORD1,20240101,1.5', ',,,,'),
    );
    expect(result.issues).toEqual([]);
    expect(kwh(result, 'loadKw')).toBe(48);
  });
});
