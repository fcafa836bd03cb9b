import type { TimeAxis } from '../series.ts';

/** First and last light of a stretch of days, measured less expected, by the clock of the log [min, −720 to 720]. */
export interface LightEdges {
  /** middle of the stretch, days from the start of the axis */
  day: number;
  firstMin: number;
  lastMin: number;
}

/** Days that are looked at together, and how far the next lot begins from this one. */
const TOGETHER_DAYS = 10;
const APART_DAYS = 5;
/** Fewest of them with data. */
const FEWEST_DAYS = 5;
/** Light begins where output passes these shares of the highest; the median of them counts. */
const SHARES = [0.03, 0.05, 0.08, 0.12];
/** The highest but so many of a time of day: one slip is no light. */
const PASSED_OVER = 1;

/**
 * When it becomes light and dark by a column, against a clear sky, every few days: for each time of day the brightest
 * of some days counts, so that clouds of single days do not, and low output, so that a battery that is full does not.
 * @param measured output or irradiance, NaN where missing
 * @param clear    what it would be under a clear sky, on the same axis as if the clock were right
 * @returns none for stretches that do not tell
 */
export function lightEdges(measured: Float64Array, clear: Float64Array, axis: TimeAxis): LightEdges[] {
  const perDay = 1440 / axis.stepMin;
  const days = Math.floor(axis.count / perDay);
  const stretches: { day: number; seen: Float64Array; wanted: Float64Array }[] = [];
  for (let from = 0; from + FEWEST_DAYS <= days; from += APART_DAYS) {
    const to = Math.min(days, from + TOGETHER_DAYS);
    const span: [number, number] = [from * perDay, to * perDay];
    const seen = brightest(measured, measured, span, perDay);
    if (seen === null) continue;
    const wanted = brightest(clear, measured, span, perDay) as Float64Array;
    stretches.push({ day: (from + to) / 2, seen, wanted });
  }
  if (stretches.length === 0) return [];
  const most = (values: Float64Array) => values.reduce((a, b) => Math.max(a, b), 0);
  // what is cut off when the battery is full makes the ratio small: the sunniest stretches count
  const gains = stretches.map(({ seen, wanted }) => most(seen) / most(wanted)).sort((a, b) => a - b);
  const gain = gains[Math.floor(0.75 * (gains.length - 1))];
  const highest = stretches.reduce((top, { wanted }) => Math.max(top, most(wanted)), 0);
  if (!(gain > 0) || !(highest > 0)) return [];
  return stretches.flatMap(({ day, seen, wanted }) => {
    const edges = SHARES.flatMap((share) => {
      const a = lightOf(seen, share * highest * gain);
      const b = lightOf(wanted, share * highest);
      if (a === null || b === null) return [];
      return [[a.first - b.first, a.last - b.last].map((steps) => aroundMidnight(steps * axis.stepMin))];
    });
    if (edges.length < 2) return [];
    return [
      { day, firstMin: middleOf(edges.map(([one]) => one)), lastMin: middleOf(edges.map(([, one]) => one)) },
    ];
  });
}

/** For each time of day the highest but one of the days where there is data; null where much is missing. */
function brightest(values: Float64Array, known: Float64Array, [from, to]: [number, number], perDay: number) {
  const out = new Float64Array(perDay);
  for (let at = 0; at < perDay; at++) {
    const column: number[] = [];
    for (let i = from + at; i < to; i += perDay) if (!Number.isNaN(known[i])) column.push(values[i]);
    if (column.length < FEWEST_DAYS) return null;
    out[at] = column.sort((a, b) => b - a)[PASSED_OVER];
  }
  return out;
}

/** Where a day's course passes a level after its longest night, and where it was last above it [steps]. */
function lightOf(course: Float64Array, level: number): { first: number; last: number } | null {
  const count = course.length;
  const at = (i: number) => course[((i % count) + count) % count];
  let best = { from: 0, steps: 0 };
  for (let from = 0; from < count; from++) {
    if (at(from) >= level || at(from - 1) < level) continue;
    let to = from;
    while (to - from < count && at(to) < level) to++;
    if (to - from > best.steps) best = { from, steps: to - from };
  }
  const { from, steps } = best;
  if (steps === 0 || steps >= count) return null;
  // values are means of steps: they stand in the middle
  const passed = (low: number, high: number) => (level - at(low)) / (at(high) - at(low));
  const end = from + steps;
  return {
    first: end - 1 + passed(end - 1, end) + 0.5,
    last: from - passed(from, from - 1) + 0.5,
  };
}

/** A distance between times of day, the short way round [min]. */
export function aroundMidnight(minutes: number): number {
  return ((((minutes + 720) % 1440) + 1440) % 1440) - 720;
}

export function middleOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}
