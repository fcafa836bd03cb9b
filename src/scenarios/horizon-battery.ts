import type { Plant } from '../sim/plant.ts';
import {
  agedBattery,
  type BatteryWear,
  newBattery,
  type WearLaw,
  type YearOfUse,
  yearsToEndOfLife,
} from '../sim/wear/fade.ts';
import { MOST_BATTERY_YEARS } from './battery-life.ts';
import { USUAL_BATTERY_YEARS } from './life-cycle.ts';
import type { Site } from './site-schema.ts';
import { type SiteWear, wearLaw } from './wear-from-site.ts';

/** A battery bank on its way through the years. */
export interface Bank {
  /** null: the site states no wear, so that it does not fade */
  law: WearLaw | null;
  /** age at which it is replaced whatever is left of it [years] */
  mostYears: number;
  wear: BatteryWear;
}

/** What a year made of a bank. */
export interface BankYear {
  bank: Bank;
  /** when it was replaced, as shares of the year, rising; mostly empty */
  replacedAt: number[];
  /** capacity left over the year: points to be joined by lines, `at` from 0 to 1 */
  health: { at: number; capacityFrac: number }[];
}

/** With a stated life the bank stays until that age, but for one that has lost more than this leaves. */
const LEAST_CAPACITY_FRAC = 0.3;

/** Capacity left at which a bank is replaced: at the end of its life by wear, unless its life is stated. */
export function leastCapacityFrac(wear: SiteWear, statedYears: number | null): number {
  return statedYears === null ? wear.endOfLife : Math.min(wear.endOfLife, LEAST_CAPACITY_FRAC);
}

/** The bank of a site when it is new; null without a battery. */
export function newBank({ battery, money }: Pick<Site, 'battery' | 'money'>): Bank | null {
  if (!battery) return null;
  if (!battery.wear)
    return { law: null, mostYears: money.batteryYears ?? USUAL_BATTERY_YEARS, wear: newBattery() };
  const law = wearLaw(battery.wear);
  return {
    law: { ...law, endOfLifeFrac: leastCapacityFrac(battery.wear, money.batteryYears) },
    mostYears: money.batteryYears ?? MOST_BATTERY_YEARS,
    wear: newBattery(),
  };
}

/**
 * A plant with its battery as worn as it is: capacity and power limits in proportion to the capacity left (a maker's
 * limits are currents for the capacity: common practice), one-way losses in proportion to the resistance.
 */
export function wornPlant(plant: Plant, { capacityFrac, resistanceFrac }: BatteryWear): Plant {
  const { battery } = plant;
  if (!battery || (capacityFrac === 1 && resistanceFrac === 1)) return plant;
  return {
    ...plant,
    battery: {
      ...battery,
      capacityKwh: battery.capacityKwh * capacityFrac,
      maxChargeKw: battery.maxChargeKw * capacityFrac,
      maxDischargeKw: battery.maxDischargeKw * capacityFrac,
      chargeEff: 1 - (1 - battery.chargeEff) * resistanceFrac,
      dischargeEff: 1 - (1 - battery.dischargeEff) * resistanceFrac,
    },
  };
}

/**
 * The bank after a year. It is replaced on the day on which it is due, and the new one ages for the rest of the year.
 * @param use      what the year did with it; null where it does not wear
 * @param replaces false in the study's last year: nobody buys a bank for what is left of it
 */
export function bankAfterYear(bank: Bank, use: YearOfUse | null, replaces: boolean): BankYear {
  const replacedAt: number[] = [];
  const health = [{ at: 0, capacityFrac: bank.wear.capacityFrac }];
  let now = bank;
  let left = 1;
  for (let life = yearsLeft(now, use); replaces && life <= left + ROUNDING; life = yearsLeft(now, use)) {
    const worn = olderBank(now, use, life);
    left = Math.max(0, left - life);
    replacedAt.push(1 - left);
    now = { ...bank, wear: newBattery() };
    health.push({ at: 1 - left, capacityFrac: worn.wear.capacityFrac }, { at: 1 - left, capacityFrac: 1 });
  }
  now = olderBank(now, use, left);
  health.push({ at: 1, capacityFrac: now.wear.capacityFrac });
  return { bank: now, replacedAt, health };
}

const ROUNDING = 1e-9;

/** Share of its price that a bank is still worth: in proportion to the life left, if it is used as it was last. */
export function worthLeftFrac(bank: Bank, use: YearOfUse | null): number {
  const left = yearsLeft(bank, use);
  return left / (bank.wear.years + left);
}

function yearsLeft({ law, mostYears, wear }: Bank, use: YearOfUse | null): number {
  const byAge = Math.max(0, mostYears - wear.years);
  return law === null || use === null ? byAge : (yearsToEndOfLife(law, wear, use, byAge) ?? byAge);
}

function olderBank(bank: Bank, use: YearOfUse | null, years: number): Bank {
  const { law, wear } = bank;
  if (law === null || use === null) return { ...bank, wear: { ...wear, years: wear.years + years } };
  return { ...bank, wear: agedBattery(law, wear, use, years) };
}
