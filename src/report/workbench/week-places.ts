import { MONTH_NAMES } from '../view.ts';
import { CELL_MIN, CELLS_A_WEEK, type WeekCells } from './messages.ts';

/** The step whose local time a cell is; within the period. */
export function stepOfCell(weeks: WeekCells, cell: number, stepMin: number, count: number): number {
  const { evenFrom } = weeks;
  let from = evenFrom[0];
  for (const one of evenFrom) if (one.cell <= cell && one.step >= from.step) from = one;
  const step = from.step + Math.floor(((cell - from.cell) * CELL_MIN) / stepMin + 1e-9);
  return Math.max(0, Math.min(count, step));
}

/** The cell of a step's local time, with parts. */
export function cellOfStep(weeks: WeekCells, step: number, stepMin: number): number {
  const { evenFrom } = weeks;
  let from = evenFrom[0];
  for (const one of evenFrom) if (one.step <= step) from = one;
  return from.cell + ((step - from.step) * stepMin) / CELL_MIN;
}

/** A stretch of cells as pieces of lines: week, and shares of its width. */
export function piecesOf(fromCell: number, toCell: number): { week: number; from: number; to: number }[] {
  const pieces: { week: number; from: number; to: number }[] = [];
  for (let week = Math.floor(fromCell / CELLS_A_WEEK); week * CELLS_A_WEEK < toCell; week++) {
    const from = Math.max(0, fromCell / CELLS_A_WEEK - week);
    const to = Math.min(1, toCell / CELLS_A_WEEK - week);
    if (to > from) pieces.push({ week, from, to });
  }
  return pieces;
}

/** The weeks in which a month begins, with its name; the first week has the month that it is in. */
export function monthLabels(weeks: number, firstDay: number): { week: number; text: string }[] {
  const labels: { week: number; text: string }[] = [];
  let last = -1;
  for (let week = 0; week < weeks; week++) {
    // the Thursday decides to which month a week belongs
    const month = new Date((firstDay + week * 7 + 3) * 86_400_000).getUTCMonth();
    if (month !== last) labels.push({ week, text: MONTH_NAMES[month].slice(0, 3) });
    last = month;
  }
  return labels;
}
