import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arrheniusFactor,
  type CalendarLaw,
  calendarFadeAfter,
  calendarRate,
  equivalentCellC,
} from '../../src/sim/wear/calendar-ageing.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

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
