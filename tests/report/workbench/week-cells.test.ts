/** The map of the year against the columns of the run, step by step. */
import { describe, expect, it } from 'vitest';
import { makeView } from '../../../src/report/view.ts';
import { CELLS_A_WEEK } from '../../../src/report/workbench/messages.ts';
import { cellOfStep, monthLabels, piecesOf, stepOfCell } from '../../../src/report/workbench/week-places.ts';
import { weekCells } from '../../../src/report/workbench/worker/week-cells.ts';
import { fixtureStudy } from '../fixture.ts';

const OUTSIDE = 255;

/** The cell of a step by the calendar alone. */
function cellByCalendar(view: ReturnType<typeof makeView>, i: number, firstDay: number): number {
  const { dayNumber, minuteOfDay } = view.calendar;
  return (dayNumber[i] - firstDay) * 144 + Math.floor(minuteOfDay[i] / 10);
}

describe.each([5, 15, 60])('the year in lines of weeks, at %i min', (stepMin) => {
  const study = fixtureStudy({ stepMin, alternatives: 1 });
  const view = makeView(study);
  const [result] = study.alternatives;
  const { columns, inputs } = result;
  const span = Math.max(1, Math.ceil(stepMin / 10));

  it('begins on a Monday and covers every step, and nothing else', () => {
    const { weeks, firstDay, level } = weekCells(view, result, 'soc');
    expect(new Date(firstDay * 86_400_000).getUTCDay()).toBe(1);
    expect(level).toHaveLength(weeks * CELLS_A_WEEK);
    const covered = new Set<number>();
    for (let i = 0; i < inputs.count; i++)
      for (let k = 0; k < span; k++) covered.add(cellByCalendar(view, i, firstDay) + k);
    const shown = Array.from(level.keys()).filter((cell) => level[cell] !== OUTSIDE);
    expect(shown).toEqual([...covered].sort((a, b) => a - b));
  });

  it('shows the highest output and the last state of charge of each cell', () => {
    const { firstDay, level, most } = weekCells(view, result, 'generator');
    const soc = weekCells(view, result, 'soc').level;
    const wanted = new Float64Array(level.length).fill(Number.NaN);
    const wantedSoc = new Float64Array(level.length).fill(Number.NaN);
    for (let i = 0; i < inputs.count; i++)
      for (let k = 0; k < span; k++) {
        const cell = cellByCalendar(view, i, firstDay) + k;
        const byte = Math.round((columns.generatorKw[i] / most) * 250);
        wanted[cell] = Number.isNaN(wanted[cell]) ? byte : Math.max(wanted[cell], byte);
        wantedSoc[cell] = Math.round(columns.socFrac[i] * 250);
      }
    expect(most).toBeCloseTo(Math.max(...columns.generatorKw), 9);
    const known = (levels: ArrayLike<number>) =>
      Array.from(levels, (one) => (one === OUTSIDE ? Number.NaN : one));
    expect(known(level)).toEqual(Array.from(wanted));
    expect(known(soc)).toEqual(Array.from(wantedSoc));
  });

  it('marks the cells in which the generator ran or load was unserved', () => {
    const { firstDay, mark } = weekCells(view, result, 'soc');
    const wanted = new Uint8Array(mark.length);
    for (let i = 0; i < inputs.count; i++)
      for (let k = 0; k < span; k++) {
        const cell = cellByCalendar(view, i, firstDay) + k;
        const sign = columns.unservedKw[i] > 1e-9 ? 100 : columns.cause[i];
        wanted[cell] = Math.max(wanted[cell], sign);
      }
    expect(mark.some((sign) => sign > 0)).toBe(true);
    expect(Array.from(mark)).toEqual(Array.from(wanted));
  });

  it('finds steps of cells and cells of steps, through changes of the clock', () => {
    const cells = weekCells(view, result, 'soc');
    for (let i = 0; i < inputs.count; i += 37) {
      const cell = cellOfStep(cells, i, stepMin);
      expect(Math.floor(cell)).toBe(cellByCalendar(view, i, cells.firstDay));
    }
    const [start] = cells.evenFrom;
    expect(stepOfCell(cells, start.cell + 144, stepMin, inputs.count)).toBe(1440 / stepMin);
  });
});

describe('places on the page of weeks', () => {
  it('cuts a stretch at the ends of lines', () => {
    expect(piecesOf(CELLS_A_WEEK / 2, CELLS_A_WEEK * 1.5)).toEqual([
      { week: 0, from: 0.5, to: 1 },
      { week: 1, from: 0, to: 0.5 },
    ]);
    expect(piecesOf(10, 10)).toEqual([]);
  });

  it('names each month once, where its first Thursday lies', () => {
    // Monday 30 December 2024
    const firstDay = Date.UTC(2024, 11, 30) / 86_400_000;
    const labels = monthLabels(53, firstDay);
    expect(labels.slice(0, 3)).toEqual([
      { week: 0, text: 'Jan' },
      { week: 5, text: 'Feb' },
      { week: 9, text: 'Mar' },
    ]);
  });
});
