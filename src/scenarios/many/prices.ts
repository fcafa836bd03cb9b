import type { Site } from '../site-schema.ts';
import type { Catalogue } from './catalogue.ts';
import type { Size } from './sizes.ts';

/** What a size costs more or less, at the start and at every service and overhaul. */
export interface SizePrices {
  /** of generator, inverters, battery and arrays together [money] */
  equipment: number;
  service: number;
  overhaul: number;
}

/**
 * Prices of a size: those of the site file, else of the catalogue; between two items of the catalogue (or beyond the
 * last) on the straight line through them.
 */
export function pricesOf(size: Size, site: Site, catalogue: Catalogue): SizePrices {
  const { prices, inverter, battery } = site;
  const sets = catalogue.generators.filter(({ phases }) => phases === inverter.phases);
  const of = (what: 'price' | 'service' | 'overhaul') =>
    size.generatorKw === null
      ? 0
      : onLine(
          sets.map((set) => [set.ratedKw, set[what]]),
          size.generatorKw,
        );
  const units = inverter.phases * inverter.unitsPerPhase;
  const unit =
    prices.perInverterKva === undefined
      ? onLine(
          catalogue.inverters.map(({ ratedKva, price }) => [ratedKva, price]),
          size.inverterKva,
        )
      : prices.perInverterKva * size.inverterKva;
  const module = prices.perModule ?? (battery?.moduleKwh ?? 0) * catalogue.battery.perKwh;
  const generator =
    prices.perGeneratorKw === undefined ? of('price') : prices.perGeneratorKw * (size.generatorKw ?? 0);
  const array = prices.perKwp ?? catalogue.array.perKwp;
  return {
    equipment: generator + units * unit + module * (size.modules ?? 0) + array * (size.arrayKwp ?? 0),
    service: of('service'),
    overhaul: of('overhaul'),
  };
}

/** The value at x of the line through points; beyond the outer ones that of the last two; one point holds everywhere. */
export function onLine(points: readonly (readonly [number, number])[], x: number): number {
  if (points.length === 0) return 0;
  const rising = [...points].sort((a, b) => a[0] - b[0]);
  if (rising.length === 1) return rising[0][1];
  const above = rising.findIndex(([at]) => at >= x);
  const i = Math.min(Math.max(1, above < 0 ? rising.length - 1 : above), rising.length - 1);
  const [[x0, y0], [x1, y1]] = [rising[i - 1], rising[i]];
  return Math.max(0, y0 + ((y1 - y0) * (x - x0)) / (x1 - x0));
}
