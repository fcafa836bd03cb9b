/**
 * Share of its rating that an inverter (or charger) gives at a cabinet temperature: all up to the knee, then
 * falling straight, on to none.
 * Source: common practice (full power to 40 or 45 °C, about half at 60 °C); knee and slope are inputs.
 * @param slopePerK fall per kelvin above the knee
 * @returns 0 to 1
 */
export function deratingFactor(airC: number, kneeC: number, slopePerK: number): number {
  if (airC <= kneeC) return 1;
  return Math.max(0, 1 - slopePerK * (airC - kneeC));
}

/** DC power drawn to deliver `acKw`, without the idle draw: P + linear·P + quadratic·P² [kW]. */
export function dcDrawKw(acKw: number, linear: number, quadratic: number): number {
  return acKw * (1 + linear + quadratic * acKw);
}

/**
 * The common factor by which loads must shrink for their DC draw to equal what there is:
 * (1 + linear)·sum·y + quadratic·squares·y² = available.
 * @param sum      Σ P over the phases [kW]
 * @param squares  Σ P² [kW²]
 * @returns 0 to 1
 */
export function shareWithin(
  available: number,
  sum: number,
  squares: number,
  linear: number,
  quadratic: number,
): number {
  const b = (1 + linear) * sum;
  const a = quadratic * squares;
  if (available >= b + a) return 1;
  if (available <= 0) return 0;
  // the form of the root that does not cancel for small a
  return (2 * available) / (b + Math.sqrt(b * b + 4 * a * available));
}
