import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { chooseReader, readAny } from '../../src/scenarios/read-any.ts';
import { readMutations } from './mutations.ts';

const sample = (name: string) => new Uint8Array(readFileSync(new URL(`./samples/${name}`, import.meta.url)));
const bytes = (text: string) => new TextEncoder().encode(text);

describe('choosing a reader by content', () => {
  it.each([
    ['nem12_tiny.csv', 'nem12', /100,NEM12/],
    ['greenbutton_tiny.xml', 'greenbutton', /naesb/],
    ['pvgis_hourly_tiny.csv', 'pvgis', /Latitude/],
    ['epw_tiny.epw', 'epw', /LOCATION/],
    ['tmy3_tiny.csv', 'tmy3', /TMY3 header/],
    ['csv_dst_repeat.csv', 'csv', /nothing else/],
  ])('%s is %s', (name, reader, because) => {
    const chosen = chooseReader(sample(name));
    expect(chosen.reader).toBe(reader);
    expect(chosen.because).toMatch(because);
  });

  it('sees past a byte-order mark, and the data sheet says which and why', () => {
    const marked = Uint8Array.of(0xef, 0xbb, 0xbf, ...sample('pvgis_hourly_tiny.csv'));
    expect(readAny(marked, 'p').sheet).toMatchObject({
      reader: 'pvgis',
      chosenBecause: 'first line is Latitude (decimal degrees):',
    });
    expect(readAny(sample('epw_tiny.epw'), 'e', { period: 'declared' }).sheet).toMatchObject({
      reader: 'epw',
      chosenBecause: 'first line begins with LOCATION',
    });
    expect(readAny(sample('pvgis_hourly_tiny.csv'), 'p', { reader: 'pvgis' }).sheet?.chosenBecause).toBe(
      'asked for',
    );
  });

  it('meter files that are refused are so by their own reader', () => {
    const nem12 = new TextDecoder().decode(sample('nem12_tiny.csv'));
    const wide = Uint8Array.from([0xff, 0xfe, ...[...nem12].flatMap((letter) => [letter.charCodeAt(0), 0])]);
    expect(readAny(wide, 'w.csv').issues.map(issueSentence)).toEqual([
      'w.csv: file: found text in UTF-16; expected plain text in ASCII or UTF-8',
    ]);
    const registers = readAny(bytes('100,NEM13,202405021200,A,B\n250,NEM1201009,11\n900\n'), 'r.csv');
    expect(registers.issues.map(({ code }) => code)).toEqual(['nem13']);
  });

  it('can be forced', () => {
    const forced = readAny(sample('nem12_tiny.csv'), 'f', { reader: 'epw' });
    expect(forced.series).toEqual([]);
    expect(forced.issues[0].path).toBe('LOCATION');
  });

  it('reads a plain CSV by the units in its header, and doubts every guess', () => {
    const result = readAny(sample('csv_midnight_label.csv'), 'm.csv', {
      stamp: 'end',
      timeZone: '+09:00',
      dateOrder: 'dmy',
    });
    expect(result.sheet?.series[0].total).toBeCloseTo(13.53, 9);
    expect(result.issues.map(({ code }) => code)).toEqual(['midnight-date']);
    const guessed = readAny(
      bytes('time;Last [kW];cos phi\n2025-01-01 00:00;1,5;0,9\n2025-01-01 00:30;2,5;0,9\n'),
      'g.csv',
    );
    expect(Array.from(guessed.series[0].values)).toEqual([1.5, 2.5]);
    expect(guessed.issues.map(({ path }) => path)).toEqual(['stamp', 'timeZone', 'columns']);
    expect(readAny(bytes('a,b\n1,2\n'), 'n.csv').issues[0].code).toBe('no-columns');
  });
});

describe('200 MB of one line', () => {
  it.each([
    ['tmy3', '1,"A",X,-5.0,36.1,-79.9,273\nDate (MM/DD/YYYY),'],
    ['epw', 'LOCATION,'],
    ['pvgis', 'Latitude (decimal degrees):\t1\n'],
    ['greenbutton', '<feed xmlns="http://naesb.org/espi">'],
  ])('is refused by %s', (reader, head) => {
    const file = new Uint8Array(200_000_000).fill(65);
    file.set(bytes(head));
    expect(chooseReader(file).reader).toBe(reader);
    const result = readAny(file, 'line');
    expect(result.series).toEqual([]);
    expect(result.issues.some(({ severity }) => severity === 'error')).toBe(true);
  });
});

describe.each(['csv_dst_repeat.csv', 'csv_decimal_comma.csv'])('mutations of %s', (name) => {
  it('are refused or read, never a crash', () => {
    const counts = readMutations(sample(name), 400, (mutated) =>
      readAny(mutated, 'm', { timeZone: 'UTC', stamp: 'start' }),
    );
    expect(counts.refused + counts.read).toBe(400);
  });
});
