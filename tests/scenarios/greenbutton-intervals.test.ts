import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  block,
  codes,
  doubts,
  errors,
  espi,
  feed,
  hourly,
  kw,
  kwh,
  reading,
  readingType,
} from './small-greenbutton.ts';

const text = readFileSync(new URL('./samples/greenbutton_tiny.xml', import.meta.url), 'utf8');

describe('readings twice, missing or astray', () => {
  it('a reading outside a block would be lost: refused', () => {
    const stray = text
      .replace('</IntervalBlock>', '')
      .replace('<IntervalReading>', '</IntervalBlock><IntervalReading>');
    expect(errors(espi(stray))).toEqual([
      'f.xml: IntervalReading: found 4 outside a block or empty; expected each in an IntervalBlock of an entry',
    ]);
    expect(errors(espi(text.replace('<entry>', '<!-- <IntervalReading> --><entry>')))).toEqual([]);
  });

  it('a reading twice counts once, a hole is filled', () => {
    const lines = [reading(0, 100), reading(1, 200), reading(2, 300), reading(3, 400)];
    const owner = 'U/MeterReading/1';
    const read = (...readings: string[]) => espi(feed(readingType('Type/1'), block(owner, readings, 4)));
    const twice = read(...lines, lines[2]);
    expect(kw(twice)).toEqual([0.1, 0.2, 0.3, 0.4]);
    expect(twice.sheet).toMatchObject({ duplicates: 1, filled: 0 });
    const hole = read(lines[0], lines[1], lines[3]);
    expect(hole.sheet?.filled).toBe(1);
    expect(kwh(hole)).toBeCloseTo(1, 12);
  });

  it('of an interval in two entries the one changed last is kept', () => {
    const owner = 'U/MeterReading/1';
    const old = block(owner, [reading(0, 100), reading(1, 200)], 2, '2024-02-01T00:00:00Z');
    const fresh = block(owner, [reading(1, 900)], 2, '2024-03-01T00:00:00Z');
    for (const blocks of [
      [old, fresh],
      [fresh, old],
    ]) {
      const result = espi(feed(readingType('Type/1'), ...blocks));
      expect(kw(result)).toEqual([0.1, 0.9]);
      expect(codes(result)).toEqual(['duplicates']);
    }
  });

  it('a reading outside its block, of another length, or questionable is doubted with its place', () => {
    const owner = 'U/MeterReading/1';
    const day = Array.from({ length: 24 }, (_, i) => reading(i, 100));
    const read = (last: string) => espi(feed(readingType('Type/1'), block(owner, [...day, last], 24)));
    expect(doubts(read(reading(24, 100)))).toEqual([
      'f.xml:27:1: U/MeterReading/1: found 1 readings outside the interval of their block; expected readings within it',
    ]);
    const half = espi(feed(readingType('Type/1'), block(owner, [reading(0, 100), reading(1, 50, 0.5)], 2)));
    expect(doubts(half)[0]).toMatch(/1 readings of another length; expected 3600 s/);
    const doubtful = text.replace('<quality>8<', '<quality>10<');
    expect(codes(espi(doubtful))).toEqual(['quality']);
  });

  it.each([
    ['1e3', "value '1e3'"],
    ['0x10', "value '0x10'"],
    ['', "value ''"],
    ['1234567890123456', "value '1234567890123456'"],
  ])('a value %j is refused', (value, got) => {
    const result = espi(feed(hourly('U/MeterReading/1', {}, [1])).replace('>1</value>', `>${value}</value>`));
    expect(errors(result)[0]).toContain(got);
    expect(errors(result)[0]).toMatch(/^f\.xml:4:\d+: IntervalReading/);
  });

  it('intervals that are no whole minutes, or longer than an hour, are refused with the place of the first', () => {
    const late = text.replace('<start>1699174800</start>', '<start>1699174830</start>');
    expect(errors(espi(late))).toEqual([
      'f.xml:7: intervals: found 3600 s from 1699174830 s; expected whole minutes, at most an hour each, over at most thirty years',
    ]);
    const daily = espi(feed(hourly('U/MeterReading/1', {}, [100, 200], 24)));
    expect(errors(daily)[0]).toMatch(/xml:4: intervals: found 86400 s from 1704067200 s/);
  });

  it('a power no site has is refused', () => {
    const result = espi(feed(hourly('U/MeterReading/1', {}, [100, 99_999_999_999])));
    expect(errors(result)[0]).toMatch(/99999999.999 kWh in 60 min; expected at most 1000000 kW/);
  });
});
