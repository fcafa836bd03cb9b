import type { Generator } from '../../src/sim/plant.ts';

/** Litres an hour at `outputKw`: straight lines through the points, the outer ones carried on, never below 0. */
export function fuelLPerH(generator: Generator, outputKw: number): number {
  const { fuelKw, fuelLPerH: litres } = generator;
  let stretch = 0;
  while (stretch < fuelKw.length - 2 && outputKw > fuelKw[stretch + 1]) stretch++;
  const slope = (litres[stretch + 1] - litres[stretch]) / (fuelKw[stretch + 1] - fuelKw[stretch]);
  return Math.max(0, litres[stretch] + slope * (outputKw - fuelKw[stretch]));
}
