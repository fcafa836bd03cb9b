/** A year in months is the year as one: the same steps, the same sums. */
import { describe, expect, it } from 'vitest';
import { controlsFromSite } from '../../src/scenarios/controls-from-site.ts';
import { spansOfYear, sumOfSpans } from '../../src/scenarios/horizon-spans.ts';
import { plantFromSite } from '../../src/scenarios/plant-from-site.ts';
import { makeColumns } from '../../src/sim/columns.ts';
import { DAIRY, preparedOf } from './many/small-dairy.ts';

// what goes over the ends of months: waiting load, failing starts in turn, fuel on order and on fixed dates
const TEXT = `${DAIRY.replace('leadDays: 4', 'leadDays: 9, fillDates: [2025-02-01, 2025-07-14]').replace(
  'generator: { ratedKw: 8,',
  'generator: { ratedKw: 8, startFailures: { chance: 0.4 },',
)}shiftable: [{ name: pump, watts: 1500, kwhPerDay: 4, deadline: '02:00' }]\n`;

describe('a year in months', () => {
  const { maker, found } = preparedOf(['as filed'], TEXT);
  const [{ site }] = found;
  const made = maker.make(site)!;
  const year = {
    plant: plantFromSite(site, made.airAtStartC, made.acArrayShare),
    controls: controlsFromSite(site),
    inputs: made.inputs,
  };
  const count = made.inputs.count;
  const [byMonth, asOne] = [made.periodEnds, [count]].map((ends) => {
    const columns = makeColumns(count);
    return { columns, ...spansOfYear(year, ends, null, columns) };
  });

  it('has twelve, and the same steps to the last bit', () => {
    expect(byMonth.spans).toHaveLength(12);
    expect(byMonth.columns).toEqual(asOne.columns);
    // where the log stands is counted in hours from the start of the span that wrote it
    const [one, months] = [asOne.state.s, byMonth.state.s];
    const logged = [...one.keys()].filter((i) => one[i] !== months[i]).map((i) => one[i] - months[i]);
    for (const hours of logged) expect(made.periodEnds).toContain(Math.round(hours * 1e6) / 1e6);
    expect(byMonth.state.more).toEqual(asOne.state.more);
    expect(byMonth.state.capacityKwh).toBe(asOne.state.capacityKwh);
    expect(byMonth.minSoc).toBe(asOne.minSoc);
  });

  it('has the same sums', () => {
    const [sum, whole] = [sumOfSpans(byMonth.spans), asOne.spans[0]];
    expect(Object.keys(sum)).toEqual(Object.keys(whole));
    for (const name of ['loadKwh', 'fuelL', 'runH', 'starts', 'unservedKwh', 'dischargeKwh'] as const) {
      expect(whole[name]).toBeGreaterThan(0);
      expect(sum[name] / whole[name]).toBeCloseTo(1, 10);
    }
    for (const [cause, kwh] of Object.entries(whole.unservedByCauseKwh))
      expect(sum.unservedByCauseKwh[cause as keyof typeof sum.unservedByCauseKwh]).toBeCloseTo(kwh, 8);
  });

  it('differs from month to month', () => {
    expect(new Set(byMonth.spans.map(({ fuelL }) => fuelL.toFixed(3))).size).toBe(12);
  });
});
