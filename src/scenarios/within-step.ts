/**
 * Spreads means over the shorter steps within them, in proportion to weights; every mean is kept. A mean whose
 * steps have no weight, or would come out above what can be, is spread evenly.
 * @param flat    the means, each repeated over `per` steps
 * @param per     short steps in a long one
 * @param weights of each short step, >= 0
 * @param most    what each short step can be at most
 */
export function shapeWithin(
  flat: Float64Array,
  per: number,
  weights: Float64Array,
  most: Float64Array,
): Float64Array {
  const out = flat.slice();
  for (let from = 0; from + per <= flat.length; from += per) {
    let sum = 0;
    for (let i = from; i < from + per; i++) sum += weights[i];
    const factor = (flat[from] * per) / sum;
    let fits = sum > 0;
    for (let i = from; fits && i < from + per; i++) fits = factor * weights[i] <= most[i];
    if (!fits) continue;
    for (let i = from; i < from + per; i++) out[i] = factor * weights[i];
  }
  return out;
}
