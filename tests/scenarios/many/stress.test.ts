import { describe, expect, it } from 'vitest';
import { runHorizon } from '../../../src/scenarios/horizon-study.ts';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { drawRun } from '../../../src/scenarios/many/stress-draws.ts';
import { keptRuns, runLine, runsHead } from '../../../src/scenarios/many/stress-kept.ts';
import { replayWorst } from '../../../src/scenarios/many/stress-replay.ts';
import { type StressStudy, summaryOf, worstYear } from '../../../src/scenarios/many/stress-result.ts';
import { planStress, runStress, type StressRequest } from '../../../src/scenarios/many/stress-study.ts';
import { climateOf, MadeYears } from '../../../src/scenarios/many/stress-weather.ts';
import type { Weather } from '../../../src/scenarios/weather-files.ts';
import { DAIRY, finished, horizonCosts, preparedOf, requestOf } from './small-dairy.ts';

const none = () => null;

function planOf(stress: string, more: Partial<StressRequest> = {}) {
  const { plan, issues } = planStress(
    requestOf(`${DAIRY}stress: { ${stress} }\n`, { only: 'as filed', ...more }),
  );
  if (!plan) throw new Error(issues.map(issueSentence).join('\n'));
  return plan;
}

function stressed(stress: string, more: Partial<StressRequest> = {}): StressStudy {
  return finished(runStress(planOf(stress, more), none));
}

const SURE = 'weather: repeat, load: [1, 1], startFailureChance: 0, lateDelivery: { chance: 0 }';
const WILD =
  'runs: 3, weatherYears: 4, load: [0.9, 1.3], startFailureChance: 0.4, lateDelivery: { chance: 0.5, days: 20 }';

describe('a stress', () => {
  const study = stressed(WILD);
  const [{ runs }] = study.alternatives;

  it('without anything drawn is the horizon, month by month too', () => {
    const [{ runs: sure, plain }] = stressed(`runs: 2, ${SURE}`).alternatives;
    const { study: horizon } = finished(runHorizon(requestOf(DAIRY, { only: 'as filed' })));
    const [cost] = horizonCosts(DAIRY, ['as filed']);
    for (const { years, lifeCycleCost } of sure) {
      expect(lifeCycleCost).toBeCloseTo(cost, 6);
      for (const [i, year] of years.entries()) {
        const same = horizon!.alternatives[0].years[i];
        expect(year.fuelL).toBeCloseTo(same.fuelL, 8);
        expect(year.runH).toBeCloseTo(same.runH, 8);
        expect(year.unservedKwh).toBeCloseTo(same.unservedKwh, 8);
        expect(year.starts).toBe(same.starts);
      }
    }
    expect(plain.lifeCycleCost).toBeCloseTo(cost, 6);
  });

  it('has twelve months in every year, which make the year up', () => {
    for (const { years } of runs)
      for (const year of years) {
        expect(year.months).toHaveLength(12);
        for (const figure of ['fuelL', 'runH', 'running', 'unservedKwh'] as const)
          expect(year.months.reduce((sum, month) => sum + month[figure], 0)).toBeCloseTo(year[figure], 8);
        const byCause = Object.values(year.unservedByCauseKwh).reduce((sum, kwh) => sum + kwh, 0);
        expect(byCause).toBeCloseTo(year.unservedKwh, 8);
      }
  });

  it('gives the same for the same seed, and other years for another', () => {
    expect(stressed(WILD).alternatives).toEqual(study.alternatives);
    const other = stressed(WILD, { seed: 'other' }).alternatives[0];
    expect(other.runs[0].loadFactor).not.toBe(runs[0].loadFactor);
    expect(other.runs[0].years[0].fuelL).not.toBe(runs[0].years[0].fuelL);
  });

  it('draws each run by itself: more runs leave the first as they were', () => {
    expect(stressed(WILD, { runs: 1 }).alternatives[0].runs).toEqual(runs.slice(0, 1));
  });

  it('goes on from finished runs, of which the last line may be broken, and ends in the same bits', () => {
    const plan = planOf(WILD);
    const lines = [
      runsHead(plan.study),
      ...runs.slice(0, 2).map((run) => runLine('as filed', run)),
      '{"name":"as fi',
    ];
    const kept = keptRuns(lines.join(''), plan.study);
    expect(kept.count).toBe(2);
    let fresh = 0;
    const run = runStress(plan, kept.find);
    let next = run.next();
    for (; !next.done; next = run.next()) fresh += next.value.fresh ? 1 : 0;
    expect(fresh).toBe(1);
    expect(next.value.alternatives).toEqual(study.alternatives);
    const otherSeed = planOf(WILD, { seed: 'other' });
    expect(keptRuns(lines.join(''), otherSeed.study).count).toBe(0);
    expect(keptRuns('', plan.study).count).toBe(0);
  });

  it('loses nothing that was finished where it is stopped', () => {
    const run = runStress(planOf(WILD), none);
    const first = run.next();
    run.return(study);
    expect(first.done ? null : first.value.fresh).toEqual(runs[0]);
  });

  it('tells bands, shares and the worst year as an independent count has them', () => {
    const summary = summaryOf({ runs });
    const years = runs.flatMap((run) => run.years);
    const below = (values: number[], level: number) =>
      values.filter((value) => value <= level).length / values.length;
    const fuel = years.map(({ fuelL }) => fuelL);
    // 15 years: the 10 % value lies at place 2.4, the middle one at 8, the 90 % one at 13.6
    expect(below(fuel, summary.year.fuelL.p10)).toBeCloseTo(2 / 15, 12);
    expect(below(fuel, summary.year.fuelL.p50)).toBeCloseTo(8 / 15, 12);
    expect(below(fuel, summary.year.fuelL.p90)).toBeCloseTo(13 / 15, 12);
    const januaries = years.map(({ months }) => months[0].runH).sort((a, b) => a - b);
    expect(summary.months[0].runH.p50).toBe(januaries[7]);
    const thirds = runs.map((run) => run.years[2].fuelL).sort((a, b) => a - b);
    expect(summary.byYear[2].fuelL.p10).toBeCloseTo(thirds[0] + 0.2 * (thirds[1] - thirds[0]), 9);
    expect(summary.lifeCycleCost.p50).toBe(
      runs.map(({ lifeCycleCost }) => lifeCycleCost).sort((a, b) => a - b)[1],
    );
    const without = years.filter(({ unservedKwh }) => unservedKwh < 1e-6).length;
    expect(without).toBeLessThan(15);
    expect([summary.yearsWithoutUnserved, summary.years]).toEqual([without, 15]);
    const worst = worstYear({ runs });
    const most = Math.max(...years.map(({ unservedKwh }) => unservedKwh));
    expect(runs[worst.run - 1].years[worst.year - 1].unservedKwh).toBe(most);
    expect(summary.causes.reduce((sum, { frac }) => sum + frac, 0)).toBeCloseTo(1, 9);
  });

  it('is the worse the more is drawn against it', () => {
    const total = (stress: string) =>
      stressed(`runs: 2, ${stress}`).alternatives[0].runs.flatMap(({ years }) => years);
    const sum = (years: ReturnType<typeof total>, of: 'fuelL' | 'unservedKwh') =>
      years.reduce((all, year) => all + year[of], 0);
    const sure = total(SURE);
    expect(sum(total(SURE.replace('load: [1, 1]', 'load: [1.2, 1.2]')), 'fuelL')).toBeGreaterThan(
      sum(sure, 'fuelL'),
    );
    const late = total(SURE.replace('chance: 0 }', 'chance: 1, days: 60 }'));
    expect(sum(late, 'unservedKwh')).toBeGreaterThan(sum(sure, 'unservedKwh') + 10);
    expect(late.every(({ draw }) => draw.late)).toBe(true);
    expect(late.reduce((all, year) => all + year.unservedByCauseKwh['tank dry'], 0)).toBeGreaterThan(10);
    const failing = total(SURE.replace('startFailureChance: 0', 'startFailureChance: 0.9'));
    expect(sum(failing, 'unservedKwh')).toBeGreaterThan(sum(sure, 'unservedKwh') + 10);
  });

  it('prices fuel as drawn, and leaves the years alone', () => {
    const [{ runs: dear }] = stressed(`runs: 1, ${SURE}, fuelPrice: [2, 2]`).alternatives;
    const [{ runs: plain }] = stressed(`runs: 1, ${SURE}`).alternatives;
    expect(dear[0].years[0].fuelL).toBe(plain[0].years[0].fuelL);
    const [double] = horizonCosts(DAIRY.replace('fuelPerL: 1.5', 'fuelPerL: 3'), ['as filed']);
    expect(dear[0].lifeCycleCost).toBeCloseTo(double, 6);
  });

  it('counts load unserved where it has a price', () => {
    const text = DAIRY.replace('money: {', 'money: { unservedPerKwh: 10,');
    const request = requestOf(`${text}stress: { ${WILD} }\n`, { only: 'as filed', runs: 1 });
    const [priced] = finished(runStress(planStress(request).plan!, none)).alternatives[0].runs;
    for (const [i, year] of priced.years.entries()) {
      expect(year.fuelL).toBe(runs[0].years[i].fuelL);
      expect(year.running).toBeCloseTo(runs[0].years[i].running + 10 * year.unservedKwh, 8);
    }
    const worth = priced.years.reduce((sum, year, i) => sum + (10 * year.unservedKwh) / 1.04 ** (i + 1), 0);
    expect(worth).toBeGreaterThan(0);
    expect(priced.lifeCycleCost).toBeCloseTo(runs[0].lifeCycleCost + worth, 6);
  });

  it('misses one of the fixed deliveries', () => {
    const text = DAIRY.replace(
      'orderAtL: 60, leadDays: 4',
      'fillDates: [2025-03-01, 2025-05-01, 2025-06-15, 2025-07-20, 2025-09-15]',
    );
    const runsOf = (chance: number) => {
      const { plan } = planStress(
        requestOf(`${text}stress: { runs: 4, ${SURE.replace('chance: 0 }', `chance: ${chance} }`)} }\n`, {
          only: 'as filed',
        }),
      );
      return finished(runStress(plan!, none)).alternatives[0].runs;
    };
    const short = (all: ReturnType<typeof runsOf>) =>
      all.flatMap(({ years }) => years).reduce((sum, year) => sum + year.unservedKwh, 0);
    expect(short(runsOf(1))).toBeGreaterThan(short(runsOf(0)) + 10);
  });

  it('shows the worst year as it was: the same unserved energy, and its dark week', () => {
    const plan = planOf(WILD);
    finished(runStress(plan, none));
    const worst = replayWorst(plan, 0);
    const year = runs[worst.run - 1].years[worst.year - 1];
    const { unservedKw, cause } = worst.columns;
    expect(unservedKw.reduce((sum, kw) => sum + kw, 0)).toBeCloseTo(year.unservedKwh, 6);
    expect(worst.darkWeek.toStep - worst.darkWeek.fromStep).toBe(168);
    expect(worst.runs.reduce((sum, { startH, endH }) => sum + endH - startH, 0)).toBe(
      cause.filter((each) => each > 0).length,
    );
    const margins = Array.from({ length: 359 }, (_, day) => {
      let margin = 0;
      for (let i = day * 24; i < (day + 7) * 24; i++)
        margin += worst.inputs.dcArrayKw![i] - worst.inputs.loadKw[0][i];
      return margin;
    });
    expect(worst.darkWeek.fromStep).toBe(24 * margins.indexOf(Math.min(...margins)));
    if (worst.shortWeek) expect(worst.shortWeek.unservedKwh).toBeGreaterThan(worst.darkWeek.unservedKwh);
  });

  it('takes the listed years of weather where there are some, and refuses a part of a year', () => {
    const { plan } = planStress(requestOf(`${DAIRY}horizon: { weatherYears: [a, b, c] }\n`, { runs: 2 }));
    expect(plan?.study.terms.weather).toEqual({ kind: 'listed', count: 3 });
    expect(plan?.study.alternatives).toEqual([]);
    expect(planOf('').study.terms.weather).toEqual({ kind: 'made', count: 30 });
    const { issues } = planStress(requestOf(DAIRY.replace('days: 365', 'days: 30')));
    expect(issues.map(issueSentence).join('\n')).toMatch(/period\.days: found 30; expected 365/);
  });
});

describe('draws', () => {
  const { found } = preparedOf(
    ['as filed'],
    `${DAIRY}stress: { load: [0.8, 1.2], fuelPrice: [1, 2], lateDelivery: { chance: 0.25 } }\n`,
  );
  const draws = Array.from({ length: 400 }, (_, i) => drawRun(found[0].site, i + 1, 10, 7));

  it('spread evenly over their ranges', () => {
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    // four standard errors of an even spread
    expect(Math.abs(mean(draws.map(({ loadFactor }) => loadFactor)) - 1)).toBeLessThan(
      (4 * 0.4) / Math.sqrt(12 * 400),
    );
    expect(Math.abs(mean(draws.map(({ fuelPriceFactor }) => fuelPriceFactor)) - 1.5)).toBeLessThan(
      4 / Math.sqrt(12 * 400),
    );
    const years = draws.flatMap((draw) => draw.years);
    expect(Math.abs(mean(years.map(({ late }) => Number(late))) - 0.25)).toBeLessThan(
      4 * Math.sqrt(0.1875 / 4000),
    );
    for (let weather = 0; weather < 7; weather++) {
      const count = years.filter((year) => year.weather === weather).length;
      expect(Math.abs(count - 4000 / 7)).toBeLessThan(4 * Math.sqrt((4000 * 6) / 49));
    }
    expect(Math.min(...draws.map(({ loadFactor }) => loadFactor))).toBeGreaterThanOrEqual(0.8);
    expect(Math.max(...draws.map(({ loadFactor }) => loadFactor))).toBeLessThan(1.2);
  });
});

describe('made years of weather', () => {
  const axis = { startS: Date.UTC(2025, 0, 1) / 1000, stepMin: 60, count: 8760 };
  const place = { latitudeDeg: 47, longitudeDeg: 15 } as Parameters<typeof climateOf>[1];
  const climate = {
    latDeg: 47,
    globalKwh: [1, 1.8, 3, 4.2, 5.2, 5.6, 5.8, 5, 3.6, 2.2, 1.2, 0.8],
    lowC: [-6, -5, -1, 3, 8, 11, 13, 12, 9, 4, -1, -5],
    highC: [1, 4, 9, 14, 19, 22, 24, 24, 19, 13, 6, 2],
  };
  const made = new MadeYears(climate, 12, 'try', axis, 15);
  const filed = { windMPerS: new Float64Array(8760).fill(3) } as unknown as Weather;
  const years = Array.from({ length: 12 }, (_, i) => made.year(i, filed));
  const climates = years.map((year) => climateOf(year, place, axis)!);

  it('meet the monthly means over all of them, and differ among themselves', () => {
    for (let month = 0; month < 12; month++) {
      const means = climates.map(({ globalKwh }) => globalKwh[month]);
      const mean = means.reduce((sum, value) => sum + value, 0) / 12;
      // the edge days of a year in another time are cut, and the clear sky may bind
      expect(mean / climate.globalKwh[month]).toBeGreaterThan(0.96);
      expect(mean / climate.globalKwh[month]).toBeLessThan(1.03);
      expect(Math.max(...means) - Math.min(...means)).toBeGreaterThan(0.05 * mean);
      const air = climates.reduce((sum, { lowC, highC }) => sum + (lowC[month] + highC[month]) / 2, 0) / 12;
      expect(Math.abs(air - (climate.lowC[month] + climate.highC[month]) / 2)).toBeLessThan(1.2);
    }
  });

  it('keep the wind of the weather as filed', () => {
    expect(years[3].windMPerS).toBe(filed.windMPerS);
    expect(years[3].directWPerM2).toBeNull();
  });

  it('are not to be had where only the plane was measured, or a month is missing', () => {
    expect(climateOf({ ...years[0], globalWPerM2: null }, place, axis)).toBeNull();
    const short = { ...axis, count: 24 * 200 };
    expect(
      climateOf(
        { globalWPerM2: years[0].globalWPerM2!.subarray(0, 4800), airC: years[0].airC.subarray(0, 4800) },
        place,
        short,
      ),
    ).toBeNull();
  });
});
