/** Values in a few classes, each with a fill that is darker than the one before, in colour and in grey. */
export interface MapScale {
  /** from the lowest class on */
  classes: MapClass[];
  /** digits after the point with which values of neighbouring classes can be told apart */
  decimals: number;
}

export interface MapClass {
  /** values from this on, up to that (not included); null: whatever is below, above */
  from: number | null;
  to: number | null;
  fill: string;
  /** the colour of text on that fill */
  ink: string;
}

/** From pale straw to deep blue; the text on each has a contrast of 4.5 : 1 or more. */
const FILLS = ['#f4efdd', '#dfe0c4', '#bfd0b7', '#93b6a8', '#42757d', '#27546b', '#122c45'];
const DARK_FROM = 4;
const ON_PALE = '#1d1b22';
const ON_DARK = '#ffffff';

/** So much of the values may lie in the last class: what is far above the others tells little. */
const MOST_ABOVE = 0.1;

/** Values that differ by less than this of themselves are alike. */
const LEAST_SPAN = 1e-9;

/**
 * A scale over values.
 * @param values finite, one or more
 */
export function mapScale(values: readonly number[]): MapScale {
  const sorted = [...values].sort((a, b) => a - b);
  const low = sorted[0];
  const high = sorted[sorted.length - 1];
  const usual = sorted[Math.floor((sorted.length - 1) * (1 - MOST_ABOVE))];
  // where nearly all are alike, the few that are not
  const span = usual - low > 1e-3 * (high - low) ? usual - low : high - low;
  const differ = span > LEAST_SPAN * Math.max(Math.abs(low), Math.abs(high), 1e-6);
  const { step, bounds } = differ ? boundsOver(low, low + span) : { step: 1, bounds: [] };
  const last = bounds.length;
  const classes = Array.from({ length: last + 1 }, (_, n): MapClass => {
    const at = last === 0 ? 0 : Math.round((n * (FILLS.length - 1)) / last);
    const ink = at >= DARK_FROM ? ON_DARK : ON_PALE;
    return { from: bounds[n - 1] ?? null, to: bounds[n] ?? null, fill: FILLS[at], ink };
  });
  return { classes, decimals: Math.max(0, Math.min(6, -Math.floor(Math.log10(step / 2)))) };
}

/** The class that a value is in. */
export function classOf({ classes }: MapScale, value: number): MapClass {
  return classes.find(({ to }) => to === null || value < to) ?? classes[classes.length - 1];
}

/** Round numbers above one value and up to another, fewer than there are fills; one at least. */
function boundsOver(low: number, high: number): { step: number; bounds: number[] } {
  const least = (high - low) / FILLS.length;
  let power = 10 ** Math.floor(Math.log10(least));
  for (;;) {
    for (const digit of [1, 2, 2.5, 5]) {
      const step = digit * power;
      const first = Math.floor(low / step) + 1;
      const count = Math.floor(high / step + 1e-9) - first + 1;
      if (step < least || count >= FILLS.length) continue;
      if (count < 1) return { step, bounds: [low + (high - low) / 2] };
      return {
        step,
        bounds: Array.from({ length: count }, (_, i) => Number(((first + i) * step).toPrecision(12))),
      };
    }
    power *= 10;
  }
}
