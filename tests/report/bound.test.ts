import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { boundSentences, foresightWeek } from '../../src/report/bound-words.ts';
import { studyJson } from '../../src/report/json.ts';
import { reportPage } from '../../src/report/page.ts';
import { type FuelBound, withBounds } from '../../src/scenarios/bound/fuel-bound.ts';
import { fixtureStudy } from './fixture.ts';

const plain = fixtureStudy({ stepMin: 15, days: 200, alternatives: 2 });
const study = await withBounds(plain);
const [result] = study.alternatives;
const bound = result.bound as FuelBound;

describe('what is told of the bound', () => {
  it('sets the least beside what was burnt, and its parts add up to the difference', () => {
    expect(bound.ranL).toBe(result.ledger.totals.fuelL);
    expect(bound.leastL).toBeGreaterThan(0);
    expect(bound.leastL).toBeLessThan(bound.ranL);
    const parts = bound.aroundStartsL + bound.loadingL + bound.moreGeneratedL;
    expect(parts).toBeCloseTo(bound.ranL - bound.leastL, 9);
    expect(bound.moreGeneratedKwh).toBeCloseTo(
      result.ledger.totals.generatorKwh - bound.foresight.generatedKwh,
      9,
    );
  });

  it('says so in words, the greatest part first', () => {
    const made: FuelBound = {
      ...bound,
      ...{
        ranL: 4310,
        leastL: 3920,
        aroundStartsL: 90,
        loadingL: 250,
        moreGeneratedL: 50,
        moreGeneratedKwh: 160,
      },
    };
    const [first, second, third] = boundSentences(result, made);
    expect(first).toBe(
      'These thresholds burn 4,310 L in 200 days; with this plant, weather and load nothing could burn less than 3,920 L.',
    );
    expect(second).toBe(
      'Of the 390 L between, 250 L went into running at loads that take more litres a kilowatt-hour, 90 L into warming up and cooling down and 50 L into 160 kWh more than foresight generates.',
    );
    expect(third).toMatch(/^More is generated than is needed/);
    const none = boundSentences(result, { ...made, ranL: 0, leastL: 0 });
    expect(none).toEqual(['These thresholds burn no fuel in 200 days, and nothing could burn less.']);
  });

  it('lays hours on steps: the same energy, and the state of charge at the end of each hour', () => {
    const week = foresightWeek(result, bound);
    const { hours, generatorKw, socFrac } = bound.foresight;
    expect(hours[0]).toBe(1);
    const firstHour = week.fromStep / 4;
    for (const hour of [0, 1, 50, 167]) {
      expect(week.foresightKw[4 * hour + 2]).toBe(generatorKw[firstHour + hour]);
      expect(week.foresightSoc?.[4 * hour + 3]).toBeCloseTo(socFrac?.[firstHour + hour] as number, 12);
    }
    expect(week.ranSoc[0]).toBe(result.columns.socFrac[week.fromStep]);
  });

  it('is on the page where it was asked for, and not where it was not', () => {
    const { document } = parseHTML(reportPage(study));
    const headings = [...document.querySelectorAll('h3')].filter(
      (h) => h.textContent === 'How good could it be',
    );
    expect(headings).toHaveLength(2);
    expect(document.querySelector('main')?.textContent).toContain(
      'it says that below it there is nothing to find',
    );
    expect(reportPage(plain)).not.toContain('How good could it be');
  });

  it('is in the JSON as figures, without its series', () => {
    const [json] = studyJson(study).alternatives;
    expect(json.bound).toMatchObject({ ranL: bound.ranL, leastL: bound.leastL, loadingL: bound.loadingL });
    expect(JSON.stringify(json.bound)).not.toContain('generatorKw');
  });
});
