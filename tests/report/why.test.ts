import { describe, expect, it } from 'vitest';
import { rowOf } from '../../src/report/shown.ts';
import { longestQuiet } from '../../src/report/titles.ts';
import { paidSoFar, paidSoFarTitle } from '../../src/report/titles-comparison.ts';
import { makeView } from '../../src/report/view.ts';
import { sunSoonAfter, whyAndWhatThen } from '../../src/report/why.ts';
import type { AlternativeResult, Study } from '../../src/scenarios/study.ts';
import type { GeneratorRun } from '../../src/sim/ledger.ts';
import { fixtureStudy } from './fixture.ts';

const study = fixtureStudy({ stepMin: 15 });

function run(startH: number, endH: number, kwh: number): GeneratorRun {
  const rest = {
    onLoadH: endH - startH,
    socStart: 0.3,
    socEnd: 0.8,
    litres: kwh / 3,
    meanKw: kwh / (endH - startH),
    ranDry: false,
  };
  return { startH, endH, cause: 'charge', kwh, ...rest };
}

/** Four hourly days with the given runs, and array turned away [kW] in the given hours. */
function fourDays(runs: GeneratorRun[], turnedAway: Record<number, number>): AlternativeResult {
  const curtailedKw = Float64Array.from({ length: 96 }, (_, hour) => turnedAway[hour] ?? 0);
  return {
    columns: { curtailedKw },
    ledger: { stepMin: 60, count: 96, runs },
  } as unknown as AlternativeResult;
}

describe('generator energy that the sun would have given soon after', () => {
  it('is the array turned away within a day of the run, at most what the run gave', () => {
    expect(sunSoonAfter(fourDays([run(4, 6, 20)], { 10: 3, 11: 4 }), 'charge')).toEqual({ runs: 1, kwh: 7 });
    expect(sunSoonAfter(fourDays([run(4, 6, 5)], { 10: 3, 11: 4 }), 'charge')).toEqual({ runs: 1, kwh: 5 });
  });

  it('does not reach past the next run, nor past a day, nor before the run', () => {
    const result = fourDays([run(4, 6, 20), run(9, 10, 20)], { 3: 9, 8: 2, 12: 3, 35: 9 });
    expect(sunSoonAfter(result, 'charge')).toEqual({ runs: 2, kwh: 5 });
  });

  it('looks only at runs of the cause', () => {
    expect(sunSoonAfter(fourDays([{ ...run(4, 6, 20), cause: 'peak' }], { 10: 3 }), 'charge')).toEqual({
      runs: 0,
      kwh: 0,
    });
  });
});

describe('why it starts', () => {
  const view = makeView(study);

  it('counts every start by its cause', () => {
    const { charge, peak } = study.alternatives[0].ledger.totals.startsByCause;
    const text = whyAndWhatThen(view, study.alternatives[0]).join('\n');
    expect(text).toContain(`${charge} starts with the battery low (at or below 30 %)`);
    expect(text).toContain(`${peak} starts on a high load`);
  });

  it('names the alternative that runs it least, but not to itself', () => {
    expect(whyAndWhatThen(view, study.alternatives[0]).join()).toContain('“Twice the battery” runs it least');
    expect(whyAndWhatThen(view, study.alternatives[1]).join()).not.toContain('runs it least');
  });

  it('says so where it never starts, and nothing where there is none', () => {
    const [first] = study.alternatives;
    expect(whyAndWhatThen(view, { ...first, ledger: { ...first.ledger, runs: [] } })[0]).toMatch(
      /^It never starts/,
    );
    expect(whyAndWhatThen(view, { ...first, plant: { ...first.plant, generator: null } })).toEqual([]);
  });
});

describe('the longest standstill', () => {
  it('may lie before, between or after the runs', () => {
    expect(longestQuiet(fourDays([run(50, 51, 1)], {}))).toEqual({ fromH: 0, hours: 50 });
    expect(longestQuiet(fourDays([run(1, 2, 1), run(80, 90, 1)], {}))).toEqual({ fromH: 2, hours: 78 });
    expect(longestQuiet(fourDays([run(1, 2, 1)], {}))).toEqual({ fromH: 2, hours: 94 });
  });
});

describe('what was paid so far', () => {
  it('ends at the life-cycle cost', () => {
    for (const { money } of study.alternatives)
      expect(paidSoFar(money).at(-1)).toBeCloseTo(money.lifeCycleCost, 6);
  });

  it('is back in the first year from which the dearer one stays ahead', () => {
    const year = (presentValue: number) =>
      ({ presentValue }) as Study['alternatives'][0]['money']['cashFlow'][0];
    const [a, b] = study.alternatives;
    const money = (paid: number[]) => ({
      ...a.money,
      years: 3,
      capital: paid[0],
      cashFlow: paid.map(year),
      lifeCycleCost: paid.reduce((sum, value) => sum + value, 0),
    });
    const two: Study = {
      ...study,
      alternatives: [
        { ...a, money: money([100, 50, 50, 50]) },
        { ...b, money: money([150, 10, 60, 10]) },
      ],
    };
    // paid so far: 100, 150, 200, 250 against 150, 160, 220, 230
    const row = rowOf(two, 'lifeCycleCost');
    expect(row && paidSoFarTitle(two, row)).toBe(
      '“Twice the battery” costs least over 3 years, AUD 230; the AUD 50 more that it costs to build are back in year 3',
    );
  });
});
