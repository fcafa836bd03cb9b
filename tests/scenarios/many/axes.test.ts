import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { type Axis, changesFor, readAxes } from '../../../src/scenarios/many/axes.ts';
import { Filed } from '../../../src/scenarios/many/ground.ts';
import { SMALL_SITE } from '../small-site.ts';

const filed = new Filed(SMALL_SITE, 'site.yaml');

function axes(...texts: string[]): Axis[] {
  const read = readAxes(texts, filed);
  expect(read.every((one) => 'values' in one)).toBe(true);
  return read as Axis[];
}

function problems(...texts: string[]): string[] {
  const read = readAxes(texts, filed);
  return read.map((one) => ('severity' in one ? issueSentence(one) : 'no problem'));
}

describe('readAxes', () => {
  it('reads ranges, lists and choices, and what the site as filed has', () => {
    expect(
      axes('generator.ratedKw=4:6:0.5', 'control.charge.startSoc = 0.2, 0.3', 'arrays.roof.kWp=3'),
    ).toEqual([
      { path: 'generator.ratedKw', values: [4, 4.5, 5, 5.5, 6], filed: 5 },
      { path: 'control.charge.startSoc', values: [0.2, 0.3], filed: 0.3 },
      { path: 'arrays.roof.kWp', values: [3], filed: 3 },
    ]);
    // a default of the schema; nothing; a group
    const [rest, none, group] = axes(
      'control.minRunMin=0:30:10',
      'cabinet=null',
      'control.charge=null,{ startSoc: 0.5, stopSoc: 0.9 }',
    );
    expect(rest).toEqual({
      path: 'control.minRunMin',
      values: [0, 10, 20, 30],
      filed: filed.site.control.minRunMin,
    });
    expect(none).toEqual({ path: 'cabinet', values: [null], filed: null });
    expect(group.values).toEqual([null, { startSoc: 0.5, stopSoc: 0.9 }]);
    expect(axes('alternative=as filed,more modules')).toEqual([
      { path: 'alternative', values: ['as filed', 'more modules'], filed: 'as filed' },
    ]);
  });

  it('takes the end of a range in, and numbers as they were meant', () => {
    expect(axes('control.charge.startSoc=0.1:0.3:0.1')[0].values).toEqual([0.1, 0.2, 0.3]);
    expect(axes('generator.ratedKw=1:2:0.3')[0].values).toEqual([1, 1.3, 1.6, 1.9]);
    expect(axes('site.x=1:1:1'.replace('site.x', 'generator.ratedKw'))[0].values).toEqual([1]);
  });

  it('lists every problem', () => {
    expect(
      problems(
        'generator.ratedkw=1,2',
        'battery',
        'battery.modules=5:1:1',
        'battery.modules=1:5:0',
        'battery.modules=',
      ),
    ).toMatchInlineSnapshot(`
      [
        "--vary 'generator.ratedkw=1,2': generator.ratedkw: found 'generator.ratedkw'; expected 'generator.ratedKw'",
        "--vary 'battery': vary: found 'battery'; expected a path, '=', and values: 'generator.ratedKw=10:30:2.5'",
        "--vary 'battery.modules=5:1:1': battery.modules: found 5:1:1; expected from, to and step with from <= to and a step above 0",
        "--vary 'battery.modules=1:5:0': battery.modules: found 1:5:0; expected from, to and step with from <= to and a step above 0",
        "--vary 'battery.modules=': battery.modules: found ''; expected from:to:step such as '10:30:2.5', or a list such as '0.2, 0.3, 0.4'",
      ]
    `);
    expect(
      problems(
        'site.name=a',
        'alternative=more module',
        'generator.ratedKw=1,1',
        'generator.ratedKw=0:1:1e-9',
      ),
    ).toMatchInlineSnapshot(`
      [
        "--vary 'site.name=a': site.name: found 'site.name'; expected a value of another group: site, period, alternatives are the same for all",
        "--vary 'alternative=more module': alternative: found no alternative 'more module'; expected 'more modules'",
        "--vary 'generator.ratedKw=1,1': generator.ratedKw: found 1 a second time; expected each value once",
        "--vary 'generator.ratedKw=0:1:1e-9': generator.ratedKw: found 1000000000 values; expected at most 10000",
      ]
    `);
    expect(problems('generator.ratedKw=1', 'generator.ratedKw=2')).toMatchInlineSnapshot(`
      [
        "--vary 'generator.ratedKw=2': generator.ratedKw: found 'generator.ratedKw' a second time; expected each value once",
      ]
    `);
    expect(problems()).toMatchInlineSnapshot(`
      [
        "--vary '': vary: found nothing to vary; expected a path and its values: 'generator.ratedKw=10:30:2.5'",
      ]
    `);
  });
});

describe('changesFor', () => {
  it('makes the change of a path, or those of an alternative with its capital', () => {
    const [kw, which] = axes('generator.ratedKw=4,6', 'alternative=as filed,more modules');
    expect(changesFor(kw, 6, filed)).toEqual({ 'generator.ratedKw': 6 });
    expect(changesFor(which, 'as filed', filed)).toEqual({});
    expect(changesFor(which, 'more modules', filed)).toEqual({ 'battery.modules': 4, capital: 3000 });
  });
});
