import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { groupKwh, LOSS_GROUPS, lossRows, wholeLoss } from '../../src/report/array-losses.ts';
import { reportPage } from '../../src/report/page.ts';
import { studySentences } from '../../src/report/sentences.ts';
import { rowOf } from '../../src/report/shown.ts';
import { makeView } from '../../src/report/view.ts';
import { ARRAY_LOSSES, newYield, sumOf } from '../../src/scenarios/array-yields.ts';
import type { Study } from '../../src/scenarios/study.ts';
import { fixtureStudy } from './fixture.ts';
import { withYields } from './invented-yields.ts';

const plain = fixtureStudy({ stepMin: 30, alternatives: 2 });
const study = withYields(plain);
const [first] = study.alternatives;

/** One array that offers 100 kWh a month and loses what is given in the month given. */
function withSnow(kwh: number, month = 0): Study {
  const barn = newYield({ name: 'barn', coupling: 'dc' }, 'array', 12);
  barn.offeredKwh.fill(100);
  barn.lostKwh.snow[month] = kwh;
  return {
    ...plain,
    alternatives: plain.alternatives.map((one, i) => ({ ...one, yields: i === 0 ? [barn] : [] })),
  };
}

describe('array energy kept from the site', () => {
  it('the months add up to the whole, group by group and array by array', () => {
    const rows = lossRows(makeView(study), first);
    expect(rows.map(({ short }) => short)).toEqual(
      plain.alternatives[0].ledger.periods.map((_, k) => rows[k].short),
    );
    expect(rows).toHaveLength(12);
    const whole = wholeLoss(rows);
    for (const group of LOSS_GROUPS) {
      expect(groupKwh(first, group)).toBeGreaterThan(0);
      expect(whole[group]).toBeCloseTo(groupKwh(first, group), 9);
    }
    const all = sumOf(first.yields.flatMap((one) => ARRAY_LOSSES.map((loss) => sumOf(one.lostKwh[loss]))));
    expect(sumOf(LOSS_GROUPS.map((group) => whole[group]))).toBeCloseTo(all, 9);
    expect(sumOf(whole.snowByArray)).toBeCloseTo(whole.snow, 9);
  });

  it('stands in the comparison, unless it is a trace', () => {
    expect(rowOf(study, 'lost:snow')?.values[0]).toBe(groupKwh(first, 'snow'));
    expect(rowOf(plain, 'lost:snow')).toBeUndefined();
    expect(rowOf(withSnow(5), 'lost:snow')).toBeUndefined();
    expect(rowOf(withSnow(7), 'lost:snow')?.values).toEqual([7, 0]);
  });

  it('is told in a sentence where it is much, and as a difference', () => {
    const [now, other] = studySentences(withSnow(5000)).map(({ sentences }) => sentences.join(' '));
    expect(now).toContain('Array energy is lost: 5,000 kWh to snow.');
    expect(other).toContain('The array energy lost to snow is none instead of 5,000 kWh.');
    expect(studySentences(withSnow(7))[0].sentences.join(' ')).not.toContain('snow');
  });

  it('is drawn by month and listed by array, with a title that says when most', () => {
    const page = reportPage(withSnow(60, 6));
    expect(page).toContain('Array energy is lost: 60\u00a0kWh to snow; most in July (60\u00a0kWh)');
    expect(page).toContain('url(#dots-snow)');
    const { document } = parseHTML(reportPage(study));
    const table = document.querySelector('[aria-label="Energy offered and lost by array"] table');
    const rows = [...(table?.querySelectorAll('tbody tr') ?? [])].map((row) =>
      [...row.querySelectorAll('th, td')].map((cell) => (cell.textContent ?? '').replaceAll(',', '')),
    );
    expect(rows.map(([name]) => name)).toEqual(['Barn', 'Shed', 'Stream (another source)', 'Together']);
    const snow = 1 + 1 + ARRAY_LOSSES.indexOf('snow');
    expect(Number(rows[3][snow])).toBe(Math.round(groupKwh(first, 'snow')));
    expect(reportPage(plain)).not.toContain('What the arrays offer');
  });

  it('takes the years of a long run together', () => {
    const view = makeView(plain);
    const months = Array.from({ length: 36 }, (_, k) => ({
      ...view.months[k % 12],
      year: 2025 + Math.floor(k / 12),
    }));
    const barn = newYield({ name: 'barn', coupling: 'dc' }, 'array', 36);
    barn.lostKwh.snow.fill(2);
    const rows = lossRows({ ...view, months }, { yields: [barn] });
    expect(rows.map(({ name, snow }) => [name, snow])).toEqual([
      ['2025', 24],
      ['2026', 24],
      ['2027', 24],
    ]);
  });
});

describe('losses fitted to points of efficiency', () => {
  it('are told with how far the curve is off, once where all alternatives share them', () => {
    const fit = { idleShare: 0.01, linear: 0.02, quadraticAtRated: 0.03, worst: 0.0042, worstShare: 0.5 };
    const fitted = {
      ...plain,
      alternatives: plain.alternatives.map((one) => ({ ...one, efficiencyFit: fit })),
    };
    const told = reportPage(fitted).match(/The curve is at most 0\.42 points of efficiency from a point/g);
    expect(told).toHaveLength(1);
    expect(reportPage(plain)).not.toContain('points of efficiency');
  });
});
