import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { type CsvOptions, readCsv } from '../../src/scenarios/read-csv.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const sample = (name: string) => readFileSync(new URL(`./samples/${name}`, import.meta.url));
const load = (column: string, unit: CsvOptions['columns'][number]['unit']) => ({
  column,
  quantity: 'loadKw' as const,
  unit,
});
const base: CsvOptions = { columns: [load('kW', 'kW')], stamp: 'start', timeZone: 'UTC', maxGapMin: 180 };
const read = (text: string, options: Partial<CsvOptions> = {}) =>
  readCsv(bytes(text), 'f.csv', { ...base, ...options });
const sentences = (text: string, options: Partial<CsvOptions> = {}) =>
  read(text, options).issues.map(issueSentence);

describe('samples', () => {
  // small files made by hand; totals stated beside them
  it('decimal comma, two time columns, byte-order mark, skipped spring hour', () => {
    const result = readCsv(sample('csv_decimal_comma.csv'), 'a', {
      ...base,
      columns: [load('Leistung [kW]', 'kW')],
      timeColumns: ['Datum', 'Uhrzeit'],
      timeZone: 'Europe/Berlin',
      decimalComma: true,
    });
    expect(result.issues).toEqual([]);
    expect(Array.from(result.series[0].values)).toEqual([1.25, 1.5, 1234.5]);
  });

  it('repeated autumn hour: 2.55 kWh in six half hours', () => {
    const options = { ...base, columns: [load('kWh', 'kWh')], timeZone: 'Europe/Berlin' };
    const result = readCsv(sample('csv_dst_repeat.csv'), 'b', options);
    expect(result.sheet?.axis).toMatchObject({ stepMin: 30, count: 6 });
    expect(result.sheet?.series[0].total).toBeCloseTo(2.55, 12);
    expect(result.sheet?.gaps).toEqual([]);
  });

  it('midnight printed with the old date after 23:45', () => {
    const options: CsvOptions = {
      ...base,
      columns: [load('Usage_kWh', 'kWh')],
      stamp: 'end',
      dateOrder: 'dmy',
    };
    const result = readCsv(sample('csv_midnight_label.csv'), 'c', options);
    expect(result.issues.map(({ code }) => code)).toEqual(['midnight-date']);
    expect(result.sheet?.axis.count).toBe(4);
    expect(result.sheet?.series[0].total).toBeCloseTo(3.24 + 3.67 + 3.42 + 3.2, 12);
  });
});

describe('readCsv', () => {
  it('keeps the energy of a year written in any unit', () => {
    const count = 365 * 48;
    const kw = Array.from({ length: count }, (_, i) => ((i * 7919) % 1000) / 100);
    const stamp = (i: number) => new Date(Date.UTC(2025, 0, 1) + i * 1_800_000).toISOString().slice(0, 16);
    const energy = kw.reduce((sum, value) => sum + value / 2, 0);
    for (const [unit, factor] of [
      ['kW', 1],
      ['W', 1000],
      ['kWh', 0.5],
      ['Wh', 500],
    ] as const) {
      const text = ['time;x', ...kw.map((value, i) => `${stamp(i)};${value * factor}`)].join('\r\n');
      const result = read(text, { columns: [load('x', unit)] });
      expect(result.issues).toEqual([]);
      expect(Math.abs((result.sheet?.series[0].total ?? 0) / energy - 1)).toBeLessThan(1e-9);
    }
  });

  it('reads 24:00, offsets in the stamp, quotes and notes', () => {
    const text = '# note\n"time",kW\n"2025-01-01T23:00+02:00",1\n2025-01-01T21:30Z,2\n2025-01-01 22:00,3\n';
    expect(read(text).series[0]?.values).toEqual(Float64Array.of(1, 2, 3));
    expect(read('time,kW\n2025-01-01 23:30,1\n2025-01-01 24:00,2\n').sheet?.axis.count).toBe(2);
  });

  it('fills missing values and counts them', () => {
    const result = read(
      'time,kW\n2025-01-01 00:00,1\n2025-01-01 00:30,\n2025-01-01 01:00,NaN\n2025-01-01 01:30,4\n',
    );
    expect(Array.from(result.series[0].values)).toEqual([1, 2, 3, 4]);
    expect(result.sheet?.filled).toBe(2);
  });

  it('keeps the first of two rows for one interval, with a doubt', () => {
    const result = read(
      'time,kW\n2025-01-01 00:00,1\n2025-01-01 00:30,2\n2025-01-01 00:30,9\n2025-01-01 01:00,3\n',
    );
    expect(Array.from(result.series[0].values)).toEqual([1, 2, 3]);
    expect(result.sheet?.duplicates).toBe(1);
  });

  it('lists every problem with its line', () => {
    expect(
      sentences(
        'time,kW\n2025-01-01 00:00,1\n2025-01-01 00:30,x7\n2025-13-01 01:00,2\n2025-01-01 01:30,3,4\n',
      ),
    ).toEqual([
      "f.csv:3:2: kW: found 'x7'; expected a number, or nothing where the value is missing",
      'f.csv:5: row: found 3 cells; expected 2, as in the header',
    ]);
    expect(sentences('time,kW\n2025-01-01 00:00,1\n2025-13-01 00:30,2\n')).toEqual([
      'f.csv:3: time: found a row without a date and time (2025 13 1 0 30); expected such as 2025-07-01 14:30',
      'f.csv:1: time: found 2 rows without a regular step of whole minutes that divides an hour; expected rows in steps of 1 to 60 minutes',
    ]);
  });

  it('asks for the order of day and month where the file does not settle it', () => {
    const text = 'time,kW\n01/02/2025 00:00,1\n01/02/2025 00:30,2\n';
    expect(sentences(text)[0]).toMatch(/day and month cannot be told apart; expected dateOrder: dmy or mdy/);
    expect(read(text, { dateOrder: 'dmy' }).sheet?.axis.startS).toBe(Date.UTC(2025, 1, 1) / 1000);
    expect(sentences('time,kW\n13/02/2025 00:00,1\n13/02/2025 00:30,2\n', { dateOrder: 'mdy' })[0]).toMatch(
      /can only be dmy/,
    );
  });

  it('refuses times that a clock leaves out', () => {
    const text = 'time,kW\n2023-03-26 01:30,1\n2023-03-26 02:30,2\n2023-03-26 03:30,2\n';
    expect(sentences(text, { timeZone: 'Europe/Berlin' })[0]).toMatch(/leaves out in spring/);
  });

  it('survives mutations of a file without a crash, a hang or a wrong total', () => {
    const rows = Array.from(
      { length: 96 },
      (_, i) =>
        `2025-01-0${1 + Math.floor(i / 48)} ${String(Math.floor((i % 48) / 2)).padStart(2, '0')}:${i % 2 ? '30' : '00'},${i % 10}.5`,
    );
    const text = ['time,kW', ...rows, ''].join('\n');
    const clean = bytes(text);
    const expected = read(text).sheet?.series[0].total ?? 0;
    let state = 7;
    const draw = (n: number) => {
      state = (Math.imul(state, 1103515245) + 12345) >>> 0;
      return Math.floor((state / 2 ** 32) * n);
    };
    let refused = 0;
    let same = 0;
    let changed = 0;
    for (let k = 0; k < 600; k++) {
      const at = draw(clean.length);
      const kind = k % 4;
      let mutated = Uint8Array.from(clean);
      if (kind === 0) mutated[at] ^= 1 << draw(8);
      else if (kind === 1) mutated = clean.slice(0, at);
      else if (kind === 2)
        mutated = Uint8Array.from([...clean.subarray(0, at), ...clean.subarray(at + draw(40))]);
      else mutated.set(bytes('999999999999999999'), Math.min(at, clean.length - 18));
      const result = readCsv(mutated, 'm.csv', base);
      if (result.series.length === 0) {
        refused++;
        expect(result.issues.some(({ severity }) => severity === 'error')).toBe(true);
      } else {
        const values = result.series[0].values;
        expect(values.every(Number.isFinite)).toBe(true);
        const total = values.reduce((sum, value) => sum + value / 2, 0);
        expect(result.sheet?.series[0].total).toBeCloseTo(total, 9);
        if (Math.abs(total - expected) < 1e-9) same++;
        else changed++;
      }
    }
    expect(refused).toBeGreaterThan(50);
    expect(same + changed).toBeGreaterThan(50);
  });

  it('refuses 200 MB of one line quickly', () => {
    const line = new Uint8Array(200_000_000).fill(65);
    const result = readCsv(line, 'line.csv', base);
    expect(result.series).toEqual([]);
    expect(result.issues.length).toBeGreaterThan(0);
  });
});

describe('what people send', () => {
  it('a line that names the delimiter, thousands groups, and tabs', () => {
    const grouped = read('sep=;\ntime;kW\n2025-01-01 00:00;"1,234.5"\n2025-01-01 00:30;2\n');
    expect(grouped.issues).toEqual([]);
    expect(Array.from(grouped.series[0].values)).toEqual([1234.5, 2]);
    expect(read('time\tkW\n2025-01-01 00:00\t1\n2025-01-01 00:30\t2\n').series[0].values[1]).toBe(2);
  });

  it('current per phase, with voltage and power factor', () => {
    const text = 'time,L1\n2025-01-01 00:00,10\n2025-01-01 00:30,20\n';
    const result = read(text, { columns: [load('L1', 'A')], phaseV: 230, powerFactor: 0.9 });
    expect(result.series[0].values[0]).toBeCloseTo(2.07, 12);
  });

  it('a running register, and one that begins anew', () => {
    const rows = [100, 101, 103, 104, 104.5].map((total, i) => `2025-01-01 0${i}:00,${total}`);
    const result = read(['time,R', ...rows, ''].join('\n'), { columns: [load('R', 'kWh register')] });
    // five readings bound four intervals: 4.5 kWh
    expect(Array.from(result.series[0].values)).toEqual([1, 2, 1, 0.5]);
    const reset = read(['time,R', ...rows, '2025-01-01 05:00,2', '2025-01-01 06:00,3', ''].join('\n'), {
      columns: [load('R', 'kWh register')],
    });
    expect(reset.issues.map(({ code }) => code)).toEqual(['register-reset']);
    expect(reset.sheet?.filled).toBe(1);
  });

  it('a register over a hole: its energy is known', () => {
    const text =
      'time,R\n2025-01-01 00:00,0\n2025-01-01 01:00,1\n2025-01-01 04:00,10\n2025-01-01 05:00,11\n2025-01-01 06:00,12\n';
    const result = read(text, { columns: [load('R', 'kWh register')] });
    expect(Array.from(result.series[0].values)).toEqual([1, 3, 3, 3, 1, 1]);
    expect(result.sheet?.filled).toBe(2);
  });

  it('refuses a point among decimal commas that groups nothing, and numbers beyond all bounds', () => {
    expect(
      sentences('time;kW\n2025-01-01 00:00;1,5\n2025-01-01 00:30;1.5\n', { decimalComma: true }),
    ).toEqual(["f.csv:3:2: kW: found '1.5'; expected a number, or nothing where the value is missing"]);
    expect(sentences('time,kW\n2025-01-01 00:00,1e999\n2025-01-01 00:30,1\n')[0]).toMatch(/found '1e999'/);
  });

  it('reads am and pm', () => {
    const text = 'time,kW\n2025-01-01 11:00 AM,1\n2025-01-01 12:00 PM,2\n2025-01-01 01:00 pm,3\n';
    expect(read(text).series[0]?.values).toEqual(Float64Array.of(1, 2, 3));
    expect(read('time,kW\n2025-01-01 12:00 AM,1\n2025-01-01 01:00 AM,2\n').sheet?.axis.startS).toBe(
      Date.UTC(2025, 0, 1) / 1000,
    );
  });

  it('refuses two columns of one name, and doubts energy beside a gap', () => {
    expect(sentences('time,kW,kW\n2025-01-01 00:00,1,2\n2025-01-01 00:30,1,2\n')[0]).toMatch(
      /two columns 'kW'/,
    );
    const energy = 'time,E\n2025-01-01 00:00,1\n2025-01-01 00:15,1\n2025-01-01 00:30,1\n2025-01-01 01:00,2\n';
    expect(read(energy, { columns: [load('E', 'kWh')] }).issues.map(({ code }) => code)).toEqual([
      'energy-beside-gap',
    ]);
  });
});

describe('many of one kind', () => {
  const stamp = (minute: number) =>
    new Date(Date.UTC(2024, 0, 1, 0, minute)).toISOString().slice(0, 16).replace('T', ' ');
  const rows = (line: (minute: number) => string) =>
    `time,kW\n${Array.from({ length: 130 }, (_, i) => line(i)).join('\n')}\n`;

  it.each([
    ['cells', (minute: number) => `${stamp(minute)},x`, 80],
    ['rows', (minute: number) => `${stamp(minute)},1,2`, 80],
    ['times', (minute: number) => `${minute % 2 === 0 ? stamp(minute) : 'never'},1`, 15],
    // the second half stands between two steps
    ['places', (minute: number) => `${stamp(minute)}:${minute < 65 ? '00' : '30'},1`, 15],
  ])('%s: the first fifty are listed and the rest counted', (_, line, more) => {
    const { issues, series } = read(rows(line));
    expect(series).toEqual([]);
    const listed = issues.filter(({ code }) => code !== 'more');
    const counted = issues.filter(({ code }) => code === 'more');
    expect(listed.length).toBeGreaterThanOrEqual(50);
    expect(counted.map(({ got }) => got)).toEqual([`${more} more like the 50 listed`]);
  });
});
