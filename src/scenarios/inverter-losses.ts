import { fitLossCurve, type LossFit } from '../sim/loss-fit.ts';
import type { Site } from './site-schema.ts';

type InverterPart = Site['inverter'];

/** Losses where neither they nor points of efficiency are given. */
export const LOSS_DEFAULTS = { idleW: 30, lossLinear: 0.02, lossAtRated: 0.03 };

/** The curve through the points of efficiency that a site gives; null where it gives the losses themselves. */
export function efficiencyFit({ efficiency }: Pick<InverterPart, 'efficiency'>): LossFit | null {
  if (efficiency.length === 0) return null;
  return fitLossCurve(
    efficiency.map(({ share }) => share),
    efficiency.map((point) => point.efficiency),
  );
}

/** Loss curve of all the units of one phase together, in the engine's units; the square's share falls with more. */
export function inverterLosses(inverter: InverterPart): {
  idleKw: number;
  lossLinear: number;
  lossQuadraticPerKw: number;
} {
  const ratedKw = phaseRatedKw(inverter);
  const fit = efficiencyFit(inverter);
  return {
    idleKw: fit ? fit.idleShare * ratedKw : (inverter.idleW / 1000) * inverter.unitsPerPhase,
    lossLinear: fit ? fit.linear : inverter.lossLinear,
    lossQuadraticPerKw: (fit ? fit.quadraticAtRated : inverter.lossAtRated) / ratedKw,
  };
}

/** What the units of a phase carry together [kW]. */
export function phaseRatedKw({ ratedKva, powerFactor, unitsPerPhase }: InverterPart): number {
  return ratedKva * powerFactor * unitsPerPhase;
}
