import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ruleText } from '../../src/scenarios/greenbutton-clock.ts';
import { looksLikeGreenButton } from '../../src/scenarios/read-greenbutton.ts';
import {
  block,
  bytes,
  codes,
  doubts,
  errors,
  espi,
  feed,
  hourly,
  kw,
  kwh,
  meterReading,
  reading,
  readingType,
  START_S,
} from './small-greenbutton.ts';

/** Rules and codes: NAESB REQ.21, espi.xsd 4.0. */
const sample = (name: string) => new Uint8Array(readFileSync(new URL(`./samples/${name}`, import.meta.url)));
const text = new TextDecoder().decode(sample('greenbutton_tiny.xml'));

describe('the Green Button sample', () => {
  it('gives 1 675 Wh in four hours across the autumn change, one of them estimated', () => {
    // total stated beside the hand-made sample
    const result = espi(text);
    expect(result.issues).toEqual([]);
    expect(kw(result)).toEqual([0.385, 0.365, 0.425, 0.5]);
    expect(kwh(result)).toBeCloseTo(1.675, 12);
    expect(result.sheet?.axis).toEqual({ startS: 1_699_167_600, stepMin: 60, count: 4 });
    expect(result.sheet).toMatchObject({ estimated: 1, duplicates: 0, filled: 0 });
    expect(result.sheet?.timeZone).toMatch(
      /UTC-8, summer time from second Sunday of month 3, 02:00 to first Sunday of month 11, 02:00/,
    );
  });

  it('is recognised by its namespace', () => {
    expect(looksLikeGreenButton(sample('greenbutton_tiny.xml'))).toMatch(/naesb/);
    expect(looksLikeGreenButton(bytes([...text].join('\0')))).toMatch(/naesb/);
    expect(looksLikeGreenButton(sample('nem12_tiny.csv'))).toBeNull();
  });

  // decoded by hand from the bit fields of the schema
  it('decodes rules of summer time', () =>
    expect(ruleText('B40E2000')).toBe('first Sunday of month 11, 02:00'));
});

describe('ways to write readings', () => {
  it('prefixed namespaces, CRLF, comments that look like entries', () => {
    const prefixed = text
      .replaceAll(' xmlns="http://naesb.org/espi"', ' xmlns:e="http://naesb.org/espi"')
      .replaceAll(/<(\/?)(entry|content|link)\b/g, '<$1a:$2')
      .replace('<feed ', '<feed xmlns:a="http://www.w3.org/2005/Atom" ')
      .replace(
        /<(\/?)(IntervalBlock|IntervalReading|timePeriod|duration|start|value|ReadingType|uom|interval|intervalLength|powerOfTenMultiplier|ReadingQuality|quality)\b/g,
        '<$1e:$2',
      );
    expect(prefixed).toMatch(/<a:entry>/);
    expect(kwh(espi(prefixed))).toBeCloseTo(1.675, 12);
    expect(kwh(espi(text.replaceAll('\n', '\r\n')))).toBeCloseTo(1.675, 12);
    const commented = text.replace('<entry>', '<!-- <entry> --><entry>');
    expect(kwh(espi(commented))).toBeCloseTo(1.675, 12);
  });

  it('powers of ten', () => {
    expect(kw(espi(text.replace('Multiplier>0<', 'Multiplier>3<')))).toEqual([385, 365, 425, 500]);
    expect(kw(espi(text.replace('Multiplier>0<', 'Multiplier>-3<')))[0]).toBe(0.000385);
  });

  it('power is the mean over its interval, and doubted', () => {
    const power = espi(feed(hourly('U/MeterReading/1', { uom: 38, kind: 37 }, [1000, 3000], 0.25)));
    expect(kw(power)).toEqual([1, 3]);
    expect(kwh(power)).toBeCloseTo(1, 12);
    expect(codes(power)).toEqual(['reading-type']);
  });

  it('readings without a time follow each other from the start of their block', () => {
    const untimed = text.replace(/<timePeriod>.*?<\/timePeriod>/g, '');
    expect(kw(espi(untimed))).toEqual([0.385, 0.365, 0.425, 0.5]);
    // one of them lost: nothing says which
    const short = untimed.replace(/<IntervalReading>(?:(?!<\/Int).)*365<.*?<\/IntervalReading>/, '');
    expect(errors(espi(short))).toEqual([
      'f.xml:7:81: IntervalBlock: found readings without a time, together 10800 s; expected as long as their block, 14400 s',
    ]);
    const unknown = untimed.replace('<intervalLength>3600</intervalLength>', '');
    expect(errors(espi(unknown))[0]).toMatch(/9:7: IntervalReading: found start 1699167600, duration none/);
  });

  it('what is received is kept apart; net is split by its sign, each with a doubt or a name', () => {
    const received = espi(feed(hourly('U/MeterReading/1', { flowDirection: 19 }, [100, 200])));
    expect(kwh(received, 'generationKw')).toBeCloseTo(0.3, 12);
    expect(codes(received)).toEqual(['no-load']);
    const net = espi(feed(hourly('U/MeterReading/1', { flowDirection: 4 }, [500, -200, 300])));
    expect(kw(net)).toEqual([0.5, 0, 0.3]);
    expect(kw(net, 'generationKw')).toEqual([0, 0.2, 0]);
    expect(doubts(net)[0]).toMatch(/flowDirection of .*found net values \(4\)/);
  });

  it('a value below 0 that is not net is refused', () => {
    const result = espi(feed(hourly('U/MeterReading/1', {}, [500, -200, 300])));
    expect(errors(result)).toEqual([
      'f.xml:5:1: IntervalReading: found value -200; expected at least 0 for flowDirection 1, or flowDirection 4 (net)',
    ]);
    expect(result.series).toEqual([]);
  });

  it('codes that say nothing are doubted, and a running register among them refused', () => {
    // as a real file has them
    const untold = { accumulationBehaviour: 0, flowDirection: 0 };
    const values = Array.from({ length: 30 }, (_, i) => 500 + ((i * 7919) % 100));
    const result = espi(feed(hourly('U/MeterReading/1', untold, values)));
    expect(kw(result)).toEqual(values.map((value) => value / 1000));
    expect(doubts(result).join('\n')).toMatch(/flowDirection of[^\n]*none or 0[^\n]*\n[^\n]*Behaviour of/);
    const absent = espi(feed(hourly('U/MeterReading/1', { accumulationBehaviour: null }, values)));
    expect(doubts(absent)[0]).toMatch(/accumulationBehaviour of .* found none or 0/);
    const rising = espi(
      feed(
        hourly(
          'U/MeterReading/1',
          untold,
          values.map((value, i) => value + 1000 * i),
        ),
      ),
    );
    expect(errors(rising)[0]).toMatch(/found none or 0, and values that never fall/);
  });

  it.each<[string, Record<string, number | null>, string]>([
    ['gas', { commodity: 7 }, 'commodity 7'],
    ['therms', { uom: 169 }, 'unit (uom) 169'],
    ['no unit', { uom: null }, 'no unit (uom)'],
    ['a quadrant', { flowDirection: 15 }, 'flowDirection 15'],
    ['a latch', { accumulationBehaviour: 13 }, 'accumulationBehaviour 13 of energy'],
    ['an indication of energy', { accumulationBehaviour: 6 }, 'accumulationBehaviour 6 of energy'],
    ['an impossible power of ten', { powerOfTenMultiplier: 99 }, 'powerOfTenMultiplier 99'],
  ])('%s is left out, and told', (_, codesToChange, reason) => {
    const result = espi(feed(hourly('U/MeterReading/1', codesToChange, [1, 2])));
    expect(result.issues[0].got).toBe(`1 blocks with ${reason}`);
    expect(codes(result)).toEqual(['left-out', 'no-load']);
    expect(result.series).toEqual([]);
  });
});

describe('links, not nesting, tie blocks to their types', () => {
  const owner = 'U/1/MeterReading/1';
  const blocks = block(owner, [reading(0, 100), reading(1, 200)], 2);
  const types = [readingType('Type/1'), readingType('Type/2', { uom: 169, commodity: 7 })];

  it('in any order, with a slash at the end or not', () => {
    for (const link of ['Type/1', 'Type/1/']) {
      const result = espi(feed(blocks, ...types, meterReading(owner, link)));
      expect(kwh(result)).toBeCloseTo(0.3, 12);
      expect(result.issues).toEqual([]);
    }
  });

  it('without a link nothing is read, unless there is one type only', () => {
    const unlinked = espi(feed(blocks, ...types));
    expect(doubts(unlinked)[0]).toMatch(/1 blocks with no reading type linked to them/);
    expect(unlinked.series).toEqual([]);
    expect(kwh(espi(feed(blocks, types[0])))).toBeCloseTo(0.3, 12);
  });

  it('from a meter reading to its blocks, where these have no link up', () => {
    const down = meterReading(owner, 'Type/1').replace(
      '<content>',
      `<link rel="related" href="Blocks/7/IntervalBlock"/><content>`,
    );
    const alone = blocks.replaceAll(`${owner}/IntervalBlock`, 'Blocks/7/IntervalBlock');
    const result = espi(feed(...types, down, alone));
    expect(kwh(result)).toBeCloseTo(0.3, 12);
    expect(result.series[0].name).toBe(owner);
  });

  const many = (meters: number, blocksEach: number) =>
    feed(
      ...types,
      ...Array.from({ length: meters }, (_, i) => meterReading(`U/MeterReading/${i}`, 'Type/1')),
      ...Array.from({ length: meters * blocksEach }, (_, i) =>
        block(`U/MeterReading/${i % meters}`, [reading(i, 100)], meters * blocksEach),
      ),
    );

  it('for as many meter readings and blocks as a site may have, in no time', () => {
    const text = many(500, 20);
    const start = performance.now();
    const result = espi(text);
    // a search through all entries for each block takes minutes
    expect(performance.now() - start).toBeLessThan(5000);
    expect(result.issues).toEqual([]);
    expect(kwh(result)).toBeCloseTo(1000, 9);
    expect(errors(espi(many(1001, 1)))).toEqual([
      'f.xml: feed: found 1001 meter readings; expected at most 1000',
    ]);
  });
});

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

  it('a power no site has is refused', () => {
    const result = espi(feed(hourly('U/MeterReading/1', {}, [100, 99_999_999_999])));
    expect(errors(result)[0]).toMatch(/99999999.999 kWh in 60 min; expected at most 1000000 kW/);
  });
});

it('keeps the energy of a year of hours', () => {
  const values = Array.from({ length: 8760 }, (_, i) => (i * 7919) % 5000);
  const result = espi(feed(hourly('U/MeterReading/1', {}, values)));
  const total = values.reduce((sum, value) => sum + value, 0) / 1000;
  expect(result.sheet?.axis).toEqual({ startS: START_S, stepMin: 60, count: 8760 });
  expect(Math.abs(kwh(result)! / total - 1)).toBeLessThan(1e-9);
});
