/**
 * Fuel rate by straight lines: up to three stretches, each with intercept and slope.
 * A two-point line is the linear fuel curve of Skarstein and Uhlen (Wind Engineering 13(2), 1989); four points
 * are what makers print for quarter, half, three-quarter and full load.
 * @param kw generator output, mean [kW], >= 0
 * @returns litres an hour, >= 0
 */
export function fuelRateLPerH(
  kw: number,
  break1: number,
  break2: number,
  a1: number,
  b1: number,
  a2: number,
  b2: number,
  a3: number,
  b3: number,
): number {
  if (kw <= break1) return Math.max(0, a1 + b1 * kw);
  if (kw <= break2) return Math.max(0, a2 + b2 * kw);
  return Math.max(0, a3 + b3 * kw);
}

/** The stretches of a fuel curve: where they meet [kW], and intercept [L/h] and slope [L/kWh] of each. */
export interface FuelStretches {
  breaks: [number, number];
  lines: [number, number, number, number, number, number];
}

/**
 * Stretches through two to four points of a fuel curve, the last repeated where there are fewer.
 * @param kw rising powers [kW]
 * @param lPerH litres an hour at them
 */
export function fuelStretches(kw: readonly number[], lPerH: readonly number[]): FuelStretches {
  const line = (i: number): [number, number] => {
    const slope = (lPerH[i + 1] - lPerH[i]) / (kw[i + 1] - kw[i]);
    return [lPerH[i] - slope * kw[i], slope];
  };
  const last = kw.length - 2;
  const break1 = last >= 1 ? kw[1] : Number.POSITIVE_INFINITY;
  const break2 = last >= 2 ? kw[2] : Number.POSITIVE_INFINITY;
  return {
    breaks: [break1, break2],
    lines: [...line(0), ...line(Math.min(1, last)), ...line(last)] as FuelStretches['lines'],
  };
}
