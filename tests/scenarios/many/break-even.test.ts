/** Break-even values, put back into the site file and simulated anew. */
import { describe, expect, it } from 'vitest';
import { type BreakEven, breakEven } from '../../../src/scenarios/many/break-even.ts';
import { BREAK_EVEN_VALUES, type BreakEvenKey } from '../../../src/scenarios/many/break-even-values.ts';
import { costOfStudy, simulateStudy } from '../../../src/scenarios/many/study-run.ts';
import { risingPresentValue } from '../../../src/scenarios/present-value.ts';
import { DAIRY, finished, horizonCosts, preparedOf } from './small-dairy.ts';

function resultOf(names: readonly [string, string], text = DAIRY, asked?: Parameters<typeof breakEven>[2]) {
  const { maker, found } = preparedOf(names, text);
  return finished(breakEven([found[0], found[1]], maker, asked));
}

const PAIR = ['as filed', 'five modules'] as const;
const result = resultOf(PAIR);
const breakEvenOf = (key: BreakEvenKey, from = result) =>
  from.values.find((value) => value.key === key) as BreakEven;

/** The dairy with one value replaced, as a designer would write it. */
function withValue(key: BreakEvenKey, value: number): string {
  switch (key) {
    case 'fuelPrice':
      return DAIRY.replace('fuelPerL: 1.5', `fuelPerL: ${value}`);
    case 'discountRate':
      return DAIRY.replace('discountRate: 0.04', `discountRate: ${value}`);
    case 'loadGrowth':
      return `${DAIRY}horizon: { loadGrowth: ${value} }\n`;
    case 'studyYears':
      return DAIRY.replace('years: 5,', `years: ${value},`);
    case 'batteryPrice':
      // the capital holds three modules, that of the other five
      return DAIRY.replace('batteryPerModule: 900', `batteryPerModule: ${value}`)
        .replace('capital: 20000', `capital: ${20_000 + 3 * (value - 900)}`)
        .replace('capital: 2000,', `capital: ${2000 + 2 * (value - 900)},`);
  }
}

describe('a break-even', () => {
  it('looks at everything that the site has', () => {
    expect(result.values.map(({ key }) => key)).toEqual(BREAK_EVEN_VALUES);
    const bare = DAIRY.replace(/^generator:.*\n/m, '')
      .replace(/^tank:.*\n/m, '')
      .replace(/^control:.*\n/m, '')
      .replace('batteryPerModule: 900', 'batteryPerModule: 0');
    const keys = resultOf(PAIR, bare).values.map(({ key }) => key);
    expect(keys).toEqual(['loadGrowth', 'discountRate', 'studyYears']);
  });

  it.each(['fuelPrice', 'batteryPrice', 'discountRate'] as const)(
    'of the %s, put back, makes both cost the same',
    (key) => {
      const [{ value, kind }, ...others] = breakEvenOf(key).crossings;
      expect([kind, others]).toEqual(['equal', []]);
      const [a, b] = horizonCosts(withValue(key, value), PAIR);
      expect(Math.abs(b / a - 1)).toBeLessThan(1e-6);
    },
  );

  it.each([
    ['five modules', 'equal'],
    ['more sun', 'jump'],
  ])('of the growth of the load with %s, put back: %s', (name, kindWanted) => {
    const names = ['as filed', name] as const;
    const [{ crossings }] = resultOf(names, DAIRY, [{ key: 'loadGrowth', from: -0.1, to: 0.15 }]).values;
    expect(crossings).toHaveLength(1);
    const [{ value, kind, costs }] = crossings;
    expect(kind).toBe(kindWanted);
    const found = horizonCosts(withValue('loadGrowth', value), names);
    expect(found[0]).toBeCloseTo(costs[0], 6);
    expect(found[1]).toBeCloseTo(costs[1], 6);
    if (kind === 'equal') expect(Math.abs(found[1] / found[0] - 1)).toBeLessThan(1e-6);
    const cheaper = (growth: number) => {
      const [a, b] = horizonCosts(withValue('loadGrowth', growth), names);
      return a < b ? 0 : 1;
    };
    expect(cheaper(value - 1e-4)).toBe(crossings[0].cheaperBelow);
    expect(cheaper(value + 1e-4)).toBe(1 - crossings[0].cheaperBelow);
  });

  it('of the years: from the first on with which the other is cheaper, each number as its own study', () => {
    const { curve, crossings } = breakEvenOf('studyYears');
    expect(curve).toHaveLength(30);
    for (const years of [1, 3, 5, 6]) {
      const [a, b] = horizonCosts(withValue('studyYears', years), PAIR);
      expect(curve[years - 1].costs[0]).toBeCloseTo(a, 6);
      expect(curve[years - 1].costs[1]).toBeCloseTo(b, 6);
    }
    const cheaper = curve.map(({ costs: [a, b] }) => Math.sign(b - a));
    const changes = curve.slice(1).filter((_, i) => cheaper[i + 1] !== cheaper[i]);
    expect(crossings.map(({ value }) => value)).toEqual(changes.map(({ value }) => value));
  });

  it('tells who is cheaper below', () => {
    const { crossings, curve } = breakEvenOf('fuelPrice');
    const [a, b] = curve[0].costs;
    expect(crossings[0].cheaperBelow).toBe(a < b ? 0 : 1);
  });

  it('says so where there is none in the range, and where both are the same', () => {
    const far = resultOf(PAIR, DAIRY, [{ key: 'fuelPrice', from: 90, to: 100 }]).values[0];
    expect([far.crossings, far.same]).toEqual([[], false]);
    const text = DAIRY.replace('name: dear, capital: 500', 'name: dear, capital: 0');
    const { values, payback } = resultOf(['as filed', 'dear'], text);
    for (const { crossings, same } of values) expect([crossings, same]).toEqual([[], true]);
    expect(payback).toBeNull();
  });

  // closed form, by hand: without service, wear or escalation of its own every year burns the same, so that the fuel
  // saved is worth UPV* (NIST Handbook 135) times the first year's
  it('of the fuel price agrees with the closed form', () => {
    const text = DAIRY.replace('serviceCost: 200', 'serviceCost: 0')
      .replace('batteryYears: 3', 'batteryYears: 50')
      .replace('batteryPerModule: 900', 'batteryPerModule: 0');
    const { sides, values } = resultOf(['as filed', 'more sun'], text, [
      { key: 'fuelPrice', from: 0, to: 100 },
    ]);
    const { maker, found } = preparedOf(['as filed', 'more sun'], text);
    const [a, b] = found.map(({ site }) => simulateStudy(site, 0, maker).uses.map(({ fuelL }) => fuelL));
    const saved = a[1] - b[1];
    // the first year begins with a full battery, the others where the one before ended
    const first = a[0] - b[0] - saved;
    const worth = (saved * risingPresentValue(0.04, 0.02, 5)) / 1.02 + first / 1.04;
    expect(a.slice(1).every((litres) => Math.abs(litres - a[1]) < 15)).toBe(true);
    expect(values[0].crossings[0].value / (3000 / worth)).toBeCloseTo(1, 2);
    expect(sides.map(({ capital }) => capital)).toEqual([20_000, 23_000]);
  });

  it('counts paybacks of the dearer against the cheaper', () => {
    const { payback } = resultOf(['more sun', 'as filed'], DAIRY, []);
    expect(payback?.dearer).toBe(0);
    expect(payback?.extraCapital).toBe(3000);
    const { simpleYears } = payback ?? { simpleYears: null };
    const { maker, found } = preparedOf(['as filed', 'more sun']);
    const [a, b] = found.map(
      ({ site, capital }) => costOfStudy(simulateStudy(site, capital, maker)).cashFlow,
    );
    const savings = a.slice(1).map((year, i) => year.fuel + year.service - b[i + 1].fuel - b[i + 1].service);
    let owed = 3000;
    let years = 0;
    for (; owed > 0; years++) owed -= savings[years];
    expect(Math.ceil(simpleYears ?? 0)).toBe(years);
  });
});
