import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { looksLikeGreenButton, readGreenButton, ruleText } from '../../src/scenarios/read-greenbutton.ts';
import { looksLikeNem12, meterCheckDigit, readNem12 } from '../../src/scenarios/read-nem12.ts';
import type { ReadResult } from '../../src/scenarios/series.ts';
import { readMutations } from './mutations.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const sample = (name: string) => new Uint8Array(readFileSync(new URL(`./samples/${name}`, import.meta.url)));
const nemText = new TextDecoder().decode(sample('nem12_tiny.csv'));
const espiText = new TextDecoder().decode(sample('greenbutton_tiny.xml'));
const nem = (text: string, options = {}) => readNem12(bytes(text), 'f.csv', options);
const espi = (text: string) => readGreenButton(bytes(text), 'f.xml');
const errors = (result: ReadResult) =>
  result.issues.filter(({ severity }) => severity === 'error').map(issueSentence);
const doubts = (result: ReadResult) =>
  result.issues.filter(({ severity }) => severity === 'doubt').map(({ got }) => got);
const kwh = (result: ReadResult, quantity: string) =>
  result.sheet?.series.find((one) => one.quantity === quantity)?.total;
const dayKwh = (result: ReadResult, quantity: string, day: number) => {
  const values = result.series
    .find((one) => one.quantity === quantity)
    ?.values.subarray(48 * day, 48 * day + 48);
  return values?.reduce((sum, kw) => sum + kw / 2, 0);
};

describe('NEM12', () => {
  // totals stated beside the hand-made sample
  it('reads the sample: drawn 14.840 and 14.600 kWh, sent 9.100 and 0.800, 22 of 96 estimated', () => {
    const result = nem(nemText);
    expect(errors(result)).toEqual([]);
    expect(dayKwh(result, 'loadKw', 0)).toBeCloseTo(14.84, 9);
    expect(dayKwh(result, 'loadKw', 1)).toBeCloseTo(14.6, 9);
    expect(dayKwh(result, 'generationKw', 0)).toBeCloseTo(9.1, 9);
    expect(dayKwh(result, 'generationKw', 1)).toBeCloseTo(0.8, 9);
    expect(result.sheet?.estimated).toBe(5 + 17);
    expect(result.sheet?.axis.startS).toBe(Date.UTC(2024, 3, 29, 14) / 1000);
  });

  it('is recognised by its content, with and without its first record', () => {
    expect(looksLikeNem12(sample('nem12_tiny.csv'))).toMatch(/100,NEM12/);
    expect(looksLikeNem12(bytes(`\uFEFF${nemText.split('\n').slice(1).join('\n')}`))).toMatch(/200 record/);
    expect(looksLikeNem12(bytes('time,kW\n2025-01-01,1\n'))).toBeNull();
  });

  it('takes a byte-order mark, a missing first record, blank lines, CRLF and concatenated files', () => {
    const headless = `\uFEFF\n${nemText.split('\n').slice(1).join('\r\n')}`;
    const result = nem(headless);
    expect(errors(result)).toEqual([]);
    expect(doubts(result)).toEqual(['no 100 record']);
    expect(kwh(result, 'loadKw')).toBeCloseTo(29.44, 9);
    const twice = nem(`${nemText}\n${nemText}`);
    expect(kwh(twice, 'loadKw')).toBeCloseTo(29.44, 9);
    expect(twice.sheet?.duplicates).toBe(4 * 48);
  });

  it('scales units, leaves reactive channels out, and takes a change of interval length', () => {
    expect(kwh(nem(nemText.replace(',kWh,30', ',WH,30')), 'loadKw')).toBeCloseTo(0.02944, 9);
    const reactive = nem(nemText.replace('E1B1,B1,B1,N2,DEMO00001,kWh', 'E1B1,Q1,Q1,N2,DEMO00001,kVArh'));
    expect(kwh(reactive, 'generationKw')).toBeUndefined();
    expect(doubts(reactive)).toEqual(['2 days that are not energy drawn or sent, or of another meter']);
    const quarter = `200,NEM1201009,E1,E1,E1,N1,X,kWh,15,\n300,20240502,${new Array(96).fill('0.1').join(',')},A,,,20240503000000,\n900\n`;
    const mixed = nem(nemText.replace(/900\s*$/, quarter));
    expect(errors(mixed)).toEqual([]);
    expect(mixed.sheet?.axis.stepMin).toBe(15);
    expect(kwh(mixed, 'loadKw')).toBeCloseTo(29.44 + 9.6, 9);
  });

  it('adds several meters up with a doubt, or reads the one asked for', () => {
    const other = nemText.replaceAll('NEM1201009', 'NEM1201010').split('\n').slice(1).join('\n');
    const both = nemText.replace(/900\s*$/, other);
    expect(kwh(nem(both), 'loadKw')).toBeCloseTo(2 * 29.44, 9);
    expect(doubts(nem(both))).toContain('NEM1201009, NEM1201010');
    expect(kwh(nem(both, { meter: 'NEM1201010' }), 'loadKw')).toBeCloseTo(29.44, 9);
  });

  it('lists what is wrong with its line', () => {
    expect(errors(nem(nemText.replace('0.130,0.130', '-0.130,0.130')))).toEqual([
      "f.csv:4: interval 1: found '-0.130'; expected a number of at least 0",
    ]);
    expect(errors(nem(nemText.replace(/400,27,31,S53,9,\r?\n/, '')))[0]).toMatch(
      /^f\.csv:6: 400: found 32,48,E52; expected intervals from 27/,
    );
    expect(errors(nem(nemText.replace(/400,32,48,E52,,\r?\n/, '')))).toEqual([
      'f.csv:4: 400: found quality of 31 intervals; expected of all 48',
    ]);
    expect(errors(nem(nemText.replace('0.130,0.130', '1e308,0.130')))[0]).toMatch(
      /interval 1: found '1e308'/,
    );
    expect(errors(nem(nemText.replace('kWh,30', 'kWh,25')))[0]).toMatch(/interval length: found '25'/);
    expect(errors(nem(nemText.replace('300,20240501', '300,20240532')))[0]).toMatch(/date: found '20240532'/);
  });

  it('fills a lost day from its neighbours and counts it; refuses a longer hole', () => {
    const day = nemText.split('\n').find((line) => line.startsWith('300,20240430')) ?? '';
    const without = (dates: number[]) =>
      [
        '100,NEM12,202405021200,A,B',
        '200,NEM1201009,E1,E1,E1,N1,X,kWh,30,',
        ...[1, 2, 3, 4, 5, 6, 7]
          .filter((d) => !dates.includes(d))
          .map((d) => day.replace('20240430', `2024050${d}`)),
        '900',
      ].join('\n');
    const oneGone = nem(without([4]));
    expect(errors(oneGone)).toEqual([]);
    expect(oneGone.sheet?.filled).toBe(48);
    expect(errors(nem(without([3, 4, 5])))[0]).toMatch(/no values for 72 h/);
  });

  it('keeps the energy of a year of five minutes', () => {
    let total = 0;
    const rows = Array.from({ length: 365 }, (_, day) => {
      const values = Array.from({ length: 288 }, (_, i) => (((day * 288 + i) * 7919) % 997) / 1000);
      total += values.reduce((sum, value) => sum + value, 0);
      const date = new Date(Date.UTC(2025, 0, 1 + day)).toISOString().slice(0, 10).replaceAll('-', '');
      return `300,${date},${values.join(',')},A,,,20260101000000,`;
    });
    const result = nem(
      ['100,NEM12,202601010000,A,B', '200,1234567890,E1,E1,E1,N1,X,kWh,5,', ...rows, '900'].join('\n'),
    );
    expect(errors(result)).toEqual([]);
    expect(Math.abs((kwh(result, 'loadKw') ?? 0) / total - 1)).toBeLessThan(1e-9);
  });

  // National Metering Identifier procedure, examples as transcribed in public code (second hand)
  it.each([
    ['2001985732', 8],
    ['2001985733', 6],
    ['3075621875', 8],
    ['4316854005', 9],
    ['6305888444', 6],
    ['7102000001', 7],
    ['NAAAMYS582', 6],
    ['NBBBX11110', 0],
    ['QAAAVZZZZZ', 3],
    ['QCDWW00010', 2],
    ['SMVEW00085', 8],
    ['VAAASTY576', 8],
    ['VKTS876510', 8],
    ['1234C6789A', 3],
    ['NEM1201009', 6],
  ])('check digit of %s is %d', (meter, digit) => expect(meterCheckDigit(meter)).toBe(digit));

  it('survives mutations', () => {
    const counts = readMutations(sample('nem12_tiny.csv'), 600, (mutated) => readNem12(mutated, 'm.csv'));
    expect(counts.refused).toBeGreaterThan(100);
    expect(counts.read).toBeGreaterThan(50);
  });

  it('refuses 200 MB of one line', () => {
    expect(errors(readNem12(new Uint8Array(200_000_000).fill(65), 'line.csv'))[0]).toMatch(
      /a line of 200000000 characters/,
    );
  });
});

describe('Green Button', () => {
  it('reads the sample: 1 675 Wh in four hours across the autumn change, one of them estimated', () => {
    const result = espi(espiText);
    expect(errors(result)).toEqual([]);
    expect(kwh(result, 'loadKw')).toBeCloseTo(1.675, 12);
    expect(result.sheet?.axis).toEqual({ startS: 1_699_167_600, stepMin: 60, count: 4 });
    expect(result.sheet?.estimated).toBe(1);
    expect(result.sheet?.timeZone).toMatch(
      /UTC-8, summer time from second Sunday of month 3, 02:00 to first Sunday of month 11, 02:00/,
    );
  });

  it('is recognised by its namespace', () => {
    expect(looksLikeGreenButton(sample('greenbutton_tiny.xml'))).toMatch(/naesb/);
    expect(looksLikeGreenButton(sample('nem12_tiny.csv'))).toBeNull();
  });

  // decoded by hand from the bit fields of the schema
  it('decodes rules of summer time', () =>
    expect(ruleText('B40E2000')).toBe('first Sunday of month 11, 02:00'));

  it('takes prefixed namespaces, powers of ten, power readings, and readings without a time', () => {
    const prefixed = espiText
      .replaceAll(' xmlns="http://naesb.org/espi"', ' xmlns:e="http://naesb.org/espi"')
      .replace(
        /<(\/?)(IntervalBlock|IntervalReading|timePeriod|duration|start|value|ReadingType|uom|interval|intervalLength|powerOfTenMultiplier|ReadingQuality|quality)\b/g,
        '<$1e:$2',
      );
    expect(kwh(espi(prefixed), 'loadKw')).toBeCloseTo(1.675, 12);
    expect(kwh(espi(espiText.replace('Multiplier>0<', 'Multiplier>3<')), 'loadKw')).toBeCloseTo(1675, 9);
    expect(kwh(espi(espiText.replace('<uom>72<', '<uom>38<')), 'loadKw')).toBeCloseTo(1.675, 12);
    const untimed = espiText.replace(/<timePeriod>.*?<\/timePeriod>/g, '');
    expect(kwh(espi(untimed), 'loadKw')).toBeCloseTo(1.675, 12);
  });

  it('differences a running register, and keeps what is received apart', () => {
    const running = espi(espiText.replace('Behaviour>4<', 'Behaviour>1<').replace('>365<', '>395<'));
    expect(kwh(running, 'loadKw')).toBeCloseTo(0.115, 12);
    const received = espi(espiText.replace('Direction>1<', 'Direction>19<'));
    expect(kwh(received, 'generationKw')).toBeCloseTo(1.675, 12);
  });

  it('follows links, not nesting, when there are two reading types', () => {
    const gas =
      '<entry><link rel="self" href="ReadingType/2"/><content><ReadingType xmlns="http://naesb.org/espi"><commodity>7</commodity><uom>169</uom></ReadingType></content></entry>';
    const reading =
      '<entry><link rel="self" href="U/1/MeterReading/1"/><link rel="related" href="ReadingType/1"/><content><MeterReading xmlns="http://naesb.org/espi"/></content></entry>';
    const linked = espiText
      .replace('</feed>', `${gas}${reading}</feed>`)
      .replace(
        '<entry><id>urn:uuid:00000000-0000-4000-8000-000000000005</id>',
        '<entry><link rel="up" href="U/1/MeterReading/1/IntervalBlock"/>',
      );
    expect(kwh(espi(linked), 'loadKw')).toBeCloseTo(1.675, 12);
    const unlinked = espi(espiText.replace('</feed>', `${gas}</feed>`));
    expect(doubts(unlinked)).toContain('1 blocks that are not electric energy or power');
    expect(unlinked.series).toEqual([]);
  });

  it('counts duplicates and fills a hole', () => {
    const reading =
      /<IntervalReading>(?:(?!<\/IntervalReading>).)*1699171200.*?<\/IntervalReading>/.exec(espiText)?.[0] ??
      '';
    expect(reading).not.toBe('');
    expect(espi(espiText.replace(reading, reading + reading)).sheet?.duplicates).toBe(1);
    expect(espi(espiText.replace(reading, '')).sheet?.filled).toBe(1);
  });

  it('refuses entities and broken XML with line and column', () => {
    expect(errors(espi(`<!DOCTYPE x [<!ENTITY a "b">]>${espiText}`))[0]).toMatch(/document type or entity/);
    expect(errors(espi(espiText.replace('</ReadingType>', '</Reading>')))[0]).toMatch(
      /^f\.xml:6:\d+: file: /,
    );
    expect(errors(espi('<a/>'))[0]).toMatch(/no Atom feed/);
  });

  it('keeps the energy of a year of hours', () => {
    const readings = Array.from({ length: 8760 }, (_, i) => (i * 7919) % 5000);
    const xml = readings.map(
      (value, i) =>
        `<IntervalReading><timePeriod><duration>3600</duration><start>${1_700_000_000 + i * 3600 - (1_700_000_000 % 3600)}</start></timePeriod><value>${value}</value></IntervalReading>`,
    );
    const text = espiText.replace(/<IntervalReading>[\s\S]*<\/IntervalReading>/, xml.join(''));
    const total = readings.reduce((sum, value) => sum + value, 0) / 1000;
    expect(Math.abs((kwh(espi(text), 'loadKw') ?? 0) / total - 1)).toBeLessThan(1e-9);
  });

  it('survives mutations', () => {
    const counts = readMutations(sample('greenbutton_tiny.xml'), 600, (mutated) =>
      readGreenButton(mutated, 'm.xml'),
    );
    expect(counts.refused).toBeGreaterThan(100);
    expect(counts.read).toBeGreaterThan(50);
  });
});
