import { describe, expect, it } from 'vitest';
import { studyJson } from '../../src/report/json.ts';
import { monthRows, wholeOf } from '../../src/report/months.ts';
import { runsByMonth } from '../../src/report/run-table.ts';
import { makeView } from '../../src/report/view.ts';
import { fixtureStudy } from './fixture.ts';

const study = fixtureStudy({ stepMin: 15 });
const view = makeView(study);

describe('the months', () => {
  it('add up to the year', () => {
    for (const result of study.alternatives) {
      const rows = monthRows(view, result);
      expect(rows.map(({ short }) => short)).toEqual([
        'Jan',
        'Feb',
        'Mar',
        'Apr',
        'May',
        'Jun',
        'Jul',
        'Aug',
        'Sep',
        'Oct',
        'Nov',
        'Dec',
      ]);
      const whole = wholeOf(rows);
      const { totals } = result.ledger;
      expect(whole.loadKwh).toBeCloseTo(totals.loadKwh, 6);
      expect(whole.arrayKwh).toBeCloseTo(totals.dcUsedKwh + totals.acUsedKwh, 6);
      expect(whole.generatorKwh).toBeCloseTo(totals.generatorKwh, 6);
      expect(whole.fuelL).toBeCloseTo(totals.fuelL, 6);
      expect(whole.starts).toBe(totals.starts);
      expect(whole.runningCost).toBeCloseTo(result.money.runningFirstYear, 6);
    }
  });

  it('are none where the periods are not the calendar’s', () => {
    const [result] = study.alternatives;
    const fewer = { ...result, ledger: { ...result.ledger, periods: result.ledger.periods.slice(1) } };
    expect(monthRows(view, fewer)).toEqual([]);
  });
});

describe('the run list', () => {
  it('holds every run once, by the month in which it starts', () => {
    const [result] = study.alternatives;
    const months = runsByMonth(view, result);
    expect(months.flatMap(({ list }) => list)).toEqual(result.ledger.runs);
    expect(months.every(({ left }) => left === 0)).toBe(true);
    expect(months.reduce((sum, { litres }) => sum + litres, 0)).toBeCloseTo(result.ledger.totals.fuelL, 6);
  });

  it('keeps the longest of each month where there are too many, and says how many it left', () => {
    const [result] = study.alternatives;
    const runs = Array.from({ length: 900 }, (_, i) => ({
      ...result.ledger.runs[0],
      startH: i * 9,
      endH: i * 9 + 0.5 + (i % 7),
    }));
    const months = runsByMonth(view, { ...result, ledger: { ...result.ledger, runs } });
    expect(months.reduce((sum, month) => sum + month.runs, 0)).toBe(900);
    for (const { list, left, runs: all } of months) {
      expect(list.length + left).toBe(all);
      expect(list.length).toBe(Math.min(12, all));
      expect(list.map(({ startH }) => startH)).toEqual(
        list.map(({ startH }) => startH).sort((a, b) => a - b),
      );
      if (all > 70) for (const run of list) expect(run.endH - run.startH).toBeGreaterThan(5);
    }
  });
});

describe('the JSON', () => {
  const json = studyJson(study);

  it('holds the ledger without the columns, and is finite', () => {
    expect(json.alternatives).toHaveLength(4);
    expect(json.alternatives[0].ledger.totals).toEqual(
      JSON.parse(JSON.stringify(study.alternatives[0].ledger.totals)),
    );
    expect(json.alternatives[0]).not.toHaveProperty('columns');
    expect(json.alternatives[0]).not.toHaveProperty('inputs');
    expect(json.alternatives[0].controls.charge?.absorptionMaxH).toBeNull();
    expect(JSON.stringify(json).length).toBeLessThan(1_000_000);
  });

  it('gives instants in UTC', () => {
    expect(json.start).toBe('2024-12-31T14:00:00.000Z');
    expect(json.end).toBe('2025-12-31T14:00:00.000Z');
    const [run] = json.alternatives[0].ledger.runs;
    expect(Date.parse(run.start) / 1000 - study.axis.startS).toBeCloseTo(run.startH * 3600, 2);
  });

  it('names the months', () => {
    expect(json.alternatives[0].ledger.periods[6]).toMatchObject({ month: 'July', year: 2025 });
  });
});
