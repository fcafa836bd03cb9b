import { describe, expect, it } from 'vitest';
import { Findings } from '../../../src/scenarios/findings.ts';
import { clockBySun } from '../../../src/scenarios/log/clock-by-sun.ts';
import { readLog } from '../../../src/scenarios/log/read-log.ts';
import { recordTruth, USUAL_RECORDER } from '../../../src/scenarios/log/recorder.ts';
import type { SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import { Filed } from '../../../src/scenarios/many/ground.ts';
import { siteSchema } from '../../../src/scenarios/site-schema.ts';
import { type DemoSite, truthUnderSun, underTrueSun } from './true-sun.ts';

/** A year of each site by its own recorder, with arrays only: what a full battery cuts off is missing in them. */
const made = new Map<DemoSite, { site: Filed['site']; record: SiteRecord }>();
function madeOf(name: DemoSite) {
  const before = made.get(name);
  if (before) return before;
  const files = underTrueSun(name);
  const { site } = new Filed(files.text, files.file);
  const columns = ['arrayKw', 'loadKw'] as const;
  const record = recordTruth(truthUnderSun(files), { ...USUAL_RECORDER, columns, seed: `clock ${name}` });
  made.set(name, { site, record });
  return { site, record };
}

/** Some days of a record, as a recorder has them whose clock is ahead [min at the start, min more a day]. */
function seenBy(
  record: SiteRecord,
  fromDay: number,
  days: number,
  aheadMin: (day: number) => number,
): SiteRecord {
  const { axis } = record;
  const perDay = 1440 / axis.stepMin;
  const moved = (values: Float64Array) =>
    Float64Array.from({ length: days * perDay }, (_, i) => {
      const from = fromDay * perDay + i - Math.round(aheadMin(i / perDay) / axis.stepMin);
      return values[from] ?? Number.NaN;
    });
  const all = (of: Record<string, Float64Array>) =>
    Object.fromEntries(Object.entries(of).map(([name, values]) => [name, moved(values)]));
  return {
    ...record,
    axis: { ...axis, startS: axis.startS + fromDay * 86_400, count: days * perDay },
    columns: all(record.columns as Record<string, Float64Array>),
    arraysKw: all(record.arraysKw),
  };
}

const SITES = ['farm', 'workshop', 'hut'] as const;
const STRETCHES = [
  [0, 365],
  [0, 60],
  [90, 60],
  [180, 60],
  [300, 60],
  [180, 30],
] as const;
const CASES = SITES.flatMap((name) => STRETCHES.map(([from, days]) => ({ name, from, days })));

describe('a clock against the light on arrays that a full battery cuts off, north and south', () => {
  it.each(CASES)('$name, $days days from day $from: right is left alone', ({ name, from, days }) => {
    const { site, record } = madeOf(name);
    const found = new Findings('log.csv');
    expect(
      clockBySun(
        seenBy(record, from, days, () => 0),
        site,
        found,
      ),
    ).toEqual({ addedH: 0, driftHPerDay: 0, by: 'right' });
    expect(found.issues).toEqual([]);
  });

  it.each(CASES)(
    '$name, $days days from day $from: off by hours or minutes is found',
    ({ name, from, days }) => {
      const { site, record } = madeOf(name);
      for (const aheadMin of [60, -120, 600, -37, 45]) {
        const found = new Findings('log.csv');
        const clock = clockBySun(
          seenBy(record, from, days, () => aheadMin),
          site,
          found,
        );
        expect(clock.by).toBe('sun');
        expect(Math.abs(clock.addedH * 60 + aheadMin)).toBeLessThan(10);
        if (aheadMin % 60 === 0) expect(clock.addedH * 60).toBeCloseTo(-aheadMin, 9);
        expect(found.issues.map(({ code }) => code)).toEqual(['clock']);
      }
    },
  );

  it.each(SITES)('%s: minutes a week are found', (name) => {
    const { site, record } = madeOf(name);
    for (const perWeek of [5, -12]) {
      const clock = clockBySun(
        seenBy(record, 20, 200, (day) => 10 + (perWeek * day) / 7),
        site,
        new Findings('log.csv'),
      );
      expect(clock.by).toBe('sun');
      expect(Math.abs(clock.driftHPerDay * 60 * 7 + perWeek)).toBeLessThan(1);
      expect(Math.abs(clock.addedH * 60 + 10)).toBeLessThan(15);
    }
  });

  it.each(SITES)('%s: an hour ahead in summer time is told, with its days, and not put right', (name) => {
    const { site, record } = madeOf(name);
    const [from, to] = [88, 298];
    const found = new Findings('log.csv');
    const clock = clockBySun(
      seenBy(record, 0, 365, (day) => (day >= from && day < to ? 60 : 0)),
      site,
      found,
    );
    expect(clock).toMatchObject({ addedH: 0, by: 'unknown' });
    const [issue] = found.issues;
    expect(issue.code).toBe('clock-hour');
    const [, first, last] = /from about (\S+) to about (\S+),/.exec(issue.got) ?? [];
    const dayOf = (date: string) => (Date.parse(`${date}T00:00Z`) / 1000 - record.axis.startS) / 86_400;
    expect(Math.abs(dayOf(first) - from)).toBeLessThan(12);
    expect(Math.abs(dayOf(last) - to)).toBeLessThan(12);
  });

  it('days that are too long for the month are doubted', () => {
    const { site, record } = madeOf('farm');
    // summer, dated half a year earlier
    const summer = seenBy(record, 150, 60, () => 0);
    const found = new Findings('log.csv');
    clockBySun({ ...summer, axis: { ...summer.axis, startS: record.axis.startS } }, site, found);
    expect(found.issues.map(({ code }) => code)).toContain('long-days');
  });

  it('nothing that sees the sun, or too few days, tell nothing', () => {
    const { site, record } = madeOf('farm');
    const { axis, columns, sheet } = record;
    const dark = { axis, columns: { loadKw: columns.loadKw as Float64Array }, arraysKw: {}, sheet };
    expect(clockBySun(dark, site, new Findings('log.csv')).by).toBe('unknown');
    expect(
      clockBySun(
        seenBy(record, 100, 4, () => 60),
        site,
        new Findings('log.csv'),
      ).by,
    ).toBe('unknown');
  });
});

describe('a clock that was put right', () => {
  it('moves the rows, and says so', () => {
    const { site, record } = madeOf('farm');
    const { csv, log } = writtenAhead(record);
    const { record: read } = readLog(
      { ...site, log: siteSchema.shape.log.parse({ file: 'log.csv', ...log }) },
      () => new TextEncoder().encode(csv),
      () => ({ file: 'site.yaml' }),
    );
    expect(read?.sheet.clock).toEqual({ addedH: -2, driftHPerDay: 0, by: 'sun' });
    expect(read?.axis.startS).toBe(record.axis.startS);
  });
});

/** Forty days of the load and all arrays, written by hand with a clock two hours ahead. */
function writtenAhead({ axis, columns }: SiteRecord) {
  const rows = Array.from({ length: 40 * 288 }, (_, i) => {
    const shown = new Date((axis.startS + 3600 + 7200 + (i + 1) * 300) * 1000).toISOString();
    const cell = (values: Float64Array | undefined) => (values && !Number.isNaN(values[i]) ? values[i] : '');
    return `${shown.slice(0, 16)},${cell(columns.loadKw)},${cell(columns.arrayKw)}`;
  });
  const declared = { L: { is: 'load', unit: 'kW' }, P: { is: 'array', unit: 'kW' } };
  return { csv: ['time,L,P', ...rows].join('\n'), log: { stamp: 'end', columns: declared } };
}
