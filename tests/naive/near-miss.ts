/** Tolerance of the rules. */
export const EPS = 1e-9;

/**
 * Comparisons as the rules page writes them, which also remember how near the run has come to another outcome.
 *
 * Two correct simulators differ by rounding only, so they can part ways only where a compared quantity lies
 * within that rounding of where its comparison turns. Comparisons with a tolerance turn at `threshold ± EPS`:
 * quantities that are equal by construction (full, clipped at the cut-off, timers on the grid) lie at a distance
 * of rounding from the threshold and so a whole EPS from the turn, and are not counted below `EQUAL`.
 * Comparisons without a tolerance turn at the threshold itself and always count.
 */
const EQUAL = 1e-10;

export class NearMiss {
  nearest = Number.POSITIVE_INFINITY;

  /** a distance that is harmless when it is nothing but rounding */
  note(a: number, b: number): void {
    const distance = Math.abs(a - b);
    if (distance >= EQUAL && distance < this.nearest) this.nearest = distance;
  }

  /** a distance that matters down to the last bit */
  noteExact(a: number, b: number): void {
    const distance = Math.abs(a - b);
    if (distance < this.nearest) this.nearest = distance;
  }

  /** a <= b + eps */
  atMost(a: number, b: number): boolean {
    this.note(a, b);
    return a <= b + EPS;
  }

  /** a >= b - eps */
  atLeast(a: number, b: number): boolean {
    this.note(a, b);
    return a >= b - EPS;
  }

  /** a > b + eps */
  above(a: number, b: number): boolean {
    this.note(a, b);
    return a > b + EPS;
  }

  /** a < b - eps */
  below(a: number, b: number): boolean {
    this.note(a, b);
    return a < b - EPS;
  }

  /** a < b */
  exactlyBelow(a: number, b: number): boolean {
    this.noteExact(a, b);
    return a < b;
  }

  /** a <= b */
  exactlyAtMost(a: number, b: number): boolean {
    this.noteExact(a, b);
    return a <= b;
  }
}
