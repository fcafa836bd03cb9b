import type { AlternativeResult } from '../../../scenarios/study.ts';
import { START_CAUSES } from '../../../sim/causes.ts';
import type { StudyView } from '../../view.ts';
import { CELL_MIN, CELLS_A_WEEK, type Shows, type WeekCells } from '../messages.ts';

const OUTSIDE = 255;
const TOP = 250;
const UNSERVED = 100;

/** How the steps of a run lie in cells of the local clock. */
interface Layout extends Pick<WeekCells, 'weeks' | 'firstDay' | 'evenFrom'> {
  /** the cell in which each step begins */
  cellOf: Int32Array;
  /** first and last step of each cell; -1 where there is none */
  firstStep: Int32Array;
  lastStep: Int32Array;
}

const layouts = new WeakMap<StudyView, Layout>();

function layOut(view: StudyView): Layout {
  const known = layouts.get(view);
  if (known) return known;
  const { dayNumber, minuteOfDay, weekday } = view.calendar;
  const { stepMin } = view.study.axis;
  const firstDay = dayNumber[0] - weekday[0];
  const weeks = Math.floor((dayNumber[dayNumber.length - 1] - firstDay) / 7) + 1;
  const cellOf = Int32Array.from(
    dayNumber,
    (day, i) => (day - firstDay) * (1440 / CELL_MIN) + Math.floor(minuteOfDay[i] / CELL_MIN),
  );
  const firstStep = new Int32Array(weeks * CELLS_A_WEEK).fill(-1);
  const lastStep = new Int32Array(weeks * CELLS_A_WEEK).fill(-1);
  // a step longer than a cell fills several
  const span = Math.max(1, Math.ceil(stepMin / CELL_MIN));
  for (let i = 0; i < cellOf.length; i++)
    for (let cell = cellOf[i]; cell < Math.min(cellOf[i] + span, lastStep.length); cell++) {
      if (firstStep[cell] < 0) firstStep[cell] = i;
      lastStep[cell] = i;
    }
  const made = { cellOf, firstStep, lastStep, weeks, firstDay, evenFrom: evenStretches(view, firstDay) };
  layouts.set(view, made);
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
export function weekCells(view: StudyView, result: AlternativeResult, shows: Shows): WeekCells {
  const layout = layOut(view);
  const value = valuesOf(layout, result, shows);
  const scale = scaleOf(value, layout, shows);
  const level = new Uint8Array(value.length).fill(OUTSIDE);
  const factor = TOP / (scale.most - scale.least || 1);
  for (let cell = 0; cell < value.length; cell++)
    if (layout.lastStep[cell] >= 0)
      level[cell] = Math.max(0, Math.min(TOP, Math.round((value[cell] - scale.least) * factor)));
  const { weeks, firstDay, evenFrom } = layout;
  return { weeks, firstDay, evenFrom, level, mark: marksOf(layout, result), ...scale };
}

/** Of what is stored, and of temperatures, the last value in each cell; of powers the highest: no spike is lost. */
function valuesOf({ firstStep, lastStep }: Layout, result: AlternativeResult, shows: Shows): Float64Array {
  const value = new Float64Array(lastStep.length);
  const [first, ...others] = seriesOf(result, shows);
  if (first === undefined) return value;
  const isLevel = shows === 'soc' || shows === 'cabinet';
  for (let cell = 0; cell < value.length; cell++) {
    const last = lastStep[cell];
    if (last < 0) continue;
    let highest = Number.NEGATIVE_INFINITY;
    for (let i = isLevel ? last : firstStep[cell]; i <= last; i++) {
      let sum = first[i];
      for (const other of others) sum += other[i];
      if (sum > highest) highest = sum;
    }
    value[cell] = highest;
  }
  return value;
}

/** From the lists of runs and of outages, which are short. */
function marksOf({ cellOf, lastStep }: Layout, { ledger }: AlternativeResult): Uint8Array {
  const mark = new Uint8Array(lastStep.length);
  const fill = (startH: number, endH: number, sign: number) => {
    const from = Math.floor((startH * 60) / ledger.stepMin + 1e-6);
    const to = Math.min(cellOf.length - 1, Math.ceil((endH * 60) / ledger.stepMin - 1e-6) - 1);
    if (to < from) return;
    const lastCell = cellOf[to] + Math.max(1, Math.ceil(ledger.stepMin / CELL_MIN)) - 1;
    for (let cell = cellOf[from]; cell <= lastCell; cell++) if (sign > mark[cell]) mark[cell] = sign;
  };
  for (const { startH, endH, cause } of ledger.runs) fill(startH, endH, 1 + START_CAUSES.indexOf(cause));
  for (const { startH, endH } of ledger.outages) fill(startH, endH, UNSERVED);
  return mark;
}

function seriesOf({ columns, inputs }: AlternativeResult, shows: Shows): readonly Float64Array[] {
  if (shows === 'soc') return [columns.socFrac];
  if (shows === 'generator') return [columns.generatorKw];
  if (shows === 'load') return inputs.loadKw;
  if (shows === 'unserved') return [columns.unservedKw];
  if (shows === 'cabinet') return [columns.cabinetC];
  return [inputs.dcArrayKw, inputs.acArrayKw].filter((array) => array !== undefined);
}

function scaleOf(
  value: Float64Array,
  { lastStep }: Layout,
  shows: Shows,
): Pick<WeekCells, 'most' | 'least' | 'unit'> {
  if (shows === 'soc') return { least: 0, most: 1, unit: '%' };
  let most = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (let cell = 0; cell < value.length; cell++) {
    if (lastStep[cell] < 0) continue;
    if (value[cell] > most) most = value[cell];
    if (value[cell] < least) least = value[cell];
  }
  return shows === 'cabinet' ? { least, most, unit: '°C' } : { least: 0, most, unit: 'kW' };
}
