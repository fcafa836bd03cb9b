import { readFileSync } from 'node:fs';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { lookPage } from '../../src/report/look/page.ts';
import {
  dailyEnergy,
  dullestSpell,
  durationCurve,
  peakStep,
  typicalDays,
  viewSeries,
} from '../../src/report/look/shape.ts';
import { readAny } from '../../src/scenarios/read-any.ts';
import type { Series } from '../../src/scenarios/series.ts';

const axis = { startS: Date.UTC(2025, 0, 1) / 1000, stepMin: 30, count: 365 * 48 };
const values = Float64Array.from({ length: axis.count }, (_, i) => 1 + (i % 48) / 10 + (i === 5000 ? 40 : 0));
const series: Series = { name: 'load', quantity: 'loadKw', axis, values };
const view = viewSeries(series, 'UTC');

describe('the shape of a series', () => {
  it('keeps its energy by days', () => {
    const daily = dailyEnergy(view);
    expect(daily).toHaveLength(365);
    const total = daily.reduce((sum, kwh) => sum + kwh, 0);
    expect(total).toBeCloseTo(
      values.reduce((sum, kw) => sum + kw / 2, 0),
      6,
    );
  });

  it('has typical days within their spread', () => {
    const rows = typicalDays(view);
    expect(rows).toHaveLength(12 * 24);
    const noon = rows.find(({ month, hour }) => month === 0 && hour === 12);
    expect(noon?.mean).toBeCloseTo(1 + (24 + 25) / 20, 9);
    for (const { low, high } of rows) expect(high).toBeGreaterThanOrEqual(low);
  });

  it('finds the peak, the duration curve and the dullest spell', () => {
    expect(peakStep(values)).toBe(5000);
    const curve = durationCurve(values);
    expect(curve[0].value).toBe(values[5000]);
    expect(curve[curve.length - 1].value).toBe(1);
    for (let i = 1; i < curve.length; i++) expect(curve[i].value).toBeLessThanOrEqual(curve[i - 1].value);
    expect(dullestSpell(Float64Array.of(5, 1, 1, 5, 1, 1, 1, 5), 0.5)).toEqual({ fromDay: 4, days: 3 });
    expect(dullestSpell(Float64Array.of(5, 5), 0.5)).toEqual({ fromDay: 0, days: 0 });
  });
});

describe('the look page', () => {
  const files = ['nem12_tiny.csv', 'greenbutton_tiny.xml', 'csv_dst_repeat.csv', 'epw_tiny.epw'].map(
    (file) => {
      const bytes = new Uint8Array(readFileSync(new URL(`../scenarios/samples/${file}`, import.meta.url)));
      return { file, result: readAny(bytes, file), zone: 'UTC' };
    },
  );
  const { document } = parseHTML(lookPage(files));

  it('shows each file, its sheet and its doubts, and draws what could be read', () => {
    const text = document.body.textContent ?? '';
    for (const { file } of files) expect(text).toContain(file);
    expect(text).toMatch(/NEM1201009 E1: 29.kWh in 2 days/);
    expect(text).toMatch(/It could not be read\./);
    expect(text).toMatch(/found 24 records; expected 8760/);
    expect(document.querySelectorAll('svg[role=img]').length).toBe(4 * 4);
  });

  it('has no NaN and no undefined anywhere', () => {
    expect(document.toString()).not.toMatch(/NaN|undefined|Infinity/);
  });
});
