import { describe, expect, it } from 'vitest';
import { mutate } from '../mutations.ts';
import {
  BATTERY_KW,
  CHARGE,
  FARM_SITE,
  LOAD_KW,
  PLAIN_LOG,
  plainLines,
  readBytes,
  readLines,
  stampAt,
} from './small-log.ts';

type Read = ReturnType<typeof readLines>;
const codes = ({ issues }: Read) => issues.map(({ code }) => code);
const issueOf = ({ issues }: Read, code: string) => issues.find((issue) => issue.code === code);
function recordOf(read: Read) {
  if (read.record === null) throw new Error(JSON.stringify(read.issues, null, 1));
  return read.record;
}
const values = (read: Read, name: 'loadKw' | 'batteryKw' | 'socFrac' | 'generatorOn' | 'fuelL') =>
  recordOf(read).columns[name] as Float64Array;

/** The plain log with some of its lines changed. */
function damaged(change: (lines: string[]) => void, steps = 480) {
  const lines = plainLines(steps);
  change(lines);
  return readLines(lines);
}

/** The plain log with one more column. */
function withColumn(header: string, declared: object, cell: (i: number) => string | number, steps = 480) {
  const lines = plainLines(steps).map((line, i) => `${line},${i === 0 ? header : cell(i - 1)}`);
  return readLines(lines, { ...PLAIN_LOG, columns: { ...PLAIN_LOG.columns, [header]: declared } });
}

const stampSeconds = (s: number) =>
  new Date(Date.UTC(2025, 2, 1) + s * 1000).toISOString().slice(0, 19).replace('T', ' ');

describe('a plain log', () => {
  it('is read as it stands, on the axis of its stamps', () => {
    const read = damaged(() => {});
    const { axis, sheet } = recordOf(read);
    expect(read.issues).toEqual([]);
    expect(axis).toEqual({ startS: Date.UTC(2025, 1, 28, 23) / 1000, stepMin: 15, count: 480 });
    expect([...values(read, 'loadKw')]).toEqual(Array.from({ length: 480 }, (_, i) => LOAD_KW(i)));
    expect([...values(read, 'socFrac')]).toEqual(Array.from({ length: 480 }, (_, i) => CHARGE(i) * 0.01));
    expect(sheet).toMatchObject({ rows: 480, gaps: [], duplicates: 0, resets: 0, clock: { by: 'unknown' } });
    // 1 to 2.75 kW in eight steps: a mean of 1.875 kW over 120 h
    expect(sheet.columns[1]).toMatchObject({
      is: 'loadKw',
      total: 225,
      lowest: 1,
      highest: 2.75,
      missing: 0,
      quantum: 0.25,
    });
    expect(sheet.columns[0].quantum).toBeCloseTo(0.01, 12);
  });

  it('stamped at the start begins a step later', () => {
    const { axis } = recordOf(readLines(plainLines(), { ...PLAIN_LOG, stamp: 'start' }));
    expect(axis.startS).toBe(Date.UTC(2025, 1, 28, 23, 15) / 1000);
  });
});

describe('rows of a log', () => {
  it('that are missing stay missing', () => {
    const read = damaged((lines) => lines.splice(101, 5));
    expect([...values(read, 'loadKw').subarray(99, 106)].map(Number.isNaN)).toEqual([
      false,
      true,
      true,
      true,
      true,
      true,
      false,
    ]);
    expect(recordOf(read).sheet.gaps).toEqual([{ startS: Date.UTC(2025, 2, 2) / 1000, steps: 5 }]);
    expect(recordOf(read).sheet.columns[1].missing).toBe(5);
  });

  it('one alone, too, in a log of equal steps', () => {
    const read = damaged((lines) => lines.splice(101, 1));
    expect(values(read, 'loadKw')[100]).toBeNaN();
    expect(values(read, 'socFrac')[100]).toBeNaN();
  });

  it('that are written twice count once, the first of them', () => {
    const read = damaged((lines) => lines.splice(51, 0, lines[50].replace(/,[^,]+,/, ',99,')));
    expect(recordOf(read).sheet.duplicates).toBe(1);
    expect(issueOf(read, 'duplicates')?.at.line).toBe(52);
    expect(values(read, 'socFrac')[49]).toBeCloseTo(CHARGE(49) / 100, 12);
  });

  it('out of turn are put in order', () => {
    const read = damaged((lines) => lines.splice(300, 0, ...lines.splice(100, 4)));
    expect(recordOf(read).sheet.resets).toBe(1);
    expect(issueOf(read, 'order')?.at.line).toBe(301);
    expect([...values(read, 'loadKw')]).toEqual(Array.from({ length: 480 }, (_, i) => LOAD_KW(i)));
  });

  it('of a clock that was set back are there already', () => {
    const read = damaged((lines) => {
      for (let line = 241; line < lines.length; line++)
        lines[line] = lines[line].replace(/^[^,]+/, stampAt(line - 2 - 8));
    });
    expect(recordOf(read).sheet).toMatchObject({ resets: 1, duplicates: 9 });
    expect(issueOf(read, 'order')?.at.line).toBe(242);
  });

  it('of a clock that was set back, at other minutes than those before, are there already too', () => {
    const read = damaged((lines) => {
      for (let line = 241; line < lines.length; line++)
        lines[line] = lines[line].replace(/^[^,]+/, stampAt((line - 2) * 15 - 127, 1));
    });
    // the first shows 2 h 21 min before the last of the others: ten quarters of an hour, the tenth 6 min before it
    expect(recordOf(read).sheet.duplicates).toBe(10);
  });

  it('that speak for less than half of a step make no value of it', () => {
    const lines = plainLines().map((line, i) =>
      i === 0 ? line : line.replace(/^[^,]+/, stampAt(i - 1, 14)),
    );
    // rows of 14 min on steps of 15: of the first step without rows, from 1395 min on, a third is known
    lines.splice(101, 4);
    const load = values(readLines(lines), 'loadKw');
    expect(load.reduce((sum, kw) => sum + Number(Number.isNaN(kw)), 0)).toBe(4);
    expect(load[93]).toBeNaN();
  });

  it('as long as a step belong to one step each, however their stamps stand', () => {
    const late = plainLines().map((line, i) =>
      i === 0 ? line : line.replace(/^[^,]+/, stampAt((i - 1) * 15 + 19, 1)),
    );
    expect(values(readLines(late), 'loadKw')).toEqual(values(readLines(plainLines()), 'loadKw'));
  });

  it('of a clock that gains are laid one by one, but for where it has gained a step', () => {
    // 15.01 min each: after 750 of them half a step
    const lines = plainLines(1500).map((line, i) =>
      i === 0 ? line : line.replace(/^[^,]+/, stampSeconds(Math.round(i * 15.01 * 60))),
    );
    const read = readLines(lines);
    const load = values(read, 'loadKw');
    expect(load.length).toBe(1501);
    const even = values(readLines(plainLines(1500)), 'loadKw');
    expect(load.subarray(0, 749)).toEqual(even.subarray(0, 749));
    expect(load.subarray(751)).toEqual(even.subarray(750));
    expect(values(read, 'socFrac').every((soc) => soc > 0)).toBe(true);
  });

  it('of a clock that was lost are left out', () => {
    const read = damaged((lines) => {
      for (const line of [200, 201, 202]) lines[line] = lines[line].replace(/^2025-03-\d\d/, '2000-01-01');
    });
    expect(issueOf(read, 'far-rows')?.at.line).toBe(201);
    expect(recordOf(read).axis.count).toBe(480);
  });

  it.each([
    ['a header again', 'time,Charge %,Load kW,Battery kW,Set kW,Cabinet C'],
    ['a footer', 'Total,,900,,,'],
    ['a cut line', '2025-03-03 00:'],
  ])('%s is left out and told', (_name, line) => {
    const read = damaged((lines) => lines.splice(200, 0, line));
    expect(issueOf(read, 'rows-left-out')?.at.line).toBe(201);
    expect([...values(read, 'loadKw')]).toEqual(Array.from({ length: 480 }, (_, i) => LOAD_KW(i)));
  });

  it('mostly without a time are refused', () => {
    const read = damaged((lines) => {
      for (let line = 1; line < 100; line++) lines[line] = lines[line].replace(/^[^,]+/, 'later');
    });
    expect(read.record).toBeNull();
    expect(codes(read)).toContain('few-rows');
  });

  it('that cannot be on a calendar are left out', () => {
    const read = damaged((lines) => {
      lines[77] = lines[77].replace(/^[^ ]+/, '2025-02-30');
    });
    expect(issueOf(read, 'bad-time')?.at.line).toBe(78);
    expect(values(read, 'loadKw')[76]).toBeNaN();
  });

  it('with seconds in their stamps keep to the step', () => {
    const lines = plainLines().map((line, i) =>
      i === 0 ? line : line.replace(/:(\d\d),/, `:$1:0${i % 7},`),
    );
    const read = readLines(lines);
    const load = values(read, 'loadKw');
    expect(recordOf(read).axis).toMatchObject({ stepMin: 15, count: 480 });
    for (let i = 0; i < 480; i++) expect(Math.abs(load[i] - LOAD_KW(i))).toBeLessThan(0.02);
    expect(values(read, 'socFrac')[200]).toBeCloseTo(CHARGE(200) / 100, 12);
  });
});

describe('cells of a log', () => {
  it.each(['n/a', '--', 'null', ''])('with %j are missing', (text) => {
    const read = damaged((lines) => {
      lines[50] = lines[50].replace(/^([^,]+,[^,]+),[^,]+/, `$1,${text}`);
    });
    expect(values(read, 'loadKw')[48]).not.toBeNaN();
    expect(values(read, 'loadKw')[49]).toBeNaN();
    expect(recordOf(read).sheet.columns[1].missing).toBe(1);
    expect(recordOf(read).sheet.gaps).toEqual([]);
  });

  it('with other text are missing and told', () => {
    const read = damaged((lines) => {
      lines[50] = lines[50].replace(/^([^,]+,[^,]+),[^,]+/, '$1,overload');
    });
    expect(issueOf(read, 'text')?.at).toMatchObject({ line: 51, column: 3 });
    expect(values(read, 'loadKw')[49]).toBeNaN();
  });

  it('with decimal commas are read as declared, and refused with the remedy where not', () => {
    const lines = plainLines().map((line) => line.replaceAll(',', ';').replaceAll('.', ','));
    const read = readLines(lines, { ...PLAIN_LOG, decimalComma: true });
    expect([...values(read, 'loadKw')]).toEqual(Array.from({ length: 480 }, (_, i) => LOAD_KW(i)));
    expect(issueOf(readLines(lines), 'no-numbers')?.want).toBe('decimalComma: true in the site file');
  });

  it('of −9900 W are watts', () => {
    const watts = {
      ...PLAIN_LOG,
      columns: { 'Battery kW': { is: 'battery power', unit: 'W', positive: 'charging' } },
    };
    const lines = plainLines().map((line, i) =>
      i === 0 ? line : line.replace(/^([^,]+,[^,]+,[^,]+),[^,]+/, '$1,-9900'),
    );
    expect(values(readLines(lines, watts), 'batteryKw')[7]).toBe(-9.9);
  });

  it('that cannot be are slips: a few count as missing', () => {
    const read = damaged((lines) => {
      lines[60] = lines[60].replace(/^([^,]+),[^,]+/, '$1,6553');
    });
    expect(issueOf(read, 'impossible')?.at.line).toBe(61);
    expect(values(read, 'socFrac')[59]).toBeNaN();
  });

  it('in watts that are declared as kW are doubted, with the unit that would fit', () => {
    const read = withColumn('L1', { is: 'load phase 1', unit: 'kW' }, (i) => 900 + i);
    expect(issueOf(read, 'unit')).toMatchObject({
      path: 'L1',
      want: 'unit: W would fit; the column is left out',
    });
    expect(read.record?.columns.load1Kw).toBeUndefined();
    const { missing } = read.record?.sheet.columns.find(({ header }) => header === 'L1') ?? {};
    expect(missing).toBe(read.record?.axis.count);
  });

  it('in kW that are declared as watts, too', () => {
    const read = withColumn('L1', { is: 'load phase 1', unit: 'W' }, (i) => 1 + (i % 5));
    expect(issueOf(read, 'unit')).toMatchObject({ path: 'L1', want: 'unit: kW would fit' });
  });

  it.each([
    [
      { is: 'cell temperature', unit: 'C' },
      (i: number) => 288.15 + (i % 3),
      'unit: K would fit; the column is left out',
    ],
    [
      { is: 'outside temperature', unit: 'C' },
      (i: number) => 68 + (i % 3),
      'unit: F would fit; the column is left out',
    ],
  ])('of %j that no site has: another unit fits', (declared, cell, want) => {
    expect(issueOf(withColumn('T', declared, cell), 'unit')?.want).toBe(want);
  });

  it('that stay the same for days are doubted', () => {
    const read = withColumn('Cells', { is: 'cell temperature', unit: 'C' }, (i) =>
      i < 100 || i > 350 ? 15 + (i % 9) / 10 : 16.5,
    );
    expect(issueOf(read, 'frozen')).toMatchObject({ path: 'Cells' });
    expect(issueOf(read, 'frozen')?.got).toContain('without a change for 63 h from 2025-03-02T00:00Z');
  });
});

describe('units of a log', () => {
  it('of temperature', () => {
    const read = withColumn('F', { is: 'cell temperature', unit: 'F' }, (i) => 50 + (i % 5) * 9);
    expect(recordOf(read).columns.cellC?.[1]).toBeCloseTo(15, 12);
    const kelvin = withColumn('K', { is: 'outside temperature', unit: 'K' }, (i) => 273.15 + (i % 5));
    expect(recordOf(kelvin).columns.outsideC?.[4]).toBeCloseTo(4, 9);
  });

  it('of energy by the interval', () => {
    const read = withColumn('Wh', { is: 'load phase 1', unit: 'Wh' }, () => 250);
    expect(recordOf(read).columns.load1Kw?.[7]).toBe(1);
  });

  it('of a running total: what it rose by, and what began anew is missing', () => {
    const read = withColumn('kWh', { is: 'load phase 1', unit: 'kWh register' }, (i) =>
      i < 200 ? 100 + i * 0.5 : (i - 200) * 0.5,
    );
    const load = recordOf(read).columns.load1Kw as Float64Array;
    expect(load[0]).toBeNaN();
    expect(load[100]).toBe(2);
    expect(load[200]).toBeNaN();
    expect(load[201]).toBe(2);
    expect(issueOf(read, 'register-reset')?.path).toBe('kWh');
  });

  it('of a running total that begins anew every two hours: nothing is made up for the fall', () => {
    const read = withColumn('kWh', { is: 'load phase 1', unit: 'kWh register' }, (i) => (i % 8) * 0.5);
    const load = recordOf(read).columns.load1Kw as Float64Array;
    expect(load[7]).toBe(2);
    expect(load[8]).toBeNaN();
    expect(load[9]).toBe(2);
  });

  it('of a running total that goes round at the end of its digits', () => {
    const read = withColumn(
      'kWh',
      { is: 'load phase 1', unit: 'kWh register' },
      (i) => (9950 + i * 0.5) % 10_000,
    );
    const load = recordOf(read).columns.load1Kw as Float64Array;
    expect(load[99]).toBe(2);
    expect(load[100]).toBe(2);
    expect(load[101]).toBe(2);
  });

  it('of an engine: hours that run on, minutes of the interval, contact', () => {
    const hours = withColumn('h', { is: 'generator running', unit: 'h register' }, (i) => 100 + i * 0.125);
    expect(values(hours, 'generatorOn')[5]).toBe(0.5);
    const minutes = withColumn('min', { is: 'generator running', unit: 'min' }, (i) =>
      i % 2 === 0 ? 15 : 3,
    );
    expect([...values(minutes, 'generatorOn').subarray(0, 2)]).toEqual([1, 0.2]);
  });

  it('of the tank: a share of it', () => {
    expect(
      values(
        withColumn('Fuel', { is: 'fuel level', unit: '%' }, (i) => 90 - (i % 40)),
        'fuelL',
      )[10],
    ).toBe(800);
  });

  it('of current and voltage make the battery power', () => {
    const { 'Battery kW': _, ...columns } = PLAIN_LOG.columns;
    const lines = plainLines().map(
      (line, i) => `${line},${i === 0 ? 'A,V' : `${(BATTERY_KW(i - 1) * 1000) / 50},50`}`,
    );
    const read = readLines(lines, {
      ...PLAIN_LOG,
      columns: {
        ...columns,
        A: { is: 'battery current', unit: 'A', positive: 'charging' },
        V: { is: 'battery voltage', unit: 'V' },
      },
    });
    expect(values(read, 'batteryKw')[20]).toBeCloseTo(BATTERY_KW(20), 9);
  });
});

describe('signs of a log', () => {
  const declared = (positive: string | undefined) => ({
    ...PLAIN_LOG,
    columns: {
      ...PLAIN_LOG.columns,
      'Battery kW': { is: 'battery power', unit: 'kW', ...(positive && { positive }) },
    },
  });
  const turned = plainLines().map((line, i) =>
    i === 0 ? line : line.replace(/^([^,]+,[^,]+,[^,]+),([^,]+)/, (_, a, b) => `${a},${-b}`),
  );

  it('as declared', () => {
    const read = readLines(turned, declared('discharging'));
    expect(read.issues).toEqual([]);
    expect(values(read, 'batteryKw')[20]).toBe(BATTERY_KW(20));
    expect(recordOf(read).sheet.columns[2].turned).toBe('declared');
  });

  it('found by the charge where not declared', () => {
    const read = readLines(turned, declared(undefined));
    expect(values(read, 'batteryKw')[20]).toBe(BATTERY_KW(20));
    expect(recordOf(read).sheet.columns[2].turned).toBe('found');
    expect(issueOf(read, 'sign')?.path).toBe('Battery kW');
    expect(codes(readLines(plainLines(), declared(undefined)))).toEqual([]);
  });

  it('declared against the data: doubted, not turned', () => {
    const read = readLines(turned, declared('charging'));
    expect(issueOf(read, 'sign')?.want).toContain('positive: discharging?');
    expect(values(read, 'batteryKw')[20]).toBe(-BATTERY_KW(20));
  });

  it('that nothing tells: doubted', () => {
    const { 'Charge %': _, ...columns } = declared(undefined).columns as Record<string, object>;
    expect(issueOf(readLines(plainLines(), { ...PLAIN_LOG, columns }), 'sign')?.got).toContain(
      'no column tells',
    );
  });

  it('of a load that is negative all the time', () => {
    const read = withColumn('L1', { is: 'load phase 1', unit: 'kW' }, (i) => -1 - (i % 3));
    expect(recordOf(read).columns.load1Kw?.[4]).toBe(2);
    expect(issueOf(read, 'sign')?.path).toBe('L1');
  });
});

describe('uneven rows', () => {
  it('at two rates: each speaks for its own stretch', () => {
    // a quarter of an hour, and a minute while the generator runs (two hours of each day)
    const rows: string[] = ['time,Load'];
    for (let minute = 1; minute <= 5 * 1440; minute++) {
      const isFine = minute % 1440 >= 600 && minute % 1440 < 720;
      if (isFine || minute % 15 === 0) rows.push(`${stampAt(minute - 1, 1)},${isFine ? 5 : 2}`);
    }
    const read = readLines(rows, {
      file: 'a.csv',
      stamp: 'end',
      columns: { Load: { is: 'load', unit: 'kW' } },
    });
    const { axis, sheet } = recordOf(read);
    expect(axis.stepMin).toBe(1);
    expect(sheet.gaps).toEqual([]);
    // 22 h of 2 kW and 2 h of 5 kW a day, but for the stretches beside
    expect(Math.abs(sheet.columns[0].total - 5 * 54)).toBeLessThan(5);
  });

  it('at events: held to the next, not over a hole', () => {
    const at = [0, 3, 8, 11, 18, 20, 27, 33, 36, 41, 45, 52, 240, 247, 250, 258, 260, 266];
    const rows = at.map((minute) => `${stampAt(minute - 1, 1)},${1 + (minute % 2)}`);
    const read = readLines(['time,Load', ...rows], {
      file: 'a.csv',
      stamp: 'start',
      columns: { Load: { is: 'load', unit: 'kW' } },
    });
    expect(codes(read)).toContain('uneven');
    const load = values(read, 'loadKw');
    const { startS, stepMin } = recordOf(read).axis;
    const stepAt = (minute: number) =>
      Math.floor((Date.UTC(2025, 1, 28, 23) / 1000 + minute * 60 - startS) / (stepMin * 60));
    expect(load[stepAt(15)]).toBe(2);
    expect(load[stepAt(120)]).toBeNaN();
    expect(recordOf(read).sheet.gaps[0].steps * stepMin).toBeGreaterThan(170);
  });
});

describe('a log that cannot be read', () => {
  it('that is empty, or has a header only, is called so', () => {
    expect(issueOf(readLines(['']), 'empty')?.got).toBe('an empty file');
    expect(issueOf(readLines(plainLines(4).slice(0, 1)), 'few-rows')?.got).toBe('no rows below the header');
  });

  it('says that a site names none', () => {
    const { 'Charge %': charge } = PLAIN_LOG.columns;
    expect(charge).toBeDefined();
    const read = readLines(plainLines(), { ...PLAIN_LOG, columns: { Nothing: charge } });
    expect(issueOf(read, 'missing-column')).toMatchObject({ path: 'Nothing', at: { line: 1 } });
    expect(read.record).toBeNull();
  });

  it('says all that is wrong at once, and never half reads it', () => {
    const read = readLines(plainLines(), {
      ...PLAIN_LOG,
      timeZone: 'Moon/Crater',
      columns: { ...PLAIN_LOG.columns, X: { is: 'fuel level', unit: 'L' } },
    });
    expect(codes(read).sort()).toEqual(['missing-column', 'time-zone']);
  });

  it('gives issues or a sound record for every mutation', () => {
    const clean = new TextEncoder().encode(plainLines(200).join('\n'));
    let state = 7;
    const draw = (n: number) => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return Math.floor((state / 2 ** 32) * n);
    };
    let [refused, kept] = [0, 0];
    for (let k = 0; k < 300; k++) {
      const { record, issues } = readBytes(mutate(clean, k % 6, draw), PLAIN_LOG, FARM_SITE);
      const isRefused = issues.some(({ severity }) => severity === 'error');
      expect(record === null).toBe(isRefused);
      if (record === null) {
        refused++;
        continue;
      }
      kept++;
      const { axis, columns, sheet } = record;
      for (const column of Object.values(columns)) {
        expect(column.length).toBe(axis.count);
        expect(column.every((value) => Number.isNaN(value) || Number.isFinite(value))).toBe(true);
      }
      const load = columns.loadKw as Float64Array;
      const total = load.reduce((sum, kw) => sum + (Number.isNaN(kw) ? 0 : kw), 0) * (axis.stepMin / 60);
      expect(sheet.columns[1].total).toBeCloseTo(total, 6);
    }
    expect(refused).toBeGreaterThan(20);
    expect(kept).toBeGreaterThan(100);
  });
});
