import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chargeFactor } from '../../src/sim/battery.ts';
import {
  arrheniusFactor,
  type CalendarLaw,
  calendarFadeAfter,
  calendarRate,
  equivalentCellC,
} from '../../src/sim/wear/calendar-ageing.ts';
import {
  cycleLifeByPoints,
  cycleLifeByPower,
  cyclesToFailure,
  lifeFactorByTemperature,
  minerSum,
} from '../../src/sim/wear/cycle-life.ts';
import { addCycle, makeCycleList } from '../../src/sim/wear/cycle-list.ts';
import {
  ageOneYear,
  type BatteryWear,
  newBattery,
  type WearLaw,
  yearsToEndOfLife,
} from '../../src/sim/wear/fade.ts';
import { peukertAh, peukertHours } from '../../src/sim/wear/peukert.ts';
import { rainflowInto } from '../../src/sim/wear/rainflow.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

function cycles(...entries: [depthFrac: number, count: number][]) {
  const list = makeCycleList();
  for (const [depthFrac, count] of entries) addCycle(list, depthFrac, 0.5, count);
  return list;
}

// The lithium iron phosphate charge window: plating below 0 °C (second hand), 0 to 45 °C, some makers to 55 °C, less
// current from 0 to 10 °C (from memory; common practice, an input).
it('no charge at or below 0 °C, all of it from 10 to 45 °C, none from 55 °C', () => {
  expect([-10, 0, 5, 10, 45, 55].map((c) => chargeFactor(c, 0, 10, 45, 55))).toEqual([0, 0, 0.5, 1, 1, 0]);
});

describe('cycle life', () => {
  // N(d) = N1·d^−b with N1 3000 and b 1.2 (the form from memory, the values derived)
  const law = cycleLifeByPower(3000, 1.2);
  it.each([
    [1, 3000, 1e-9],
    [0.8, 3921.148, 5e-4],
    [0.5, 6892.19, 5e-4],
    [0.4, 9008.43, 5e-3],
  ])('at depth %d is %d cycles', (depth, expected, tolerance) => {
    expect(Math.abs(cyclesToFailure(law, depth) - expected)).toBeLessThan(tolerance);
  });

  it('has no end at depth 0', () => expect(cyclesToFailure(law, 0)).toBe(Number.POSITIVE_INFINITY));

  it('equals Math.pow', () => {
    fc.assert(
      fc.property(between(1e-6, 1.2), between(0, 3), (depth, b) => {
        const expected = 3000 * depth ** -b;
        expect(Math.abs(cyclesToFailure(cycleLifeByPower(3000, b), depth) / expected - 1)).toBeLessThan(
          1e-13,
        );
      }),
    );
  });

  it("goes through a table's points, straight in logarithms between and beyond", () => {
    const table = cycleLifeByPoints([0.1, 0.4, 1], [40_000, 10_000, 1_000]);
    expect(cyclesToFailure(table, 0.1)).toBeCloseTo(40_000, 6);
    expect(cyclesToFailure(table, 0.4)).toBeCloseTo(10_000, 7);
    expect(cyclesToFailure(table, 1)).toBeCloseTo(1_000, 8);
    // 0.1 to 0.4 falls to a quarter at four times the depth: slope −1; halfway, at the geometric mean 0.2, 20 000
    expect(cyclesToFailure(table, 0.2)).toBeCloseTo(20_000, 6);
    // carried on with slope −1 to a tenth of the depth: ten times the cycles
    expect(cyclesToFailure(table, 0.01)).toBeCloseTo(400_000, 5);
    // the geometric mean of 0.4 and 1 has the geometric mean of 10 000 and 1 000
    expect(cyclesToFailure(table, Math.sqrt(0.4))).toBeCloseTo(Math.sqrt(1e7), 7);
    // the last slope ln(1/10)/ln(2.5) carried on to depth 2.5 is another tenth
    expect(cyclesToFailure(table, 2.5)).toBeCloseTo(100, 9);
  });

  it('of a table of points on a power law is that law everywhere', () => {
    const depths = [0.05, 0.2, 0.3, 0.75, 1];
    const table = cycleLifeByPoints(
      depths,
      depths.map((depth) => 3000 * depth ** -1.2),
    );
    fc.assert(
      fc.property(between(0.001, 1.2), (depth) => {
        expect(Math.abs(cyclesToFailure(table, depth) / cyclesToFailure(law, depth) - 1)).toBeLessThan(1e-13);
      }),
    );
  });

  it('throws on a table that is none', () => {
    expect(() => cycleLifeByPoints([0.5], [100])).toThrow('1 depths');
    expect(() => cycleLifeByPoints([0.5, 1], [100])).toThrow('2 depths and 1 lives');
    expect(() => cycleLifeByPoints([0.5, 0.5], [100, 90])).toThrow('depth 0.5 after 0.5');
    expect(() => cycleLifeByPoints([0, 0.5], [100, 90])).toThrow('100 cycles at depth 0');
    expect(() => cycleLifeByPoints([0.2, 0.5], [100, 0])).toThrow('0 cycles at depth 0.5');
  });

  // half the life each 10 K above the reference, none gained below: common practice
  it('halves each 10 K', () => {
    expect(lifeFactorByTemperature(45, 25, 10)).toBeCloseTo(0.25, 15);
    expect(lifeFactorByTemperature(30, 25, 10)).toBeCloseTo(Math.SQRT1_2, 15);
    expect(lifeFactorByTemperature(5, 25, 10)).toBe(1);
    expect(lifeFactorByTemperature(45, 25, Number.POSITIVE_INFINITY)).toBe(1);
  });

  // D = Σ n/N: Miner, Journal of Applied Mechanics 12, 1945 (from memory); values derived
  it('is used up by 100, 40, 80, 20, 100 % to 3.660344e-4', () => {
    const list = makeCycleList();
    rainflowInto(list, [1, 0.4, 0.8, 0.2, 1]);
    expect(Math.abs(minerSum(law, list) - 3.660344e-4)).toBeLessThan(5e-11);
  });

  it('is used up by 1000 cycles of 0.8 to 0.255027', () => {
    expect(Math.abs(minerSum(law, cycles([0.8, 1000])) - 0.255027)).toBeLessThan(5e-7);
  });
});

const CALENDAR: CalendarLaw = {
  fadeFirstYear: 0.02,
  timeExponent: 0.5,
  referenceC: 25,
  activationJPerMol: 50_000,
  referenceSocFrac: 0.5,
  socSlope: 0.6,
  socCubic: 0,
};

describe('calendar ageing', () => {
  // by hand: 1/298.15 − 1/308.15 = 3.3540164e-3 − 3.2451728e-3 = 1.0884363e-4; × 50 000/8.314462618 = 0.654544;
  // e^0.654544 = 1.92426
  it('is 1.92426 times as fast at 35 as at 25 °C with 50 kJ/mol', () => {
    expect(arrheniusFactor(35, 25, 50_000)).toBeCloseTo(1.92426, 5);
    expect(arrheniusFactor(25, 25, 50_000)).toBe(1);
    expect(arrheniusFactor(15, 25, 50_000)).toBeLessThan(0.52);
  });

  // by hand: 0.02 · (1 + 0.6 · (0.9 − 0.5)) = 0.0248; and a slope that would turn the factor negative stops at 0
  it('goes with the state of charge', () => {
    expect(calendarRate(CALENDAR, 25, 0.9)).toBeCloseTo(0.0248, 15);
    expect(calendarRate({ ...CALENDAR, socSlope: 4 }, 25, 0.1)).toBe(0);
  });

  // Naumann et al., Journal of Energy Storage 17, 2018 (constants from memory): fade = 1.2571e-5 · kT ·
  // (2.8575·(soc − 0.5)³ + 0.60225) · √seconds, kT by 17 126 J/mol about 298.15 K
  it('can be the published law of a lithium iron phosphate cell', () => {
    const law: CalendarLaw = {
      fadeFirstYear: 1.2571e-5 * 0.60225 * Math.sqrt(365 * 86_400),
      timeExponent: 0.5,
      referenceC: 25,
      activationJPerMol: 17_126,
      referenceSocFrac: 0.5,
      socSlope: 0,
      socCubic: 2.8575 / 0.60225,
    };
    for (const [cellC, soc, years] of [
      [25, 0.5, 1],
      [40, 1, 2.4],
      [10, 0.125, 9],
    ]) {
      const kT = Math.exp((-17_126 / 8.31446261815324) * (1 / (cellC + 273.15) - 1 / 298.15));
      const published =
        1.2571e-5 * kT * (2.8575 * (soc - 0.5) ** 3 + 0.60225) * Math.sqrt(years * 365 * 86_400);
      expect(calendarFadeAfter(0, calendarRate(law, cellC, soc), 0.5, years)).toBeCloseTo(published, 12);
    }
  });

  it('by the square root of time: 0.02 in a year, 0.04 in four', () => {
    expect(calendarFadeAfter(0, 0.02, 0.5, 1)).toBeCloseTo(0.02, 15);
    expect(calendarFadeAfter(0, 0.02, 0.5, 4)).toBeCloseTo(0.04, 15);
    expect(calendarFadeAfter(0.02, 0.02, 0.5, 3)).toBeCloseTo(0.04, 15);
  });

  // by hand: 0.02 after a year; at a rate of 0.04 that is (0.02/0.04)² = 0.25 years old, and a year later
  // 0.04 · √1.25 = 0.0447214. The other way round: 0.04 is (0.04/0.02)² = 4 years old, then 0.02 · √5, the same
  it('takes what is lost as an equivalent time at new conditions', () => {
    expect(calendarFadeAfter(0.02, 0.04, 0.5, 1)).toBeCloseTo(0.0447214, 7);
    expect(calendarFadeAfter(0.04, 0.02, 0.5, 1)).toBeCloseTo(0.0447214, 7);
    expect(calendarFadeAfter(0.04, 0, 0.5, 1)).toBe(0.04);
    // linear in time there is no memory: 0.02 + 0.04
    expect(calendarFadeAfter(0.02, 0.04, 1, 1)).toBeCloseTo(0.06, 15);
    // nearly nothing more, and no overflow, where the rate all but vanishes
    expect(calendarFadeAfter(0.04, 1e-300, 0.1, 1)).toBe(0.04);
  });

  it('does not change when the time is split', () => {
    const exponent = between(0.3, 1);
    fc.assert(
      fc.property(
        between(0, 0.3),
        between(1e-4, 0.2),
        exponent,
        between(0, 20),
        between(0, 1),
        (f, rate, z, t, s) => {
          const split = calendarFadeAfter(calendarFadeAfter(f, rate, z, t * s), rate, z, t * (1 - s));
          expect(Math.abs(split - calendarFadeAfter(f, rate, z, t))).toBeLessThan(1e-12);
        },
      ),
    );
  });

  it('at the equivalent temperature is what stepping through the temperatures gives', () => {
    const temperatures = fc.array(between(-20, 60), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(
        temperatures,
        fc.constantFrom(0.5, 0.75, 1),
        between(0.1, 0.9),
        (cellC, timeExponent, soc) => {
          const law = { ...CALENDAR, timeExponent };
          let fade = 0;
          for (const c of cellC)
            fade = calendarFadeAfter(fade, calendarRate(law, c, soc), timeExponent, 1 / cellC.length);
          const equivalent = equivalentCellC(law, cellC);
          expect(Math.abs(calendarRate(law, equivalent, soc) - fade)).toBeLessThan(1e-12);
          const mean = cellC.reduce((sum, c) => sum + c, 0) / cellC.length;
          expect(equivalent).toBeGreaterThan(mean - 1e-9);
          expect(equivalentCellC({ ...law, activationJPerMol: 0 }, cellC)).toBeCloseTo(mean, 10);
        },
      ),
    );
  });
});

const LAW: WearLaw = {
  calendar: { ...CALENDAR, fadeFirstYear: 0.01, timeExponent: 1 },
  cycleLife: cycleLifeByPower(3000, 1.2),
  cycleReferenceC: 25,
  lifeHalvingK: 10,
  testEndFrac: 0.8,
  endOfLifeFrac: 0.8,
  resistancePerCalendarFade: 2,
  resistancePerCycleFade: 1,
};
const MILD = { meanCellC: 25, meanSocFrac: 0.5 };

describe('wear over years', () => {
  // by hand: 365 cycles of 0.8 are 365/3921.148 = 0.0930850 of the cycle life, which ends at a loss of 0.2:
  // 0.0186170 a year, with 0.01 by age 0.0286170. The end, a loss of 0.2, after 0.2/0.0286170 = 6.98885 years;
  // after 7 years 1 − 0.200319 = 0.799681 is left, the resistance 1 + 2·0.07 + 0.130319 = 1.270319
  it('adds a linear calendar fade and cycles', () => {
    const use = { ...MILD, cycles: cycles([0.8, 365]) };
    let wear = newBattery();
    for (let year = 0; year < 6; year++) wear = ageOneYear(LAW, wear, use);
    expect(wear.endOfLifeYears).toBeNull();
    expect(wear.capacityFrac).toBeCloseTo(1 - 6 * 0.028617, 6);
    wear = ageOneYear(LAW, wear, use);
    expect(wear.years).toBe(7);
    expect(wear.calendarFade).toBeCloseTo(0.07, 12);
    expect(wear.cycleFade).toBeCloseTo(0.130319, 6);
    expect(wear.capacityFrac).toBeCloseTo(0.799681, 6);
    expect(wear.resistanceFrac).toBeCloseTo(1.270319, 6);
    expect(wear.endOfLifeYears).toBeCloseTo(6.98885, 4);
    const older = ageOneYear(LAW, wear, use);
    expect(older.endOfLifeYears).toBe(wear.endOfLifeYears);
    expect(yearsToEndOfLife(LAW, newBattery(), use, 50)).toBeCloseTo(6.98885, 4);
  });

  // by hand: 0.03·√t + 0.02·t = 0.2; with s = √t: s = (−0.03 + √(0.0009 + 4·0.02·0.2))/0.04 = (0.13 − 0.03)/0.04
  // = 2.5, t = 6.25
  it('finds the end inside a year, not on the straight line between its ends', () => {
    const law = { ...LAW, calendar: { ...CALENDAR, fadeFirstYear: 0.03 } };
    // a table in which a full cycle takes a tenth of the life: 0.1 · 0.2 = 0.02 a year
    const use = { ...MILD, cycles: cycles([1, 300]) };
    let wear = newBattery();
    while (wear.endOfLifeYears === null) wear = ageOneYear(law, wear, use);
    expect(wear.years).toBe(7);
    expect(wear.endOfLifeYears).toBeCloseTo(6.25, 10);
    expect(yearsToEndOfLife(law, newBattery(), use, 100)).toBeCloseTo(6.25, 10);
  });

  // by hand: 0.05·√t = 0.2 after 16 years
  it('of a battery that only stands there', () => {
    const law = { ...LAW, calendar: { ...CALENDAR, fadeFirstYear: 0.05 } };
    const use = { ...MILD, cycles: makeCycleList() };
    expect(yearsToEndOfLife(law, newBattery(), use, 20)).toBeCloseTo(16, 10);
    expect(yearsToEndOfLife(law, newBattery(), use, 15.9)).toBeNull();
  });

  it('that wears nothing has no end, and one past its end has none to wait for', () => {
    const law = { ...LAW, calendar: { ...CALENDAR, fadeFirstYear: 0 } };
    const use = { ...MILD, cycles: makeCycleList() };
    expect(yearsToEndOfLife(law, newBattery(), use, 1000)).toBeNull();
    expect(ageOneYear(law, newBattery(), use)).toEqual({ ...newBattery(), years: 1 });
    const worn: BatteryWear = { ...newBattery(), years: 9, cycleFade: 0.25, capacityFrac: 0.75 };
    expect(yearsToEndOfLife(law, worn, use, 10)).toBe(0);
    expect(ageOneYear(law, worn, use).endOfLifeYears).toBe(9);
  });

  // by hand: 10 K above the reference halve the cycle life: 100 full cycles of 3000 take 2 · 0.2/30 = 0.0133333
  it('wears faster by cycles when hot', () => {
    const use = { meanCellC: 35, meanSocFrac: 0.5, cycles: cycles([1, 100]) };
    expect(ageOneYear(LAW, newBattery(), use).cycleFade).toBeCloseTo(0.0133333, 7);
  });

  it('does not lose more than all, and leaves the state before as it was', () => {
    const before = Object.freeze(newBattery());
    const wear = ageOneYear(LAW, before, { ...MILD, cycles: cycles([1, 50_000]) });
    expect(wear.capacityFrac).toBe(0);
    // by hand: 50 000/3000 · 0.2 + 0.01 = 3.343333 a year, 0.2 after 0.0598206 years
    expect(wear.endOfLifeYears).toBeCloseTo(0.0598206, 6);
  });

  it('year by year reaches its end when it was foreseen', () => {
    const exponents = fc.constantFrom(0.5, 0.7, 1);
    fc.assert(
      fc.property(
        between(0.02, 0.1),
        exponents,
        between(0, 400),
        between(0, 45),
        between(0, 1),
        (f, z, n, c, soc) => {
          const law = { ...LAW, calendar: { ...CALENDAR, fadeFirstYear: f, timeExponent: z } };
          const use = { meanCellC: c, meanSocFrac: soc, cycles: cycles([0.6, n]) };
          const foreseen = yearsToEndOfLife(law, newBattery(), use, 40);
          let wear = newBattery();
          while (wear.endOfLifeYears === null && wear.years < 40) {
            const next = ageOneYear(law, wear, use);
            expect(next.capacityFrac).toBeLessThanOrEqual(wear.capacityFrac);
            wear = next;
          }
          if (foreseen === null) expect(wear.endOfLifeYears).toBeNull();
          else expect(Math.abs(wear.endOfLifeYears! - foreseen)).toBeLessThan(1e-9);
        },
      ),
    );
  });
});

// t = H·(C/(I·H))^k (the form second hand, the values derived): 100 Ah at 20 h, k 1.2
describe("Peukert's law", () => {
  it.each([
    [5, 20, 100],
    [10, 8.705506, 87.05506],
    [25, 2.899119, 72.47798],
  ])('at %d A lasts %d h and gives %d Ah', (currentA, hours, ampereHours) => {
    expect(Math.abs(peukertHours(100, 20, 1.2, currentA) - hours)).toBeLessThan(1e-5);
    expect(Math.abs(peukertAh(100, 20, 1.2, currentA) - ampereHours)).toBeLessThan(1e-4);
  });

  it('with an exponent of 1 gives the same at every current', () => {
    expect(peukertAh(100, 20, 1, 77)).toBeCloseTo(100, 12);
  });
});
