import type { Issue } from './issue.ts';
import type { LifeCycle } from './money.ts';
import type { DataSheet } from './series.ts';
import type { Change, SiteHeading } from './study.ts';

/** A site over its whole horizon: every alternative, year after year. */
export interface HorizonStudy {
  site: SiteHeading;
  stepMin: number;
  /** first day of every year */
  start: string;
  /** alternatives that are finished, in the order of the site file; the first is the site as filed */
  alternatives: HorizonAlternative[];
  /** names of those that are not */
  outstanding: string[];
  sheets: DataSheet[];
  /** doubts about the inputs, none of them an error */
  doubts: Issue[];
  made: { version: string; inputsHash: string };
}

export interface HorizonAlternative {
  name: string;
  note: string;
  changes: Change[];
  has: { battery: boolean; array: boolean; generator: boolean; wear: boolean; money: boolean };
  /** growth of the load, a fraction a year */
  loadGrowth: number;
  /** real discount rate, a fraction a year */
  discountRate: number;
  serviceEveryH: number;
  /** price of a new battery bank */
  bankPrice: number;
  years: HorizonYear[];
  sums: HorizonSums;
  money: LifeCycle;
  /** the first year multiplied, as `darkweek simulate` does it; its weather is that of the site as filed */
  shortcut: HorizonSums;
  /** the battery's life by the first year alone [years]; null where the site states no wear */
  shortcutLifeYears: number | null;
}

/** What the years come to, or what the first year multiplied says that they do. */
export interface HorizonSums {
  fuelL: number;
  runH: number;
  unservedKwh: number;
  lifeCycleCost: number;
}

/** One year as it was simulated. */
export interface HorizonYear {
  /** from 1 */
  year: number;
  /** seed or file of its weather; null: that of the site as filed */
  weather: string | null;
  loadKwh: number;
  servedKwh: number;
  unservedKwh: number;
  unservedH: number;
  /** shed on purpose, no part of what is unserved */
  shedKwh: number;
  fuelL: number;
  runH: number;
  starts: number;
  curtailedKwh: number;
  /** persons who came because they were called */
  visits: number;
  /** service visits and overhauls that its hours make due, by the hours of all years */
  serviceVisits: number;
  overhauls: number;
  /** null without a battery */
  battery: BatteryYear | null;
}

export interface BatteryYear {
  /** capacity left, of the new capacity, with which the year was simulated, and at its end */
  startFrac: number;
  endFrac: number;
  /** internal resistance as a multiple of the new, with which the year was simulated */
  resistanceFrac: number;
  /** lowest state of charge, against the capacity left */
  minSoc: number;
  /** energy taken out over the capacity of the year [full cycles] */
  fullCycles: number;
  /** when it was replaced, as shares of the year; mostly empty */
  replacedAt: number[];
  /** capacity left over the year: points to be joined by lines, `at` from 0 to 1 */
  health: { at: number; capacityFrac: number }[];
}
