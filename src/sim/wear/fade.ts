/** Wear of a battery over years: what time and cycles leave of its capacity, and when that is too little. */
import { type CalendarLaw, calendarFadeAfter, calendarRate } from './calendar-ageing.ts';
import { type CycleLife, lifeFactorByTemperature, minerSum } from './cycle-life.ts';
import type { CycleList } from './cycle-list.ts';

/**
 * How a make of battery wears. Calendar and cycle fade add up, resistance grows in proportion to each: common
 * practice.
 */
export interface WearLaw {
  calendar: CalendarLaw;
  cycleLife: CycleLife;
  /** cell temperature of the maker's cycle tests [°C], and the rise that halves cycle life [K]; Infinity: none */
  cycleReferenceC: number;
  lifeHalvingK: number;
  /** capacity left at which the maker counts a cycle test as failed [fraction], often 0.8 */
  testEndFrac: number;
  /** capacity left at which this battery is to be replaced [fraction], often 0.8 */
  endOfLifeFrac: number;
  /** growth of internal resistance per unit of capacity lost by age and by cycles, >= 0 */
  resistancePerCalendarFade: number;
  resistancePerCycleFade: number;
}

/** What a battery has become. */
export interface BatteryWear {
  /** age [years] */
  years: number;
  /** capacity lost by age and by cycles [fraction of the new capacity] */
  calendarFade: number;
  cycleFade: number;
  /** capacity left, 1 − both, not below 0 */
  capacityFrac: number;
  /** internal resistance as a multiple of the new, >= 1 */
  resistanceFrac: number;
  /** age at which `endOfLifeFrac` was reached [years]; null: not yet */
  endOfLifeYears: number | null;
}

/** What a year did with the battery. */
export interface YearOfUse {
  /** rainflow cycles of the year; depths against the capacity that the states of charge were counted in */
  cycles: CycleList;
  /** mean cell temperature [°C]; `equivalentCellC` gives the mean that weighs hot hours as they age */
  meanCellC: number;
  /** mean state of charge [fraction] */
  meanSocFrac: number;
}

/** A battery fresh from the works. */
export function newBattery(): BatteryWear {
  return {
    years: 0,
    calendarFade: 0,
    cycleFade: 0,
    capacityFrac: 1,
    resistanceFrac: 1,
    endOfLifeYears: null,
  };
}

/**
 * The battery after some time more. To go over a horizon, simulate each year with the capacity left and call this
 * with what the year was like.
 * @param state battery before; unchanged
 * @param use   what a whole year of such use does
 * @param years time that passes, >= 0: a year, or part of one
 * @returns battery after, the end of life interpolated within that time by the same laws
 */
export function agedBattery(law: WearLaw, state: BatteryWear, use: YearOfUse, years: number): BatteryWear {
  const rates = wearRates(law, use);
  const { timeExponent } = law.calendar;
  const calendarFade = calendarFadeAfter(state.calendarFade, rates.calendar, timeExponent, years);
  const cycleFade = state.cycleFade + rates.cycle * years;
  const reached = state.endOfLifeYears === null ? timeToEnd(law, state, rates, years) : null;
  return {
    years: state.years + years,
    calendarFade,
    cycleFade,
    capacityFrac: Math.max(0, 1 - calendarFade - cycleFade),
    resistanceFrac: 1 + law.resistancePerCalendarFade * calendarFade + law.resistancePerCycleFade * cycleFade,
    endOfLifeYears: reached === null ? state.endOfLifeYears : state.years + reached,
  };
}

/**
 * Years until the end of life if every year is like this one.
 * @param mostYears longest time of interest [years], > 0
 * @returns years from the state on, 0 if the end is already reached; null if it is not within `mostYears`
 */
export function yearsToEndOfLife(
  law: WearLaw,
  state: BatteryWear,
  use: YearOfUse,
  mostYears: number,
): number | null {
  return timeToEnd(law, state, wearRates(law, use), mostYears);
}

/** Fade in a year of such use: by age if it were the first year, and by cycles. */
interface WearRates {
  calendar: number;
  cycle: number;
}

function wearRates(law: WearLaw, use: YearOfUse): WearRates {
  const lifeFactor = lifeFactorByTemperature(use.meanCellC, law.cycleReferenceC, law.lifeHalvingK);
  return {
    calendar: calendarRate(law.calendar, use.meanCellC, use.meanSocFrac),
    // a Miner sum of 1 is a failed cycle test: the loss at which the maker calls it failed
    cycle: (1 - law.testEndFrac) * (minerSum(law.cycleLife, use.cycles) / lifeFactor),
  };
}

/** By halving intervals: capacity never rises, so the time at which it reaches the end is between two times. */
function timeToEnd(law: WearLaw, state: BatteryWear, rates: WearRates, mostYears: number): number | null {
  const lost = 1 - law.endOfLifeFrac;
  const { timeExponent } = law.calendar;
  const fadeAt = (years: number) =>
    calendarFadeAfter(state.calendarFade, rates.calendar, timeExponent, years) +
    state.cycleFade +
    rates.cycle * years;
  if (fadeAt(0) >= lost) return 0;
  if (fadeAt(mostYears) < lost) return null;
  let before = 0;
  let after = mostYears;
  for (let i = 0; i < 60; i++) {
    const middle = (before + after) / 2;
    if (fadeAt(middle) < lost) before = middle;
    else after = middle;
  }
  return after;
}
