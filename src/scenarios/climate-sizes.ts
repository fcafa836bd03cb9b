import type { Site } from './site-schema.ts';
import type { AlternativeResult } from './study.ts';

type Cabinet = NonNullable<Site['cabinet']>;

/** Where thermostats are commonly set for lithium iron phosphate: common practice [°C]. */
export const HEATER = { onC: 3, offC: 6, minSoc: 0.3 };
export const COOLER = { onC: 38, offC: 34, cop: 2.5 };
/** Sizes come in steps of this [W]. */
const SIZE_W = 50;

/**
 * A heater of the size that holds the cells of a cabinet with none at the switch-off temperature in the coldest day
 * of the weather, by the steady heat loss of both nodes; common practice for the temperatures.
 * @param cabinet the one to heat; default: the first
 * @returns null where cells never come down to the switch-on temperature
 */
export function typicalHeater(
  { cabinet: first }: Pick<Site, 'cabinet'>,
  result: AlternativeResult,
  cabinet: Cabinet | null = first,
): Cabinet['heater'] {
  const coldestC = extremeDayC(result, Math.min);
  if (!cabinet || coldestC === null || result.ledger.extremes.coldestCellC > HEATER.onC) return null;
  const lossW = batteryLossWPerK(cabinet) * (HEATER.offC - coldestC);
  return { ratedW: sizeW(lossW), ...HEATER };
}

/**
 * A cooler for a cabinet with none: it moves the heat of the hottest day at the switch-off temperature, that of the
 * sun at its highest, and the inverters' mean losses; common practice for the temperatures and the heat moved per
 * electricity.
 * @returns null where the air inside never comes up to the switch-on temperature
 */
export function typicalCooler(site: Site, result: AlternativeResult): Cabinet['cooler'] {
  const { cabinet } = site;
  const hottestC = extremeDayC(result, Math.max);
  const { extremes, totals, count, stepMin } = result.ledger;
  if (!cabinet || hottestC === null || extremes.hottestAirC < COOLER.onC) return null;
  const sunWPerM2 = result.inputs.cabinetSunWPerM2?.reduce((most, value) => Math.max(most, value), 0) ?? 0;
  const hours = (count * stepMin) / 60;
  const lossKwh = totals.inverterLossKwh + totals.idleKwh + totals.chargerLossKwh + totals.batteryLossKwh;
  const wallsWPerK = cabinet.airToOutsideWPerK + cabinet.batteryToOutsideWPerK;
  const heatW =
    cabinet.sunM2 * sunWPerM2 + (1000 * lossKwh) / hours + wallsWPerK * Math.max(0, hottestC - COOLER.offC);
  return { ratedW: sizeW(heatW / COOLER.cop), ...COOLER };
}

/** Heat that the battery node loses for each kelvin above the outside, through its wall and through the air [W/K]. */
function batteryLossWPerK({
  airToOutsideWPerK: ao,
  airToBatteryWPerK: ab,
  batteryToOutsideWPerK: bo,
}: Cabinet): number {
  return bo + (ao + ab > 0 ? (ao * ab) / (ao + ab) : 0);
}

function sizeW(watts: number): number {
  return Math.max(SIZE_W, Math.ceil(watts / SIZE_W) * SIZE_W);
}

/** Mean outside air of the coldest or hottest day [°C]; null where there is none. */
function extremeDayC({ inputs }: AlternativeResult, extreme: (...values: number[]) => number): number | null {
  const { airC, stepMin } = inputs;
  const perDay = 1440 / stepMin;
  if (!airC || airC.length < perDay) return null;
  const days = Array.from(
    { length: Math.floor(airC.length / perDay) },
    (_, day) =>
      airC.subarray(day * perDay, (day + 1) * perDay).reduce((sum, value) => sum + value, 0) / perDay,
  );
  return extreme(...days);
}
