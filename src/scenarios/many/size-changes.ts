import type { SiteChanges } from '../apply-changes.ts';
import type { Site } from '../site-schema.ts';
import type { Catalogue } from './catalogue.ts';
import { pricesOf } from './prices.ts';
import { type Size, sizeOf, stringsTimes } from './sizes.ts';

/**
 * A size as changes of the site, with all that goes with it (`GOES_WITH` says the rules in words) and its capital;
 * nothing for the site's own sizes.
 */
export function sizeChanges(size: Size, site: Site, catalogue: Catalogue): SiteChanges {
  const own = sizeOf(site);
  return {
    ...generatorChanges(size, own, site, catalogue),
    ...inverterChanges(size.inverterKva, site),
    ...batteryChanges(size, own, site),
    ...arrayChanges(size, site),
    ...moneyChanges(size, own, site, catalogue),
  };
}

/** By which rules a size changes more than its own number. */
export const GOES_WITH: readonly string[] = [
  'Generator: its fuel curve, service and overhaul come from the catalogue; the output that charging aims at changes in proportion to the rating. Site derating, delays and warm-up stay.',
  'Inverters: charger, AC input limit, idle draw and the peak thresholds change in proportion to the rating; losses stay the same shares of it.',
  'Battery: charge and discharge limits are of each module; the cabinet’s battery mass and its heat loss from the battery to the outside change in proportion to the modules in it. Modules in cabinets of their own stay there.',
  'Arrays: all in the same proportion, in whole strings where strings are stated; controller current, input limits and array inverter change with them. Tilt, azimuth and losses stay.',
  'Load, tank, and all other rules of the generator stay as they are.',
];

function generatorChanges(size: Size, own: Size, { control }: Site, { generators }: Catalogue): SiteChanges {
  if (size.generatorKw === own.generatorKw || size.generatorKw === null || own.generatorKw === null)
    return {};
  const { chargeTargetKw } = control;
  const times = size.generatorKw / own.generatorKw;
  return {
    'generator.ratedKw': size.generatorKw,
    'generator.fuel': fuelAt(size.generatorKw, generators),
    ...(chargeTargetKw === null ? {} : { 'control.chargeTargetKw': chargeTargetKw * times }),
  };
}

/** The catalogue's curve; a size between is burnt as the nearest one, point by point in proportion. */
function fuelAt(ratedKw: number, generators: Catalogue['generators']): { kW: number; lPerH: number }[] {
  const nearest = generators.reduce((best, one) =>
    Math.abs(one.ratedKw - ratedKw) < Math.abs(best.ratedKw - ratedKw) ? one : best,
  );
  const times = ratedKw / nearest.ratedKw;
  return nearest.fuel.map(({ kW, lPerH }) => ({ kW: kW * times, lPerH: lPerH * times }));
}

function inverterChanges(ratedKva: number, { inverter, control }: Site): SiteChanges {
  if (ratedKva === inverter.ratedKva) return {};
  const times = ratedKva / inverter.ratedKva;
  const changes: SiteChanges = {
    'inverter.ratedKva': ratedKva,
    'inverter.acInputA': inverter.acInputA * times,
  };
  // points of efficiency give the idle draw as a share of the rating
  if (inverter.efficiency.length === 0) changes['inverter.idleW'] = inverter.idleW * times;
  if (inverter.chargerKw !== undefined) changes['inverter.chargerKw'] = inverter.chargerKw * times;
  if (inverter.chargerA !== undefined) changes['inverter.chargerA'] = inverter.chargerA * times;
  if (control.peak) {
    changes['control.peak.stopKw'] = control.peak.stopKw * times;
    if (control.peak.startKw !== null) changes['control.peak.startKw'] = control.peak.startKw * times;
  }
  const isPeak = ({ peakStartKw, peakStopKw }: Site['control']['calendar'][number]) =>
    (peakStartKw ?? peakStopKw) !== undefined;
  if (control.calendar.some(isPeak))
    changes['control.calendar'] = control.calendar.map((entry) => ({
      ...entry,
      ...(entry.peakStartKw === undefined ? {} : { peakStartKw: entry.peakStartKw * times }),
      ...(entry.peakStopKw === undefined ? {} : { peakStopKw: entry.peakStopKw * times }),
    }));
  return changes;
}

function batteryChanges(size: Size, own: Size, { cabinet, batteryCabinets }: Site): SiteChanges {
  if (size.modules === own.modules || size.modules === null || own.modules === null) return {};
  const elsewhere = batteryCabinets.reduce((sum, { modules }) => sum + modules, 0);
  const changes: SiteChanges = { 'battery.modules': size.modules };
  if (!cabinet || own.modules === elsewhere) return changes;
  const times = (size.modules - elsewhere) / (own.modules - elsewhere);
  // a cabinet without a module still has the air's trace of mass: the model needs some
  return {
    ...changes,
    'cabinet.batteryKjPerK': Math.max(1, cabinet.batteryKjPerK * times),
    'cabinet.batteryToOutsideWPerK': cabinet.batteryToOutsideWPerK * times,
  };
}

function arrayChanges({ arrayTimes }: Size, { arrays }: Site): SiteChanges {
  const changes: SiteChanges = {};
  for (const [i, array] of arrays.entries()) {
    const times = stringsTimes(array, arrayTimes);
    if (times === 1) continue;
    const at = (key: string) => `arrays.${i}.${key}`;
    changes[at('kWp')] = array.kWp * times;
    if (array.controllerA !== undefined) changes[at('controllerA')] = array.controllerA * times;
    if (array.inverterKw !== undefined) changes[at('inverterKw')] = array.inverterKw * times;
    if (array.strings) changes[at('strings.strings')] = Math.round(array.strings.strings * times);
    if (array.controller?.maxInputA !== undefined)
      changes[at('controller.maxInputA')] = array.controller.maxInputA * times;
    if (array.controller?.ratedKw !== undefined)
      changes[at('controller.ratedKw')] = array.controller.ratedKw * times;
  }
  return changes;
}

/** Capital, service and overhaul by the difference of prices; where the site states no capital, by the whole price. */
function moneyChanges(size: Size, own: Size, site: Site, catalogue: Catalogue): SiteChanges {
  const { money } = site;
  const [now, then] = [pricesOf(own, site, catalogue), pricesOf(size, site, catalogue)];
  const moved = (value: number, key: keyof typeof now) => Math.max(0, value + then[key] - now[key]);
  const capital = money.capital === 0 ? then.equipment : moved(money.capital, 'equipment');
  return {
    ...(capital === money.capital ? {} : { 'money.capital': capital }),
    ...(then.service === now.service ? {} : { 'money.serviceCost': moved(money.serviceCost, 'service') }),
    ...(then.overhaul === now.overhaul
      ? {}
      : { 'money.overhaulCost': moved(money.overhaulCost, 'overhaul') }),
  };
}
