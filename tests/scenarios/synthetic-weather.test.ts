import { describe, expect, it } from 'vitest';
import {
  clearAt,
  clearHour,
  longestDullSpell,
  type MonthlyClimate,
  monthSpread,
  syntheticYears,
  withinHours,
} from '../../src/scenarios/synthetic-weather.ts';
import { clearnessShare, DAY_TO_DAY, LEAST_CLEARNESS } from '../../src/sim/sky/daily-clearness.ts';

/** An invented climate of no particular place. */
const CLIMATE: MonthlyClimate = {
  latDeg: 47,
  globalKwh: [1.0, 1.8, 3.1, 4.4, 5.3, 5.8, 5.9, 5.0, 3.7, 2.2, 1.2, 0.8],
  lowC: [-7, -6, -2, 2, 7, 10, 12, 12, 8, 4, -1, -5],
  highC: [1, 3, 9, 14, 19, 22, 25, 24, 19, 13, 6, 2],
};
const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const START = DAYS.map((_, month) => DAYS.slice(0, month).reduce((sum, days) => sum + days, 0));
const YEARS = 30;
const weather = syntheticYears(CLIMATE, YEARS, 'thirty years');

/** All days of a month over all the years. */
function daysOf(month: number): number[] {
  return Array.from({ length: YEARS }, (_, year) =>
    Array.from({ length: DAYS[month] }, (_, day) => year * 365 + START[month] + day),
  ).flat();
}
const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('thirty synthetic years', () => {
  it('meet the monthly means of irradiation within 2 %', () => {
    for (let month = 0; month < 12; month++) {
      const kwh = daysOf(month).map((day) =>
        weather.globalWPerM2.subarray(day * 24, day * 24 + 24).reduce((sum, w) => sum + w / 1000, 0),
      );
      expect(Math.abs(mean(kwh) / CLIMATE.globalKwh[month] - 1)).toBeLessThan(0.02);
    }
  });

  it('meet the monthly means of highest and lowest temperature within half a kelvin', () => {
    for (let month = 0; month < 12; month++) {
      const days = daysOf(month).map((day) => Array.from(weather.airC.subarray(day * 24, day * 24 + 24)));
      expect(Math.abs(mean(days.map((day) => Math.max(...day))) - CLIMATE.highC[month])).toBeLessThan(0.6);
      expect(Math.abs(mean(days.map((day) => Math.min(...day))) - CLIMATE.lowC[month])).toBeLessThan(1.2);
    }
  });

  // Bendt, Collares-Pereira and Rabl, Solar Energy 27(1), 1981: share of days below a clearness
  it('spread daily clearness as the published distribution, within 1 % of the days', () => {
    for (let month = 0; month < 12; month++) {
      const { gamma, greatest } = monthSpread(CLIMATE, month);
      const days = daysOf(month)
        .map((day) => weather.clearness[day])
        .sort((a, b) => a - b);
      const gaps = days.map((k, rank) =>
        Math.abs((rank + 0.5) / days.length - clearnessShare(k, gamma, LEAST_CLEARNESS, greatest)),
      );
      expect(Math.max(...gaps)).toBeLessThan(0.01);
    }
  });

  // Graham, Hollands and Brunger, Solar Energy 40(2), 1988 (from memory): 0.29 in the Gaussian form
  it('carry clearness from day to day as published, within 0.05', () => {
    const pairs: [number, number][] = [];
    for (let month = 0; month < 12; month++) {
      const days = daysOf(month);
      const ranks = new Map(
        [...days]
          .sort((a, b) => weather.clearness[a] - weather.clearness[b])
          .map((day, rank) => [day, (rank + 0.5) / days.length - 0.5]),
      );
      for (const day of days)
        if (ranks.has(day + 1)) pairs.push([ranks.get(day) ?? 0, ranks.get(day + 1) ?? 0]);
    }
    const covariance = mean(pairs.map(([a, b]) => a * b));
    const variance = mean(pairs.map(([a]) => a * a));
    // rank correlation of a Gaussian chain: (6/π)·asin(φ/2)
    expect(Math.abs(covariance / variance - (6 / Math.PI) * Math.asin(DAY_TO_DAY / 2))).toBeLessThan(0.05);
  });

  it('stay at or below the clear sky and above nothing', () => {
    let above = 0;
    for (let i = 0; i < weather.globalWPerM2.length; i++) {
      const limit = clearHour(CLIMATE.latDeg, Math.floor(i / 24) % 365, i % 24);
      if (weather.globalWPerM2[i] > limit + 1e-9 || weather.globalWPerM2[i] < 0) above++;
    }
    expect(above).toBe(0);
  });

  it('have dull spells that last, warm clear summer days, and years that differ', () => {
    expect(longestDullSpell(weather.clearness, 0.3).days).toBeGreaterThan(7);
    const years = Array.from({ length: YEARS }, (_, year) =>
      weather.globalWPerM2.subarray(year * 8760, (year + 1) * 8760).reduce((sum, w) => sum + w, 0),
    );
    expect(Math.max(...years) / Math.min(...years)).toBeGreaterThan(1.03);
    expect(Math.max(...years) / Math.min(...years)).toBeLessThan(1.3);
  });
});

describe('five minutes within the hours', () => {
  const years = syntheticYears(CLIMATE, 2, 'two');
  const fine = withinHours(CLIMATE, years, 5, 'two');

  it('keep the mean of every hour and stay below the clear sky of their moment', () => {
    let worst = 0;
    let above = 0;
    for (let hour = 0; hour < years.globalWPerM2.length; hour++) {
      const steps = fine.subarray(hour * 12, hour * 12 + 12);
      worst = Math.max(worst, Math.abs(steps.reduce((sum, w) => sum + w / 12, 0) - years.globalWPerM2[hour]));
      for (let j = 0; j < 12; j++)
        if (
          steps[j] >
          clearAt(CLIMATE.latDeg, Math.floor(hour / 24) % 365, (hour % 24) + (j + 0.5) / 12) + 1e-9
        )
          above++;
    }
    expect(worst).toBeLessThan(1e-6);
    expect(above).toBe(0);
  });

  it('flicker, and last from one to the next', () => {
    const noon = Array.from({ length: 365 }, (_, day) =>
      Array.from(fine.subarray((day * 24 + 12) * 12, (day * 24 + 12) * 12 + 12)),
    );
    const moving = noon.filter((steps) => Math.max(...steps) > 1.1 * Math.min(...steps)).length;
    expect(moving).toBeGreaterThan(180);
    const jumps = noon.flatMap((steps) => steps.slice(1).map((w, j) => Math.abs(w - steps[j])));
    const spans = noon.map((steps) => Math.max(...steps) - Math.min(...steps));
    expect(mean(jumps)).toBeLessThan(mean(spans) / 2);
  });
});

it('ten years of one place, as a designer asks for them', () => {
  const ten = syntheticYears(CLIMATE, 10, 'ten years');
  const rows = Array.from({ length: 10 }, (_, year) => {
    const clearness = ten.clearness.subarray(year * 365, (year + 1) * 365);
    const kwh = ten.globalWPerM2
      .subarray(year * 8760, (year + 1) * 8760)
      .reduce((sum, w) => sum + w / 1000, 0);
    return { year: year + 1, kwh, spell: longestDullSpell(clearness, 0.3) };
  });
  for (const { year, kwh, spell } of rows)
    console.log(
      `year ${year}: ${kwh.toFixed(0)} kWh/m2, longest dull spell ${spell.days} days from day ${spell.fromDay + 1}`,
    );
  expect(new Set(rows.map(({ kwh }) => kwh)).size).toBe(10);
});

describe('seeds', () => {
  it('give the same bits again, and others for another', () => {
    expect(syntheticYears(CLIMATE, 2, 'a')).toEqual(syntheticYears(CLIMATE, 2, 'a'));
    expect(syntheticYears(CLIMATE, 2, 'a').clearness).not.toEqual(syntheticYears(CLIMATE, 2, 'b').clearness);
  });
});
