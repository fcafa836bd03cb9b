import type { StepColumns } from '../../../sim/columns.ts';
import type { Inputs } from '../../../sim/inputs.ts';
import type { StudyView } from '../../view.ts';
import { CELL_MIN, CELLS_A_WEEK, type Shows, type WeekCells } from '../messages.ts';

const OUTSIDE = 255;
const TOP = 250;
const UNSERVED = 100;

const cellsOfView = new WeakMap<StudyView, Layout>();

interface Layout extends Pick<WeekCells, 'weeks' | 'firstDay' | 'evenFrom'> {
  cellOf: Int32Array;
}

/** The cell in which each step begins, by the local clock. */
function layOut(view: StudyView): Layout {
  const known = cellsOfView.get(view);
  if (known) return known;
  const { dayNumber, minuteOfDay, weekday } = view.calendar;
  const firstDay = dayNumber[0] - weekday[0];
  const cellOf = Int32Array.from(
    dayNumber,
    (day, i) => (day - firstDay) * (1440 / CELL_MIN) + Math.floor(minuteOfDay[i] / CELL_MIN),
  );
  const weeks = Math.floor((dayNumber[dayNumber.length - 1] - firstDay) / 7) + 1;
  const made = { cellOf, weeks, firstDay, evenFrom: evenStretches(view, firstDay) };
  cellsOfView.set(view, made);
  return made;
}

/** A change of the clock begins a new stretch. */
function evenStretches({ calendar, study }: StudyView, firstDay: number): WeekCells['evenFrom'] {
  const { dayNumber, minuteOfDay } = calendar;
  const found: WeekCells['evenFrom'] = [];
  let next = Number.NaN;
  for (let i = 0; i < dayNumber.length; i++) {
    const minute = (dayNumber[i] - firstDay) * 1440 + minuteOfDay[i];
    if (minute !== next) found.push({ step: i, cell: minute / CELL_MIN });
    next = minute + study.axis.stepMin;
  }
  return found;
}

/** The year as lines of weeks: one quantity as levels, and where the generator ran or load was unserved. */
export function weekCells(view: StudyView, columns: StepColumns, inputs: Inputs, shows: Shows): WeekCells {
  const { cellOf, weeks, firstDay, evenFrom } = layOut(view);
  const size = weeks * CELLS_A_WEEK;
  const value = new Float64Array(size).fill(Number.NEGATIVE_INFINITY);
  const mark = new Uint8Array(size);
  const span = Math.max(1, inputs.stepMin / CELL_MIN);
  for (const series of seriesOf(columns, inputs, shows)) addTo(value, cellOf, series, span);
  const { cause, unservedKw } = columns;
  for (let i = 0; i < cellOf.length; i++) {
    const sign = unservedKw[i] > 1e-9 ? UNSERVED : cause[i];
    if (sign === 0) continue;
    for (let k = 0; k < span; k++) if (sign > mark[cellOf[i] + k]) mark[cellOf[i] + k] = sign;
  }
  const scale = scaleOf(value, shows);
  const level = new Uint8Array(size).fill(OUTSIDE);
  const factor = TOP / (scale.most - scale.least || 1);
  for (let c = 0; c < size; c++) {
    if (value[c] === Number.NEGATIVE_INFINITY) continue;
    level[c] = Math.max(0, Math.min(TOP, Math.round((value[c] - scale.least) * factor)));
  }
  return { weeks, firstDay, evenFrom, level, mark, ...scale };
}

/** Adds a series up; of the steps in one cell the highest counts, so that no spike is lost. */
function addTo(value: Float64Array, cellOf: Int32Array, series: readonly Float64Array[], span: number): void {
  const [first, ...others] = series;
  for (let i = 0; i < cellOf.length; i++) {
    let sum = first[i];
    for (const other of others) sum += other[i];
    for (let k = 0; k < span; k++) {
      const cell = cellOf[i] + k;
      if (sum > value[cell]) value[cell] = sum;
    }
  }
}

function seriesOf(columns: StepColumns, inputs: Inputs, shows: Shows): Float64Array[][] {
  if (shows === 'soc') return [[columns.socFrac]];
  if (shows === 'generator') return [[columns.generatorKw]];
  if (shows === 'load') return [[...inputs.loadKw]];
  if (shows === 'unserved') return [[columns.unservedKw]];
  if (shows === 'cabinet') return [[columns.cabinetC]];
  const offered = [inputs.dcArrayKw, inputs.acArrayKw].filter((array) => array !== undefined);
  return offered.length > 0 ? [offered] : [];
}

function scaleOf(value: Float64Array, shows: Shows): Pick<WeekCells, 'most' | 'least' | 'unit'> {
  if (shows === 'soc') return { least: 0, most: 1, unit: '%' };
  let most = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (const each of value) {
    if (each === Number.NEGATIVE_INFINITY) continue;
    if (each > most) most = each;
    if (each < least) least = each;
  }
  if (most < least) return { least: 0, most: 1, unit: 'kW' };
  return shows === 'cabinet' ? { least, most, unit: '°C' } : { least: 0, most, unit: 'kW' };
}
