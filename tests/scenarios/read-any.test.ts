import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { chooseReader, readAny } from '../../src/scenarios/read-any.ts';
import { readPvgis } from '../../src/scenarios/read-pvgis.ts';
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

describe('PVGIS', () => {
  // in-plane sums stated beside the hand-made sample
  it('adds the parts on the plane: 725, 836 and 891.5 W/m², one hour reconstructed', () => {
    const result = readPvgis(sample('pvgis_hourly_tiny.csv'), 'p.csv');
    expect(result.issues).toEqual([]);
    expect(Array.from(result.series[0].values)).toEqual([725, 836, 891.5]);
    expect(result.sheet?.estimated).toBe(1);
    expect(result.sheet?.axis.startS).toBe(Date.UTC(2020, 0, 1) / 1000);
    // azimuth 180 there is north, which is 0 here
    expect(result.plane).toEqual({ tiltDeg: 20, azimuthDeg: 0 });
    expect(result.location).toMatchObject({ latDeg: -20, lonDeg: 134, elevationM: 350 });
  });

  it('reads a typical year in UTC and keeps its irradiation', () => {
    const rows: string[] = [];
    let total = 0;
    for (let hour = 0; hour < 8760; hour++) {
      const at = new Date(Date.UTC(2015, 0, 1, hour));
      const ghi = Math.max(-0, Math.round(700 - 20 * ((hour % 24) - 12) ** 2));
      total += Math.max(0, ghi);
      const stamp = `${at.toISOString().slice(0, 10).replaceAll('-', '')}:${String(at.getUTCHours()).padStart(2, '0')}00`;
      rows.push(`${stamp},12.5,60,${Math.max(0, ghi)},${Math.max(0, ghi / 2)},-0.0,300,2,180,100000`);
    }
    const head = [
      'Latitude (decimal degrees): 45.0',
      'Longitude (decimal degrees): 8.0',
      'Elevation (m): 100',
      'month,year',
      '1,2015',
      'time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP',
    ];
    const text = [...head, ...rows, '', 'T2m: 2-m air temperature', 'PVGIS (c) European Union'].join('\n');
    const result = readAny(bytes(text), 't.csv');
    expect(result.issues).toEqual([]);
    expect(result.sheet?.series[0].total).toBeCloseTo(total / 1000, 6);
    const broken = readPvgis(bytes(text.split('\n').slice(0, 500).join('\n')), 't.csv');
    expect(broken.issues.map(issueSentence)[0]).toMatch(/rows: found \d+ hours; expected 8760/);
  });

  it('survives mutations', () => {
    const counts = readMutations(sample('pvgis_hourly_tiny.csv'), 600, (mutated) =>
      readPvgis(mutated, 'm.csv'),
    );
    expect(counts.refused).toBeGreaterThan(50);
    expect(counts.read).toBeGreaterThan(50);
  });
});

describe.each(['epw_tiny.epw', 'tmy3_tiny.csv', 'csv_dst_repeat.csv', 'csv_decimal_comma.csv'])(
  'mutations of %s',
  (name) => {
    it('are refused or read, never a crash', () => {
      const counts = readMutations(sample(name), 400, (mutated) =>
        readAny(mutated, 'm', { timeZone: 'UTC', stamp: 'start' }),
      );
      expect(counts.refused + counts.read).toBe(400);
    });
  },
);
