/** Parts of a visit's pages by themselves: steps of causes, ranges, days without a log. */
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { loggedDaysChart } from '../../../src/report/charts/logged-days.ts';
import { causeRows } from '../../../src/report/visit/cause-rows.ts';
import { estimateTexts } from '../../../src/report/visit/estimate-words.ts';
import { isFaded, isMaterial } from '../../../src/report/visit/material.ts';
import { measureOf } from '../../../src/report/visit/measure.ts';
import { periodsOf } from '../../../src/report/visit/periods.ts';
import { retuneSentences } from '../../../src/report/visit/retune-words.ts';
import { fullestVisit, richVisit } from './fixture-visit.ts';

describe('steps of causes', () => {
  it('lead from the promised to the used, small ones together', () => {
    const visit = fullestVisit();
    const rows = causeRows(visit, measureOf(visit)!);
    expect(rows.map(({ text }) => text).filter((text) => /smaller causes together/.test(text))).toHaveLength(
      1,
    );
    for (let i = 1; i < rows.length - 1; i++) expect(rows[i].from).toBeCloseTo(rows[i - 1].to, 9);
    const [last, used] = rows.slice(-2);
    expect(last.to).toBeCloseTo(used.to, 9);
  });
});

describe('ranges of what is saved', () => {
  it('are turned where it costs more', () => {
    const { retune } = richVisit();
    const costs = richVisit({ retune: { ...retune, litresAMonth: { value: -5, low: -8, high: -2 } } });
    const said = retuneSentences(costs).join(' ');
    expect(said).toContain('5.0 L (2.0 to 8.0) more fuel');
    // 5 · 1.6, 2 · 1.6, 8 · 1.6
    expect(said).toMatch(/That costs \$8\.00 \(3\.20 to 12\.80\) a month/);
  });

  it('say where it may save nothing', () => {
    const { retune } = richVisit();
    const unsure = richVisit({ retune: { ...retune, litresAMonth: { value: 5, low: -1, high: 9 } } });
    expect(retuneSentences(unsure).join(' ')).toContain('It may save nothing');
    expect(retuneSentences(richVisit()).join(' ')).not.toContain('It may save nothing');
  });
});

describe('days that the log does not cover', () => {
  const visit = richVisit();
  const { days } = visit.comparison;

  it('are hatched, a stretch at a time', () => {
    const { document } = parseHTML('<!doctype html><html><body></body></html>');
    const drawing = loggedDaysChart(visit, 720, 'days', document);
    const hatched = [...drawing.querySelectorAll('path[fill="url(#hatch-saved)"]')].map(
      (path) => (path.getAttribute('d') ?? '').split('M').length - 1,
    );
    // three stretches in each of three lanes
    expect(hatched).toEqual([3, 3, 3]);
  });

  it('are left out of both means of their month', () => {
    // 20 to 26 July and the rest of the month are 7 and 24 days
    const designedKwh = days.designedKwh.map(() => 10);
    const ranKwh = days.ranKwh.map((kwh) => (kwh === null ? null : 12));
    const known = { ...visit, comparison: { ...visit.comparison, days: { ...days, designedKwh, ranKwh } } };
    const july = periodsOf(known).find(({ label }) => label === 'Jul');
    expect(july).toMatchObject({ name: 'July 2025', days: 31, compared: 24, designedKwh: 10, ranKwh: 12 });
  });

  it('leave weeks of a short log, told by their first days', () => {
    const short = {
      startS: days.startS.slice(0, 20),
      designedKwh: Array(20).fill(1),
      ranKwh: Array(20).fill(2),
      calibratedKwh: Array(20).fill(2),
    };
    const toS = visit.fromS + 20 * 86_400;
    const weeks = periodsOf({ ...visit, toS, comparison: { ...visit.comparison, days: short } });
    expect(weeks.map(({ label, days: count }) => `${label}: ${count}`)).toEqual([
      '1 Jan: 7',
      '8 Jan: 7',
      '15 Jan: 6',
    ]);
  });
});

describe('an estimate', () => {
  const known = { key: 'loadFactor' as const, basis: { count: 9, of: 'days' as const }, fromS: 0, toS: 1 };

  it('is worth telling where its interval leaves the designed value out, and it is 2 % or more from it', () => {
    const told = (value: number, low: number, high: number, designed: number | null) =>
      isMaterial({ ...known, value, low, high, designed });
    expect(told(1.1, 1.05, 1.2, 1)).toBe(true);
    expect(told(0.9, 0.8, 0.99, 1)).toBe(true);
    expect(told(1.1, 0.95, 1.2, 1)).toBe(false);
    expect(told(1.1, 1.05, 1.2, null)).toBe(false);
    expect(told(1.02, 1.01, 1.03, 1)).toBe(true);
    expect(told(1.019, 1.01, 1.03, 1)).toBe(false);
    expect(told(9.81, 9.8, 9.9, 10)).toBe(false);
    expect(told(0.05, 0.01, 0.1, 0)).toBe(true);
  });

  it('is of a battery that holds less than named from 3 % on, with its whole interval below', () => {
    const faded = (value: number, low: number, high: number, designed: number | null = 60) =>
      isFaded({ ...known, key: 'usableKwh', value, low, high, designed });
    expect(faded(58.2, 57, 59.4)).toBe(true);
    expect(faded(58.3, 57.5, 59.1)).toBe(false);
    expect(faded(56, 51, 61)).toBe(false);
    expect(faded(64, 63, 65)).toBe(false);
    expect(faded(50, 49, 51, null)).toBe(false);
  });

  it('has the digits that its interval allows, and no more than four', () => {
    expect(estimateTexts({ ...known, value: 1.14987, low: 1.14975, high: 1.14999, designed: 1 }).value).toBe(
      '115.0',
    );
    expect(estimateTexts({ ...known, value: 1.14987, low: 1.05, high: 1.25, designed: 1 })).toEqual({
      value: '115',
      low: '105',
      high: '125',
      designed: '100',
    });
  });
});
