/**
 * Lead-acid: two wells that even out, dq1/dt = −P + k·(c·E − q1) with q1 at hand and c its share at rest, in closed
 * form for constant power P (Manwell and McGowan, Solar Energy 50:399, 1993).
 */
import type { Battery } from '../../src/sim/plant.ts';
import { clamp, type Site } from './site.ts';

type Kinetic = NonNullable<Battery['kinetic']>;

/** q1 after `hours` is `rest − P·perKw`. */
function inClosedForm(
  { atHandFrac: c, ratePerH: k }: Kinetic,
  wellKwh: number,
  energyKwh: number,
  hours: number,
) {
  const gone = -Math.expm1(-k * hours);
  return {
    restKwh: wellKwh * Math.exp(-k * hours) + energyKwh * c * gone,
    perKw: gone / k + (c * (k * hours - gone)) / k,
  };
}

/** Most constant power out of the store, at whose end nothing is at hand [kW on the store's side]. */
export function mostOutOfWellKw({ plant, state }: Site, hours: number): number {
  const kinetic = plant.battery?.kinetic;
  if (!kinetic) return Number.POSITIVE_INFINITY;
  const { restKwh, perKw } = inClosedForm(kinetic, state.wellKwh, state.energyKwh, hours);
  return Math.max(0, restKwh / perKw);
}

/** Most constant power into the store, at whose end the well at hand is full [kW on the store's side]. */
export function mostIntoWellKw({ plant, state }: Site, hours: number): number {
  const kinetic = plant.battery?.kinetic;
  if (!kinetic) return Number.POSITIVE_INFINITY;
  const { restKwh, perKw } = inClosedForm(kinetic, state.wellKwh, state.energyKwh, hours);
  return Math.max(0, (kinetic.atHandFrac * plant.battery!.capacityKwh - restKwh) / perKw);
}

/** What is at hand after a segment that leaves `energyKwh` in the store. */
export function wellAfterKwh({ plant, state }: Site, energyKwh: number, hours: number): number {
  const kinetic = plant.battery?.kinetic;
  if (!kinetic) return energyKwh;
  const { restKwh, perKw } = inClosedForm(kinetic, state.wellKwh, state.energyKwh, hours);
  const meanKw = (state.energyKwh - energyKwh) / hours;
  return clamp(restKwh - meanKw * perKw, 0, energyKwh);
}
