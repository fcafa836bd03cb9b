import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ruleText } from '../../src/scenarios/greenbutton-clock.ts';
import { looksLikeGreenButton } from '../../src/scenarios/read-greenbutton.ts';
import { bytes, codes, doubts, errors, espi, feed, hourly, kw, kwh, START_S } from './small-greenbutton.ts';

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

it('keeps the energy of a year of hours', () => {
  const values = Array.from({ length: 8760 }, (_, i) => (i * 7919) % 5000);
  const result = espi(feed(hourly('U/MeterReading/1', {}, values)));
  const total = values.reduce((sum, value) => sum + value, 0) / 1000;
  expect(result.sheet?.axis).toEqual({ startS: START_S, stepMin: 60, count: 8760 });
  expect(Math.abs(kwh(result)! / total - 1)).toBeLessThan(1e-9);
});
