import type { Study } from '../scenarios/study.ts';
import { peaksUnderstatedMin } from './facts.ts';
import { type Figure, figuresOf } from './figures.ts';
import { asShown, bareFigure, decimalsFor, digits, figure } from './numbers.ts';

/** One line of the comparison: a figure of every alternative, and how each differs from the first. */
export interface ComparisonRow {
  figure: Figure;
  decimals: number;
  values: (number | null)[];
  /** with unit */
  texts: string[];
  /** without, for a line whose label names the unit */
  numbers: string[];
  /** difference of the numbers shown from the first alternative's; null for the first and where either lacks it */
  differences: (number | null)[];
  /** that difference in a few characters: "−46 %", "+3", "" where there is none */
  differenceTexts: string[];
  /** indexes of the best; empty where all are equal or neither way is better */
  best: number[];
  /** the best, where it is few enough to be worth marking */
  marked: number[];
  /** the count misses peaks shorter than the load data's step */
  understated: boolean;
}

/** The comparison table of a study. */
export function comparisonRows(study: Study): ComparisonRow[] {
  const understated = peaksUnderstatedMin(study) !== null;
  return figuresOf(study).map((each) => comparisonRow(each, study, understated));
}

function comparisonRow(of: Figure, study: Study, understated: boolean): ComparisonRow {
  const { currency } = study.site;
  const values = study.alternatives.map(of.of);
  const decimals = decimalsFor(of.kind, values);
  const shown = values.map((value) => (value === null ? null : asShown(of.kind, value, decimals)));
  const differences = shown.map((value, i) =>
    i === 0 || value === null || shown[0] === null ? null : asShown(of.kind, value - shown[0], decimals),
  );
  const best = bestOf(of, shown);
  return {
    figure: of,
    decimals,
    values,
    texts: values.map((value) => figure(of.kind, value, decimals, currency)),
    numbers: values.map((value) => bareFigure(of.kind, value, decimals)),
    differences,
    differenceTexts: differences.map((difference) => differenceText(of, difference, shown[0], decimals)),
    best,
    marked: best.length * 2 <= values.length ? best : [],
    understated: understated && (of.key === 'starts' || of.key === 'starts:peak'),
  };
}

function differenceText(
  of: Figure,
  difference: number | null,
  first: number | null,
  decimals: number,
): string {
  if (difference === null || difference === 0 || first === null) return '';
  const sign = difference < 0 ? '−' : '+';
  if (of.kind === 'share') return `${sign}${digits(Math.abs(difference) * 100, decimals)} pts`;
  const percent = (100 * Math.abs(difference)) / Math.abs(first);
  if (first !== 0 && percent < 999.5 && of.kind !== 'count')
    return `${sign}${digits(percent, percent < 0.95 ? 1 : 0)} %`;
  return `${sign}${digits(Math.abs(difference), decimals)}`;
}

function bestOf(of: Figure, shown: (number | null)[]): number[] {
  if (of.better === null) return [];
  const there = shown.filter((value) => value !== null);
  const low = Math.min(...there);
  const high = Math.max(...there);
  if (there.length < 2 || low === high) return [];
  const best = of.better === 'less' ? low : high;
  return shown.flatMap((value, i) => (value === best ? [i] : []));
}
