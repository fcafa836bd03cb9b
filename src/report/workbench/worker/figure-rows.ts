import type { Study } from '../../../scenarios/study.ts';
import { comparisonRows } from '../../comparison-table.ts';
import { figure, type Kind } from '../../numbers.ts';
import type { ComparedRow, FigureRow } from '../messages.ts';

/** Figures that need the battery's life, which takes longer than a drag may. */
const AFTER_A_DRAG = ['batteryYears', 'lifeCycleCost', 'levelised'];

/**
 * The figures of the alternative in hand beside those on trial.
 * @param study the one in hand, and the trial if there is one
 * @param whole false while dragging: what takes long shows dots
 */
export function figureRows(study: Study, whole: boolean): FigureRow[] {
  const { currency } = study.site;
  return comparisonRows(study).map(({ figure: of, texts, differences, decimals, understated }) => {
    const later = !whole && AFTER_A_DRAG.includes(of.key);
    const difference = differences[1] ?? 0;
    const atLeast = understated ? 'at least ' : '';
    const size = sizeText(of.kind, Math.abs(difference), decimals, currency);
    return {
      key: of.key,
      label: of.label,
      part: of.part,
      text: atLeast + texts[0],
      trialText: later ? '…' : atLeast + (texts[1] ?? texts[0]),
      differenceText: later || difference === 0 ? '' : `${difference > 0 ? '+' : '−'}${size}`,
      better:
        later || difference === 0 || of.better === null ? null : difference < 0 === (of.better === 'less'),
    };
  });
}

/** The difference of two shares is in points, not in percent. */
function sizeText(kind: Kind, size: number, decimals: number, currency: string): string {
  const text = figure(kind, size, decimals, currency);
  return kind === 'share' ? text.replace('%', 'pts') : text;
}

/** All alternatives side by side, with the length of a bar for each figure that has one. */
export function comparedRows(study: Study): ComparedRow[] {
  return comparisonRows(study).map((row) => {
    const sizes = row.values.map((value) => Math.max(0, value ?? 0));
    const most = Math.max(...sizes);
    return {
      key: row.figure.key,
      label: row.figure.label,
      part: row.figure.part,
      decides: row.figure.decides,
      texts: row.texts.map((text) => (row.understated ? `at least ${text}` : text)),
      differences: row.differenceTexts,
      best: row.texts.map((_, i) => row.marked.includes(i)),
      shares: row.values.map((value, i) => (value === null || most === 0 ? null : sizes[i] / most)),
    };
  });
}
