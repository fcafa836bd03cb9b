import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chargeFactor } from '../../src/sim/battery.ts';
import type { CalendarLaw } from '../../src/sim/wear/calendar-ageing.ts';
import { cycleLifeByPower } from '../../src/sim/wear/cycle-life.ts';
import { addCycle, makeCycleList } from '../../src/sim/wear/cycle-list.ts';
import {
  agedBattery,
  type BatteryWear,
  newBattery,
  type WearLaw,
  yearsToEndOfLife,
} from '../../src/sim/wear/fade.ts';
import { peukertAh, peukertHours } from '../../src/sim/wear/peukert.ts';

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

const CALENDAR: CalendarLaw = {
  fadeFirstYear: 0.02,
  timeExponent: 0.5,
  referenceC: 25,
  activationJPerMol: 50_000,
  referenceSocFrac: 0.5,
  socSlope: 0.6,
  socCubic: 0,
};

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
    for (let year = 0; year < 6; year++) wear = agedBattery(LAW, wear, use, 1);
    expect(wear.endOfLifeYears).toBeNull();
    expect(wear.capacityFrac).toBeCloseTo(1 - 6 * 0.028617, 6);
    wear = agedBattery(LAW, wear, use, 1);
    expect(wear.years).toBe(7);
    expect(wear.calendarFade).toBeCloseTo(0.07, 12);
    expect(wear.cycleFade).toBeCloseTo(0.130319, 6);
    expect(wear.capacityFrac).toBeCloseTo(0.799681, 6);
    expect(wear.resistanceFrac).toBeCloseTo(1.270319, 6);
    expect(wear.endOfLifeYears).toBeCloseTo(6.98885, 4);
    const older = agedBattery(LAW, wear, use, 1);
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
    while (wear.endOfLifeYears === null) wear = agedBattery(law, wear, use, 1);
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
    expect(agedBattery(law, newBattery(), use, 1)).toEqual({ ...newBattery(), years: 1 });
    const worn: BatteryWear = { ...newBattery(), years: 9, cycleFade: 0.25, capacityFrac: 0.75 };
    expect(yearsToEndOfLife(law, worn, use, 10)).toBe(0);
    expect(agedBattery(law, worn, use, 1).endOfLifeYears).toBe(9);
  });

  // by hand: 10 K above the reference halve the cycle life: 100 full cycles of 3000 take 2 · 0.2/30 = 0.0133333 a
  // year, 0.2 being the loss of the maker's test; by age 0.01 · 1.92426. A battery kept until 0.7 is left lasts
  // 0.3/(0.0133333 + 0.0192426) = 9.20926 years
  it('wears faster when hot, and lasts longer where less capacity is enough', () => {
    const law = { ...LAW, endOfLifeFrac: 0.7 };
    const use = { meanCellC: 35, meanSocFrac: 0.5, cycles: cycles([1, 100]) };
    expect(agedBattery(law, newBattery(), use, 1).cycleFade).toBeCloseTo(0.0133333, 7);
    expect(yearsToEndOfLife(law, newBattery(), use, 50)).toBeCloseTo(9.20926, 4);
  });

  it('does not lose more than all, and leaves the state before as it was', () => {
    const before = Object.freeze(newBattery());
    const wear = agedBattery(LAW, before, { ...MILD, cycles: cycles([1, 50_000]) }, 1);
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
            const next = agedBattery(law, wear, use, 1);
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
