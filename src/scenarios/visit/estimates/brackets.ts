/** A threshold lies between these, by one start or stop, if that was of its cause. */
export interface Bracket {
  low: number;
  high: number;
  /** step of the log */
  step: number;
  /** false where another cause may be behind it: it helps to find where most agree, and does not narrow that */
  isSure: boolean;
}

export interface Bracketed {
  /** where most of the brackets agree */
  low: number;
  high: number;
  /** how many of them */
  agree: number;
  of: number;
}

/** Fewer that agree are too few to tell a cause from chance. */
export const LEAST_AGREEING = 4;
/** Of all starts or stops, at least this share. */
const LEAST_SHARE = 0.4;
/** So many, and this share of all, agree by their cause even where none is sure. */
const COMMON = 8;
const COMMON_SHARE = 0.7;

/**
 * Where most brackets have a common part. Starts of other causes stand anywhere: they agree with few others.
 * @returns null where none agree
 */
export function mostAgreed(brackets: readonly Bracket[]): Bracketed | null {
  const ends = brackets
    .flatMap(({ low, high }) => [
      { at: low, by: 1 },
      { at: high, by: -1 },
    ])
    // those that begin before those that end at the same place
    .sort((a, b) => a.at - b.at || b.by - a.by);
  let now = 0;
  let best: Bracketed | null = null;
  for (const [i, { at, by }] of ends.entries()) {
    now += by;
    if (by > 0 && now > (best?.agree ?? 0))
      best = { low: at, high: ends[i + 1].at, agree: now, of: brackets.length };
  }
  return best;
}

/**
 * The latest threshold: of all brackets or, where it was changed once within the log, of those after the change.
 * @param brackets in the order of time
 * @param leastSure so many of those that agree must be sure, or most of all agree
 * @returns what agrees, and the first bracket that counts; null where too few agree
 */
export function latestAgreed(
  brackets: readonly Bracket[],
  leastSure: number,
): { found: Bracketed; from: number } | null {
  const whole = mostAgreed(brackets);
  if (whole === null) return null;
  let from = 0;
  let most = whole.agree + Math.max(LEAST_AGREEING, 0.1 * brackets.length);
  for (let at = LEAST_AGREEING; at <= brackets.length - LEAST_AGREEING; at++) {
    const before = mostAgreed(brackets.slice(0, at))?.agree ?? 0;
    const after = mostAgreed(brackets.slice(at))?.agree ?? 0;
    if (Math.min(before, after) >= LEAST_AGREEING && before + after > most) {
      most = before + after;
      from = at;
    }
  }
  const since = brackets.slice(from);
  const found = from === 0 ? whole : mostAgreed(since);
  if (found === null || found.agree < LEAST_AGREEING || found.agree < LEAST_SHARE * found.of) return null;
  const sure = since.filter(({ low, high, isSure }) => isSure && low <= found.high && high >= found.low);
  const isCommon = found.agree >= COMMON && found.agree >= COMMON_SHARE * found.of;
  if (sure.length < leastSure && !isCommon) return null;
  return { found: bySure(sure, found), from };
}

/** The same by the sure brackets alone, where enough of them agree. */
function bySure(sure: readonly Bracket[], found: Bracketed): Bracketed {
  const agreed = mostAgreed(sure);
  return agreed && agreed.agree >= LEAST_AGREEING ? { ...agreed, agree: found.agree, of: found.of } : found;
}
