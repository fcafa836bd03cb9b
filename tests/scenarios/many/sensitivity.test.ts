import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { prepareYears } from '../../../src/scenarios/many/many-study.ts';
import {
  costShown,
  effectOf,
  type SensitivityResult,
  sensitivity,
} from '../../../src/scenarios/many/sensitivity.ts';
import { uncertainOf } from '../../../src/scenarios/many/uncertain.ts';
import { checkStudy } from '../../../src/scenarios/run-study.ts';
import { DAIRY, finished, horizonCosts, preparedOf, requestOf } from './small-dairy.ts';

const STATED = `${DAIRY}uncertain:
  - { path: money.fuelPerL, low: 1, high: 4 }
  - { path: load, low: 0.8, high: 1.25 }
  - { path: arrays, low: 0.9, high: 1.1 }
  - { path: generator.fuel, low: 0.9, high: 1.2 }
  - { path: arrays.shed.kWp, low: 4, high: 8, name: size of the roof }
  - { path: money.batteryYears, low: 2, high: 6 }
  - { path: money.capital, low: 18000, high: 25000 }
  - { path: roomC, low: 5, high: 30 }
`;

const rowsOf = (result: SensitivityResult) => new Map(result.rows.map((row) => [row.path, row]));

describe('a sensitivity', () => {
  const { maker, found } = preparedOf(['as filed'], STATED);
  const result = finished(sensitivity(found, maker));
  const rows = rowsOf(result);

  it('has every stated value, by effect', () => {
    expect(result.rows).toHaveLength(8);
    const effects = result.rows.map(effectOf);
    expect(effects).toEqual([...effects].sort((a, b) => b - a));
    expect(effects[0]).toBeGreaterThan(0);
    expect(rows.get('arrays.shed.kWp')?.name).toBe('size of the roof');
    expect(rows.get('load')?.filed).toBe(1);
    expect(rows.get('money.fuelPerL')?.filed).toBe(1.5);
  });

  it.each([
    ['money.fuelPerL', 'fuelPerL: 1.5', 'fuelPerL: 1', 'fuelPerL: 4'],
    ['money.batteryYears', 'batteryYears: 3', 'batteryYears: 2', 'batteryYears: 6'],
    ['money.capital', 'capital: 20000', 'capital: 18000', 'capital: 25000'],
    ['arrays.shed.kWp', 'kWp: 5', 'kWp: 4', 'kWp: 8'],
    [
      'generator.fuel',
      '[{ kW: 0, lPerH: 1 }, { kW: 8, lPerH: 3 }]',
      '[{ kW: 0, lPerH: 0.9 }, { kW: 8, lPerH: 2.7 }]',
      '[{ kW: 0, lPerH: 1.2 }, { kW: 8, lPerH: 3.6 }]',
    ],
  ])('%s at its ends costs what a site file with that value costs', (path, filed, low, high) => {
    expect(DAIRY.split(filed)).toHaveLength(2);
    const row = rows.get(path);
    const [atLow] = horizonCosts(DAIRY.replace(filed, low), ['as filed']);
    const [atHigh] = horizonCosts(DAIRY.replace(filed, high), ['as filed']);
    expect(row?.atLow[0].lifeCycleCost).toBeCloseTo(atLow, 6);
    expect(row?.atHigh[0].lifeCycleCost).toBeCloseTo(atHigh, 6);
  });

  it('all load is multiplied, appliance by appliance', () => {
    const heavier = DAIRY.replace('watts: 3000', 'watts: 3750').replace('watts: 2000', 'watts: 2500');
    const [cost] = horizonCosts(heavier, ['as filed']);
    expect(rows.get('load')?.atHigh[0].lifeCycleCost).toBeCloseTo(cost, 4);
  });

  it('array energy is multiplied behind its converters: as a larger array, where none limits it', () => {
    const [cost] = horizonCosts(DAIRY.replace('kWp: 5', 'kWp: 5.5'), ['as filed']);
    expect(rows.get('arrays')?.atHigh[0].lifeCycleCost).toBeCloseTo(cost, 4);
  });

  it('is of the difference where there are two', () => {
    const two = preparedOf(['as filed', 'five modules'], STATED);
    const both = finished(sensitivity(two.found, two.maker));
    const [a, b] = horizonCosts(DAIRY, ['as filed', 'five modules']);
    expect(costShown(both.filed)).toBeCloseTo(b - a, 6);
    const row = rowsOf(both).get('money.fuelPerL');
    const [c, d] = horizonCosts(DAIRY.replace('fuelPerL: 1.5', 'fuelPerL: 4'), ['as filed', 'five modules']);
    expect(costShown(row?.atHigh ?? [])).toBeCloseTo(d - c, 6);
    expect(effectOf(rowsOf(both).get('money.capital')!)).toBeCloseTo(0, 6);
  });

  it('takes usual ranges of what the site has where it states none, each around what is filed', () => {
    const usual = preparedOf(['as filed']);
    const listed = uncertainOf(usual.found[0].site);
    expect(listed.map(({ path }) => path)).toEqual(
      expect.arrayContaining(['load', 'arrays', 'money.fuelPerL', 'money.discountRate']),
    );
    for (const { low, high, filed } of listed) {
      expect(low).toBeLessThan(high);
      expect(filed).toBeGreaterThanOrEqual(low);
      expect(filed).toBeLessThanOrEqual(high);
    }
    const bare = DAIRY.replace(/^(generator|tank|control):.*\n/gm, '');
    const paths = uncertainOf(preparedOf(['as filed'], bare).found[0].site).map(({ path }) => path);
    expect(paths.filter((path) => /fuel|service|overhaul/.test(path))).toEqual([]);
  });
});

describe('uncertain values that cannot be', () => {
  it.each([
    [
      '{ path: money.fuelPerX, low: 1, high: 2 }',
      /uncertain\.0\.path: found 'money\.fuelPerX'; expected 'money\.fuelPerL'/,
    ],
    [
      '{ path: money.fuelPerL, low: 2, high: 1 }',
      /uncertain\.0\.high: found 1; expected above the lowest, 2/,
    ],
    ['{ path: money.fuelPerL, low: -1, high: 1 }', /uncertain\.0\.low: found -1; expected at least 0/],
    ['{ path: site.latitudeDeg, low: -38, high: -36 }', /uncertain\.0\.path: found 'site\.latitudeDeg'/],
    ['{ path: battery, low: 1, high: 2 }', /uncertain\.0\.path: found 'battery', which is no number/],
    ['{ path: load, low: 0, high: 2 }', /uncertain\.0\.low: found 0 times; expected above 0/],
    ['{ path: control.charge.stopSoc, low: 0.2, high: 0.9 }', /uncertain\.0\.low: found/],
  ])('%s is refused at its place', (item, sentence) => {
    const text = `${DAIRY}uncertain:\n  - ${item}\n`;
    const { issues } = checkStudy(requestOf(text));
    const errors = issues.filter(({ severity }) => severity === 'error');
    expect(errors).toHaveLength(1);
    expect(issueSentence(errors[0])).toMatch(sentence);
    expect(errors[0].at.line).toBe(text.trimEnd().split('\n').length);
    expect(prepareYears(requestOf(text)).prepared).toBeNull();
  });
});
