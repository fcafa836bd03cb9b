import seedrandom from 'seedrandom';

/** How a load is spread over the minutes of its metering intervals. */
export interface PeakSpread {
  /** typical ratio of an interval's highest minute to its mean, >= 1; 1 spreads evenly */
  peakedness: number;
  /** typical length of a pulse [min], >= 1 */
  pulseMin: number;
  /** share of the interval's mean that runs through, below all pulses, 0 to 1 */
  baseFrac: number;
  /** no minute above this [kW], the size of the supply; Infinity: no limit */
  ceilingKw: number;
  seed: string;
}

/**
 * Spreads each interval's energy over its minutes: a base that runs through, and pulses on top, placed at
 * random, whose height makes the interval's highest minute `peakedness` times its mean. Every interval keeps
 * its energy (to rounding), none gets a minute above the ceiling unless its own mean is, and an interval with a
 * higher mean gets a higher expected peak, so that the load's classes (base, day, peak hours) keep their order.
 * Source: a rule of our own. Half-hour metering says nothing of the minutes inside: the peakedness is a stated
 * assumption (1.5 to 3 for a house or farm: common practice), not a measurement.
 * @param meanKw       mean power of each interval [kW], >= 0
 * @param intervalMin  interval length [min], a whole number that divides 60
 * @param outMin       step wanted [min], divides `intervalMin`
 * @returns mean power of each step [kW], meanKw.length · intervalMin / outMin values; the same seed gives the
 * same bits everywhere, for only + - * / and the seeded draws are used
 */
export function spreadPeaks(
  meanKw: Float64Array,
  intervalMin: number,
  outMin: number,
  spread: PeakSpread,
): Float64Array {
  const perInterval = intervalMin / outMin;
  const out = new Float64Array(meanKw.length * perInterval);
  const draw = seedrandom(spread.seed);
  const pulseSteps = Math.max(1, Math.round(spread.pulseMin / outMin));
  const shape = new Float64Array(perInterval);
  for (let i = 0; i < meanKw.length; i++) {
    drawPulses(shape, draw, pulseSteps, peakFor(meanKw[i], spread, perInterval), spread.baseFrac);
    for (let j = 0; j < perInterval; j++) out[i * perInterval + j] = meanKw[i] * shape[j];
  }
  return out;
}

/** Peak over mean for this interval: what was asked, within the ceiling and the interval's energy. */
function peakFor(meanKw: number, spread: PeakSpread, perInterval: number): number {
  const ceiling = meanKw > 0 ? Math.max(1, spread.ceilingKw / meanKw) : 1;
  const energyLimit = perInterval * (1 - spread.baseFrac) + spread.baseFrac;
  return Math.max(1, Math.min(spread.peakedness, ceiling, energyLimit));
}

/**
 * Fills `shape` (mean 1) with a base and pulses of up to `peak`. Pulses are set at random places until the
 * energy above the base is used; the last one is as high as is left.
 */
function drawPulses(
  shape: Float64Array,
  draw: () => number,
  pulseSteps: number,
  peak: number,
  baseFrac: number,
): void {
  const n = shape.length;
  if (peak <= 1 || n === 1) {
    shape.fill(1);
    return;
  }
  shape.fill(baseFrac);
  const height = peak - baseFrac;
  let left = n * (1 - baseFrac);
  while (left > 1e-12) {
    const start = Math.floor(draw() * n);
    for (let k = 0; k < pulseSteps && left > 1e-12; k++) {
      const at = (start + k) % n;
      const added = Math.min(left, baseFrac + height - shape[at]);
      shape[at] += added;
      left -= added;
    }
  }
}
