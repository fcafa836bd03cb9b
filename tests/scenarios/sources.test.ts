import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sum, winter, winterSaid } from './winter-site.ts';

const stream = (more: string) =>
  `{ name: stream, file: stream.csv, unit: kW, stamp: start, columns: [turbine], ${more} }`;

describe('another source', () => {
  it('adds its power to that of the arrays on its side, hour by hour', () => {
    const plain = winter().result.inputs.dcArrayKw as Float64Array;
    const { result } = winter({ sources: stream('coupling: dc') });
    const kw = result.inputs.dcArrayKw as Float64Array;
    for (let i = 0; i < kw.length; i++) expect(kw[i]).toBeCloseTo(plain[i] + (i % 24 < 12 ? 0.3 : 0.2), 12);
    expect(result.inputs.acArrayKw).toBeUndefined();
    // 12 h of 0.3 kW and 12 h of 0.2 kW: 6 kWh a day
    const told = result.yields[1];
    expect([told.name, told.kind, told.coupling]).toEqual(['stream', 'source', 'dc']);
    expect(told.offeredKwh.map((kwh) => kwh.toFixed(6))).toEqual([(31 * 6).toFixed(6), (28 * 6).toFixed(6)]);
    expect(result.ledger.totals.fuelL).toBeLessThan(winter().result.ledger.totals.fuelL);
  });

  it('is scaled and shifted, and feeds a phase', () => {
    const { result } = winter({
      sources: stream('coupling: ac, phase: 2, scale: 2, shiftMin: 60'),
      instead: [['phases: 1', 'phases: 3']],
    });
    expect(result.inputs.acArrayKw?.[12]).toBeCloseTo(0.6, 12);
    expect(result.inputs.acArrayKw?.[13]).toBeCloseTo(0.4, 12);
    expect(result.plant.acArrayShare).toEqual([0, 1, 0]);
  });

  it('needs no weather', () => {
    const { result } = winter({
      sources: stream('coupling: dc'),
      instead: [
        [/weather:.*/, ''],
        [/arrays:.*/, ''],
      ],
    });
    expect(sum(result.inputs.dcArrayKw)).toBeCloseTo(59 * 6, 9);
  });

  it('takes the channel of a meter file that counts what was sent out', () => {
    const meter = new Uint8Array(readFileSync(new URL('./samples/nem12_tiny.csv', import.meta.url)));
    const readFile = (path: string) => {
      if (path === 'meter.csv') return meter;
      const rows = Array.from({ length: 49 }, (_, i) => {
        const stamp = new Date(Date.UTC(2024, 3, 30) + i * 3_600_000)
          .toISOString()
          .slice(0, 16)
          .replace('T', ' ');
        return path === 'load.csv' ? `${stamp},0.5` : `${stamp},0,5,2`;
      });
      return new TextEncoder().encode(
        [path === 'load.csv' ? 'time,house' : 'time,ghi,air,wind', ...rows, ''].join('\n'),
      );
    };
    const { result } = winter({
      readFile,
      sources: '{ name: next door, file: meter.csv, coupling: ac }',
      instead: [
        ['start: 2025-01-01, days: 59', 'start: 2024-04-30, days: 2'],
        ['timeZone: "+01:00"', 'timeZone: "+10:00"'],
      ],
    });
    // the sample's second channel, B1: what was sent out
    const sent = sentOut(new TextDecoder().decode(meter));
    expect(sent).toBeGreaterThan(0);
    expect(sum(result.yields[1].offeredKwh)).toBeCloseTo(sent, 9);
  });

  it('on another phase than an AC-coupled array is doubted', () => {
    const said = winterSaid({
      sources: stream('coupling: ac, phase: 2'),
      instead: [
        ['phases: 1', 'phases: 3'],
        ['coupling: dc, controllerA: 120', 'coupling: ac, inverterKw: 5, phase: 1'],
      ],
    });
    expect(said.filter((sentence) => sentence.includes('different phases'))).toEqual([
      'doubt site.yaml:8:1: sources: found AC-coupled sources and arrays on different phases; expected the same phase for all; each phase gets its share of the energy of the whole period, at every hour',
    ]);
  });

  it('tells what is missing or cannot be', () => {
    expect(
      winterSaid({ sources: '{ name: roof, file: none.csv, coupling: dc, phase: 2 }' }),
    ).toMatchSnapshot();
    expect(
      winterSaid({ sources: '{ name: stream, file: stream.csv, unit: kW, coupling: ac, columns: [] }' }),
    ).toMatchSnapshot();
  });
});

/** kWh of the records of channel B1. */
function sentOut(text: string): number {
  let channel = '';
  let kwh = 0;
  for (const line of text.split(/\r?\n/)) {
    const cells = line.split(',');
    if (cells[0] === '200') channel = cells[4];
    if (cells[0] === '300' && channel === 'B1') kwh += sum(cells.slice(2, 50).map(Number));
  }
  return kwh;
}
