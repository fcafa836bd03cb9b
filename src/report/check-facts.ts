import type { DesignCheck, Verdict } from '../scenarios/design-checks/check.ts';
import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { digits } from './numbers.ts';
import { quoted } from './words.ts';

/** Worst first: what a reader must see before anything else. */
export const VERDICTS: readonly Verdict[] = ['not acceptable', 'look at', 'not known', 'fine'];

/** "2 to look at", after a count. */
const COUNTED: Record<Verdict, string> = {
  'not acceptable': 'not acceptable',
  'look at': 'to look at',
  'not known': 'not known',
  fine: 'fine',
};

export function withVerdict(checks: readonly DesignCheck[], verdict: Verdict): DesignCheck[] {
  return checks.filter((check) => check.verdict === verdict);
}

/** "14 fine, 2 to look at (title; title), 0 not acceptable"; what is not known only where there is any. */
export function verdictCounts(checks: readonly DesignCheck[], withTitles: boolean): string {
  const part = (verdict: Verdict) => {
    const found = withVerdict(checks, verdict);
    const titles = withTitles && verdict !== 'fine' && found.length > 0;
    const list = titles ? ` (${found.map(({ title }) => title).join('; ')})` : '';
    return `${found.length} ${COUNTED[verdict]}${list}`;
  };
  const order: Verdict[] = ['fine', 'look at', 'not acceptable'];
  if (withVerdict(checks, 'not known').length > 0) order.push('not known');
  return order.map(part).join(', ');
}

/** Checks of an alternative whose verdict is another than that of the first one; those that the first lacks too. */
function otherVerdicts(study: Study, result: AlternativeResult): DesignCheck[] {
  const first = new Map(study.alternatives[0].checks.map(({ key, verdict }) => [key, verdict]));
  return result.checks.filter(({ key, verdict }) => first.get(key) !== verdict);
}

/** The line of an alternative in the terminal: counts, and by name what is not fine, or what the change does. */
export function checksLine(study: Study, result: AlternativeResult): string {
  const isFirst = result === study.alternatives[0];
  const counts = verdictCounts(result.checks, isFirst);
  if (isFirst) return `Design checks: ${counts}.`;
  const other = otherVerdicts(study, result).map(({ title, verdict }) => `${title} (${verdict})`);
  const first = quoted(study.alternatives[0].name);
  return `Design checks: ${counts}; ${other.length === 0 ? `as with ${first}` : `otherwise than with ${first}: ${other.join('; ')}`}.`;
}

/** One line of the table of checks whose verdicts differ between alternatives; null where one has no such check. */
export interface VerdictRow {
  title: string;
  verdicts: (Verdict | null)[];
}

/** Checks on which alternatives differ, in their order; one that is fine wherever it applies is none of them. */
export function differingVerdicts(study: Study): VerdictRow[] {
  const titles = new Map(
    study.alternatives.flatMap(({ checks }) => checks.map(({ key, title }) => [key, title])),
  );
  const rows = [...titles].map(([key, title]) => ({
    title,
    verdicts: study.alternatives.map(
      ({ checks }) => checks.find((check) => check.key === key)?.verdict ?? null,
    ),
  }));
  const isFine = (verdict: Verdict | null) => verdict === 'fine' || verdict === null;
  return rows.filter(({ verdicts }) => new Set(verdicts).size > 1 && !verdicts.every(isFine));
}

/** Value, limit and margin of a check as they are printed. */
export interface CheckTexts {
  value: string;
  limit: string;
  margin: string;
}

const WHOLE = ['starts', 'times'];

/** With as many digits as keep the margin from looking like none. */
export function checkTexts(check: DesignCheck): CheckTexts {
  const { value, limit, margin, unit, bound } = check;
  const decimals = decimalsOf(check);
  const number = (each: number) => (each === Number.POSITIVE_INFINITY ? '∞' : digits(each, decimals));
  const sign = margin !== null && margin > 0 ? '+' : '';
  return {
    value: value === null ? '–' : withUnit(number(value), unit),
    limit: limit === null ? '–' : `at ${bound} ${withUnit(number(limit), unit)}`,
    margin:
      margin === null || !Number.isFinite(margin)
        ? '–'
        : withUnit(`${sign}${number(margin)}`, DIFFERENCES[unit] ?? unit),
  };
}

/** Units of differences that are called otherwise. */
const DIFFERENCES: Record<string, string> = { '%': 'pts', '°C': 'K' };

/** A short unit stays on the line of its number; one of a thing is no plural. */
function withUnit(number: string, unit: string): string {
  const named = /^[−+]?1$/.test(number) ? unit.replace(/^(start|time|day|cycle)s\b/, '$1') : unit;
  return `${number}${unit.length <= 4 ? '\u00a0' : ' '}${named}`;
}

function decimalsOf({ value, limit, margin, unit }: DesignCheck): number {
  if (WHOLE.includes(unit)) return 0;
  const sizes = [value, limit].filter((each) => each !== null && Number.isFinite(each)) as number[];
  const size = Math.max(0, ...sizes.map(Math.abs));
  let decimals = size >= 99.5 ? 0 : size >= 9.95 ? 1 : 2;
  const isHidden = () => margin !== null && margin !== 0 && Number(margin.toFixed(decimals)) === 0;
  while (decimals < 3 && isHidden()) decimals++;
  return decimals;
}
