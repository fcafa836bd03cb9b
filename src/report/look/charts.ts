import * as Plot from '@observablehq/plot';
import { draw, FULL_WIDTH, HALF_WIDTH, pathMark } from '../charts/draw.ts';
import { ARRAY, INK, LINE, LOAD, SOC_STEPS, SOFT } from '../charts/palette.ts';
import { MONTH_NAMES } from '../view.ts';
import {
  dailyEnergy,
  dayText,
  dullestSpell,
  durationCurve,
  peakStep,
  type SeriesView,
  typicalDays,
} from './shape.ts';

/** Lightest where there is least, darkest where there is most. */
export const LEVELS = [...SOC_STEPS].reverse();

const MARGINS = { marginLeft: 44, marginRight: 14, marginTop: 24, marginBottom: 34 };
const CARPET = { left: 34, right: 8, top: 24, bottom: 8, rowPx: 2 };
const CELL_MIN = 15;

/** The year, a row a day, the hours of the day across: the mean of each quarter of an hour in five levels. */
export function yearChart(view: SeriesView, label: string, paper: Document): SVGElement {
  const { series, calendar, firstDay, days } = view;
  const cellMin = Math.max(CELL_MIN, series.axis.stepMin);
  const perDay = 1440 / cellMin;
  const rows = Math.min(days, 366);
  const sums = new Float64Array(rows * perDay);
  const counts = new Uint16Array(rows * perDay);
  let most = 0;
  for (let i = 0; i < series.values.length; i++) {
    const row = calendar.dayNumber[i] - firstDay;
    if (row >= rows) break;
    const cell = row * perDay + Math.floor(calendar.minuteOfDay[i] / cellMin);
    sums[cell] += series.values[i];
    counts[cell]++;
  }
  for (let cell = 0; cell < sums.length; cell++) {
    sums[cell] = counts[cell] > 0 ? sums[cell] / counts[cell] : Number.NaN;
    if (sums[cell] > most) most = sums[cell];
  }
  const rowPx = Math.max(CARPET.rowPx, Math.min(14, Math.floor(732 / rows)));
  const width = HALF_WIDTH - CARPET.left - CARPET.right;
  const transform = `translate(${CARPET.left} ${CARPET.top + rowPx / 2}) scale(${width / perDay} ${rowPx})`;
  const paths = levelPaths(sums, perDay, most);
  const months = monthRows(view, rows);
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: CARPET.top + rows * rowPx + CARPET.bottom,
    marginLeft: CARPET.left,
    marginRight: CARPET.right,
    marginTop: CARPET.top,
    marginBottom: CARPET.bottom,
    x: { domain: [0, 24], axis: null },
    y: { domain: [0, rows], reverse: true, axis: null },
    marks: [
      ...paths.map((d, i) =>
        pathMark(
          { transform, stroke: LEVELS[i], 'stroke-width': 1, fill: 'none', 'shape-rendering': 'crispEdges' },
          () => d,
        ),
      ),
      Plot.axisX([0, 6, 12, 18, 24], {
        anchor: 'top',
        tickFormat: (hour: number) => String(hour).padStart(2, '0'),
        tickSize: 4,
        label: null,
      }),
      Plot.ruleY(months.slice(1), { y: 'row', stroke: LINE, strokeOpacity: 0.7 }),
      Plot.text(months, { x: 0, y: 'row', text: 'short', dx: -6, dy: 8, textAnchor: 'end', fill: INK }),
      Plot.frame({ stroke: SOFT, strokeWidth: 0.8 }),
    ],
  });
}

function levelPaths(cells: Float64Array, perDay: number, most: number): string[] {
  const level = (value: number) =>
    Number.isNaN(value)
      ? -1
      : Math.max(0, Math.min(LEVELS.length - 1, Math.floor((value / most) * LEVELS.length)));
  const paths = LEVELS.map(() => '');
  for (let row = 0; row * perDay < cells.length; row++)
    for (let from = 0; from < perDay; ) {
      const own = level(cells[row * perDay + from]);
      let to = from + 1;
      while (to < perDay && level(cells[row * perDay + to]) === own) to++;
      if (own >= 0) paths[own] += `M${from} ${row}h${to - from}`;
      from = to;
    }
  return paths;
}

function monthRows({ calendar, firstDay }: SeriesView, rows: number): { row: number; short: string }[] {
  const found: { row: number; short: string }[] = [];
  let last = -1;
  for (let i = 0; i < calendar.monthIndex.length; i++) {
    if (calendar.monthIndex[i] === last) continue;
    last = calendar.monthIndex[i];
    const row = calendar.dayNumber[i] - firstDay;
    if (row < rows) found.push({ row, short: MONTH_NAMES[last % 12].slice(0, 3) });
  }
  return found;
}

/** A typical day of each month: the mean, and the span that eight days in ten keep to. */
export function typicalDayChart(view: SeriesView, label: string, paper: Document): SVGElement {
  const rows = typicalDays(view).map((row) => ({ ...row, name: MONTH_NAMES[row.month].slice(0, 3) }));
  const months = [...new Set(rows.map(({ name }) => name))];
  const across = 4;
  const place = (name: string) => months.indexOf(name);
  return draw(paper, label, {
    width: FULL_WIDTH,
    height: 100 + 110 * Math.ceil(months.length / across),
    marginLeft: 40,
    marginTop: 30,
    marginBottom: 42,
    x: {
      domain: [0, 24],
      ticks: [0, 6, 12, 18],
      label: 'hour of the day',
      labelArrow: 'none',
      labelAnchor: 'center',
      tickSize: 3,
    },
    y: { label: view.unit, labelArrow: 'none', ticks: 3, grid: true, zero: true },
    fx: { axis: null, padding: 0.08 },
    fy: { axis: null, padding: 0.18 },
    marks: [
      Plot.areaY(rows, {
        x: (row) => row.hour + 0.5,
        y1: 'low',
        y2: 'high',
        fx: (row) => place(row.name) % across,
        fy: (row) => Math.floor(place(row.name) / across),
        fill: LOAD,
        fillOpacity: 0.75,
      }),
      Plot.lineY(rows, {
        x: (row) => row.hour + 0.5,
        y: 'mean',
        fx: (row) => place(row.name) % across,
        fy: (row) => Math.floor(place(row.name) / across),
        stroke: INK,
        strokeWidth: 1.6,
      }),
      Plot.text(months, {
        frameAnchor: 'top-left',
        fx: (name) => place(name) % across,
        fy: (name) => Math.floor(place(name) / across),
        text: (name) => name,
        fontWeight: 600,
        dx: 2,
        dy: -11,
        fill: INK,
      }),
    ],
  });
}

/** How much of the time a value is exceeded. */
export function durationChart(view: SeriesView, label: string, paper: Document): SVGElement {
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: 230,
    ...MARGINS,
    x: { domain: [0, 100], label: '% of the time', labelArrow: 'none', labelAnchor: 'center', tickSize: 3 },
    y: { label: view.unit, labelArrow: 'none', grid: true, zero: true, ticks: 5 },
    marks: [
      Plot.areaY(durationCurve(view.series.values), {
        x: (point) => point.share * 100,
        y: 'value',
        fill: LOAD,
        curve: 'step',
      }),
      Plot.lineY(durationCurve(view.series.values), {
        x: (point) => point.share * 100,
        y: 'value',
        stroke: INK,
        curve: 'step',
      }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}

/** The day with the highest value, step by step (minutes thinned to the highest of each five). */
export function peakDayChart(view: SeriesView, label: string, paper: Document): SVGElement {
  const { series, calendar } = view;
  const day = calendar.dayNumber[peakStep(series.values)];
  const rows: { hour: number; value: number }[] = [];
  const cellMin = Math.max(5, series.axis.stepMin);
  for (
    let i = calendar.dayNumber.indexOf(day);
    i < series.values.length && calendar.dayNumber[i] === day;
    i++
  ) {
    const hour = (Math.floor(calendar.minuteOfDay[i] / cellMin) * cellMin) / 60;
    const last = rows[rows.length - 1];
    if (last && last.hour === hour) last.value = Math.max(last.value, series.values[i]);
    else rows.push({ hour, value: series.values[i] });
  }
  return draw(paper, label, {
    width: HALF_WIDTH,
    height: 230,
    ...MARGINS,
    x: {
      domain: [0, 24],
      ticks: [0, 6, 12, 18, 24],
      label: 'hour of the day',
      labelArrow: 'none',
      labelAnchor: 'center',
      tickSize: 3,
    },
    y: { label: view.unit, labelArrow: 'none', grid: true, zero: true, ticks: 5 },
    marks: [
      Plot.rectY(rows, { x1: 'hour', x2: (row) => row.hour + cellMin / 60, y: 'value', fill: LOAD }),
      Plot.lineY(rows, { x: 'hour', y: 'value', stroke: INK, curve: 'step-after' }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}

/** Days below this share of the mean day are dull. */
export const DULL_SHARE = 0.4;

/** Irradiation day by day, the longest dull spell bracketed. */
export function dullChart(view: SeriesView, label: string, paper: Document): SVGElement {
  const daily = dailyEnergy(view);
  const spell = dullestSpell(daily, DULL_SHARE);
  const from = Math.max(0, spell.fromDay - 25);
  const to = Math.min(daily.length, spell.fromDay + spell.days + 25);
  const rows = Array.from(daily.subarray(from, to), (value, i) => ({ day: from + i, value }));
  const weeks = rows
    .filter(({ day }) => (day - from) % 7 === 0)
    .map(({ day }) => ({ row: day, short: dayText(view.firstDay + day).replace(/ \d{4}$/, '') }));
  return draw(paper, label, {
    width: FULL_WIDTH,
    height: 220,
    ...MARGINS,
    x: { domain: [from, to], axis: null },
    y: { label: 'kWh/m² a day', labelArrow: 'none', grid: true, zero: true, ticks: 4 },
    marks: [
      Plot.rectY(rows, {
        x1: 'day',
        x2: (row) => row.day + 1,
        y: 'value',
        fill: (row) => (row.day >= spell.fromDay && row.day < spell.fromDay + spell.days ? INK : ARRAY),
        insetLeft: 0.6,
        insetRight: 0.6,
      }),
      Plot.text(weeks, { x: 'row', y: 0, text: 'short', dy: 12, textAnchor: 'start', fill: INK }),
      Plot.ruleX(weeks, { x: 'row', stroke: LINE }),
      Plot.ruleY([0], { stroke: INK }),
    ],
  });
}
