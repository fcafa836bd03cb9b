import type { Inverter } from '../../src/sim/plant.ts';
import { sum } from './site.ts';

/** DC power for `acKw` out of one inverter, without its idle draw [kW]. */
export function dcForAcKw(inverter: Inverter, acKw: number): number {
  return acKw + inverter.lossLinear * acKw + inverter.lossQuadraticPerKw * acKw * acKw;
}

/** share(V, p): the factor by which all of `acKw` must shrink to be fed by `dcKw`; found by halving. */
export function shareOf(inverter: Inverter, dcKw: number, acKw: readonly number[]): number {
  const neededKw = (factor: number) => sum(acKw.map((kw) => dcForAcKw(inverter, factor * kw)));
  if (neededKw(1) <= dcKw) return 1;
  if (dcKw <= 0) return 0;
  let low = 0;
  let high = 1;
  for (let halving = 0; halving < 100; halving++) {
    const middle = (low + high) / 2;
    if (neededKw(middle) <= dcKw) low = middle;
    else high = middle;
  }
  return low;
}

/** Share of its rating that the electronics give at this air temperature. */
export function deratingFactor(inverter: Inverter, airC: number): number {
  const { derateKneeC, derateC, derateFrac } = inverter;
  if (airC <= derateKneeC) return 1;
  return Math.max(0, 1 - ((1 - derateFrac) * (airC - derateKneeC)) / (derateC - derateKneeC));
}
