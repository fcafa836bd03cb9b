import { fuelRateLPerH, fuelStretches } from '../../sim/fuel.ts';
import type { Generator } from '../../sim/plant.ts';

/** A corner of a fuel curve: generator output [kW] and litres an hour. */
export interface FuelPoint {
  kw: number;
  lPerH: number;
}

/**
 * Corners of the largest convex curve that is nowhere above the fuel curve of any of some generators, from no load
 * to the largest rating. An engine that changes its load within an hour, or that is relieved by another, burns at
 * least what this curve gives at its mean load.
 * @returns corners by rising output, two or more
 */
export function fuelHull(generators: readonly Generator[]): FuelPoint[] {
  const points = generators.flatMap(fuelCorners).sort((a, b) => a.kw - b.kw || a.lPerH - b.lPerH);
  const hull: FuelPoint[] = [];
  for (const point of points) {
    // of several at one output the lowest comes first and the others are above the curve
    if (hull.length > 0 && hull[hull.length - 1].kw === point.kw) continue;
    while (hull.length > 1 && !turnsUp(hull[hull.length - 2], hull[hull.length - 1], point)) hull.pop();
    hull.push(point);
  }
  return hull;
}

/** Where one generator's curve bends, from no load to its rating. */
function fuelCorners({ ratedKw, fuelKw, fuelLPerH }: Generator): FuelPoint[] {
  const { breaks, lines } = fuelStretches(fuelKw, fuelLPerH);
  const [a, b] = lines;
  // a line that would cross nothing above no load is cut off there
  const atZero = a < 0 && b > 0 ? [-a / b] : [];
  const bends = [0, ...atZero, ...fuelKw, ratedKw].filter((kw) => kw >= 0 && kw <= ratedKw);
  return bends.map((kw) => ({ kw, lPerH: fuelRateLPerH(kw, ...breaks, ...lines) }));
}

/** Whether the slope grows at `b` on the way from `a` to `c`. */
function turnsUp(a: FuelPoint, b: FuelPoint, c: FuelPoint): boolean {
  return (b.lPerH - a.lPerH) * (c.kw - b.kw) < (c.lPerH - b.lPerH) * (b.kw - a.kw);
}

/** Litres an hour on a hull at an output within it. */
export function fuelOnHull(hull: readonly FuelPoint[], kw: number): number {
  let i = 1;
  while (i < hull.length - 1 && kw > hull[i].kw) i++;
  const [a, b] = [hull[i - 1], hull[i]];
  return a.lPerH + ((b.lPerH - a.lPerH) * (kw - a.kw)) / (b.kw - a.kw);
}

/** Least litres a kWh anywhere on a hull. */
export function bestLPerKwh(hull: readonly FuelPoint[]): number {
  return Math.min(...hull.filter(({ kw }) => kw > 0).map(({ kw, lPerH }) => lPerH / kw));
}
