import { describe, expect, it } from 'vitest';
import { batteryLifeYears, MOST_BATTERY_YEARS } from '../../src/scenarios/battery-life.ts';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { checkStudy } from '../../src/scenarios/run-study.ts';
import type { Site } from '../../src/scenarios/site-schema.ts';
import { makeColumns } from '../../src/sim/columns.ts';
import { SMALL_SITE, smallSiteFile } from './small-site.ts';

const wear = {
  cycleLife: [
    { depth: 0.25, cycles: 10_000 },
    { depth: 1, cycles: 2500 },
  ],
  fadeFirstYear: 0,
  timeExponent: 0.5,
  referenceC: 25,
  halvingK: 10,
  endOfLife: 0.8,
};

/** A year of hours: each day down from 80 % to a depth below it and back. */
function life(depth: number, cellC: number, change: Partial<typeof wear> = {}, days = 365): number | null {
  const columns = makeColumns(24 * days);
  columns.socFrac.forEach((_, i) => {
    columns.socFrac[i] = i % 24 === 11 ? 0.8 - depth : 0.8;
  });
  columns.cellC.fill(cellC);
  const site = { battery: { initialSoc: 0.8, wear: { ...wear, ...change } } } as unknown as Site;
  return batteryLifeYears(site, 60, columns);
}

describe('years to the end of life, worked by hand', () => {
  it('by cycles alone: 365 a year of half depth, of which the table gives 5000', () => {
    // straight in logarithms from 10 000 at 0.25 to 2500 at 1 is N = 2500/d, at 0.5 it is 5000
    expect(life(0.5, 25)).toBeCloseTo(5000 / 365, 9);
  });

  it('by age alone: 4 % in the first year by the root of time is 20 % after 25 years', () => {
    expect(life(0, 25, { fadeFirstYear: 0.04 })).toBeCloseTo(25, 6);
  });

  it('ten kelvins warmer halve both', () => {
    expect(life(0.5, 35)).toBeCloseTo(5000 / 365 / 2, 9);
    // twice the fade a year, and the root of time: a quarter
    expect(life(0, 35, { fadeFirstYear: 0.04 })).toBeCloseTo(25 / 4, 6);
    expect(life(0, 35, { fadeFirstYear: 0.01, timeExponent: 1 })).toBeCloseTo(10, 6);
  });

  it('is the same from two such years as from one', () => {
    expect(life(0.5, 25, {}, 730)).toBeCloseTo(5000 / 365, 9);
  });

  it('is not stretched beyond what anybody has tried, nor made of part of a year', () => {
    expect(life(0.01, 25)).toBe(MOST_BATTERY_YEARS);
    expect(life(0.5, 25, {}, 200)).toBeNull();
  });
});

describe('a table of cycle life in a site file', () => {
  it('is refused when its depths do not rise', () => {
    const text = SMALL_SITE.replace(
      'modules: 2,',
      'modules: 2, wear: { cycleLife: [{ depth: 0.5, cycles: 4000 }, { depth: 0.2, cycles: 9000 }] },',
    );
    const { issues } = checkStudy({ text, file: 'site.yaml', readFile: smallSiteFile, version: '0' });
    expect(issues.map(issueSentence).join('\n')).toMatch(
      /battery\.wear\.cycleLife\.1\.depth: found 0\.2; expected more than the point before, 0\.5/,
    );
  });
});
