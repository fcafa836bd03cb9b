import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { type ComparisonRow, comparisonRows } from './comparison-table.ts';
import { figure } from './numbers.ts';

const rowsOf = new WeakMap<Study, Map<string, ComparisonRow>>();

/** The comparison's line of a figure, worked out once per study; undefined where the site has no such figure. */
export function rowOf(study: Study, key: string): ComparisonRow | undefined {
  let rows = rowsOf.get(study);
  if (!rows) {
    rows = new Map(comparisonRows(study).map((row) => [row.figure.key, row]));
    rowsOf.set(study, rows);
  }
  return rows.get(key);
}

/** A figure of an alternative exactly as the comparison shows it; a dash where it has none. */
export function shownText(study: Study, result: AlternativeResult, key: string): string {
  return rowOf(study, key)?.texts[study.alternatives.indexOf(result)] ?? '–';
}

/** Difference from the first alternative as shown, without sign; null where there is none to tell. */
export function shownDifference(
  study: Study,
  result: AlternativeResult,
  key: string,
): { more: boolean; text: string } | null {
  const row = rowOf(study, key);
  const difference = row?.differences[study.alternatives.indexOf(result)];
  if (!row || !difference) return null;
  return {
    more: difference > 0,
    text: figure(row.figure.kind, Math.abs(difference), row.decimals, study.site.currency),
  };
}
