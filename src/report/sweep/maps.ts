import type { Outcome } from '../../scenarios/many/outcome.ts';
import { type Sweep, type SweepCell, servesEnough } from '../../scenarios/many/sweep.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { type MapScale, mapScale } from '../charts/map-scale.ts';
import { SAVED } from '../charts/palette.ts';
import { type MapCell, type MapPlace, type ValueMap, valueMapChart } from '../charts/value-map.ts';
import { type Html, html } from '../html.ts';
import { asEntered, digits, unitOf } from '../numbers.ts';
import { figureBox, type KeyEntry, keyList } from '../page/figure-box.ts';
import type { AxisView } from './axis-view.ts';
import { MAIN_MEASURES, type Measure } from './measures.ts';

/** Two of the axes, and the variants that are looked at over them. */
export interface MapOf {
  views: readonly AxisView[];
  /** places of the axes across and up */
  across: number;
  up: number;
  /** of several at one place the cheapest is shown that serves enough */
  cells: readonly SweepCell[];
}

/** A map of every main figure, the first of them large and with the key of the signs. */
export function mainMaps(sweep: Sweep, of: MapOf, paper: Document): Html {
  const [cost, ...others] = mainMapFigures(sweep, of, paper);
  return html`${cost}
<div class="pair top">${others}</div>
`;
}

/** The same one by one. */
export function mainMapFigures(sweep: Sweep, of: MapOf, paper: Document): Html[] {
  const over = `over ${of.views[of.across].name} and ${of.views[of.up].name}`;
  return MAIN_MEASURES.map((measure, i) => {
    const options: FigureOptions =
      i === 0 ? { title: `${measure.label} ${over}`, full: true } : { title: measure.label, key: 'classes' };
    return mapFigure(sweep, of, measure, options, paper);
  });
}

interface FigureOptions {
  title: string;
  /** across the page */
  full?: boolean;
  /** figures that the classes are made for, so that several maps can be held beside each other; left out: its own */
  scaledBy?: readonly number[];
  /** what of the key stands with it; left out: classes and signs */
  key?: 'all' | 'classes' | 'none';
}

/** One figure over two axes; a sentence where it is the same everywhere. */
export function mapFigure(
  sweep: Sweep,
  of: MapOf,
  measure: Measure,
  { title, full = false, scaledBy, key = 'all' }: FigureOptions,
  paper: Document,
): Html {
  const cells = shownCells(of, sweep.mostUnservedKwh);
  const values = scaledBy ?? cells.flatMap(({ outcome }) => figureOf(outcome, measure) ?? []);
  if (values.length === 0) return html`<p class="note">${title}: no variant has figures.</p>`;
  const { unit, perUnit } = unitAndScale(sweep, measure, values);
  if (values.every((value) => value === values[0]))
    return html`<p class="note">${measure.label}: ${digits(values[0] / perUnit)}${unit ? ` ${unit}` : ''} in every variant here.</p>`;
  const scale = mapScale(values.map((value) => value / perUnit));
  const map = mapOf(sweep, of, cells, measure, scale, perUnit);
  const label = `${title}${unit ? `, ${unit}` : ''}`;
  const drawn = (width: number) => valueMapChart(map, width, label, paper);
  return figureBox(
    label,
    full ? { wide: drawn(FULL_WIDTH), narrow: drawn(HALF_WIDTH) } : { wide: drawn(HALF_WIDTH) },
    {
      key: [...(key === 'none' ? [] : classesKey(scale)), ...(key === 'all' ? signsKey(map) : [])],
      full,
    },
  );
}

/** The key of maps that have their classes in common. */
export function sharedKey(sweep: Sweep, measure: Measure, values: readonly number[]): Html {
  const { perUnit } = unitAndScale(sweep, measure, values);
  return keyList(classesKey(mapScale(values.map((value) => value / perUnit))));
}

function mapOf(
  sweep: Sweep,
  { views, across, up }: MapOf,
  cells: readonly SweepCell[],
  measure: Measure,
  scale: MapScale,
  perUnit: number,
): ValueMap {
  const side = (at: number) => ({ title: views[at].title, labels: views[at].labels });
  const best = cells.find((cell) => sweep.best !== null && cell === sweep.cells[sweep.best]);
  const places = views[across].labels.length * views[up].labels.length;
  return {
    across: side(across),
    up: side(up),
    cells: cells.map(({ at, outcome }): MapCell => {
      const value = figureOf(outcome, measure);
      return {
        x: at[across],
        y: at[up],
        value: value === null ? null : value / perUnit,
        short: outcome !== null && !servesEnough(outcome, sweep.mostUnservedKwh),
      };
    }),
    scale,
    textOf: (value) => digits(value, scale.decimals),
    filed: filedPlace(views[across], views[up]),
    best: best ? { x: best.at[across], y: best.at[up] } : null,
    sparse: cells.length < places * MOSTLY_FULL,
  };
}

/** With fewer of its cells run than this, a map shows dots and not an area. */
const MOSTLY_FULL = 0.95;

/** Of the variants that share a place on the map, the cheapest that serves enough; else the one that serves most. */
export function shownCells({ across, up, cells }: MapOf, mostUnservedKwh: number): SweepCell[] {
  const better = (a: Outcome | null, b: Outcome | null) => {
    if (a === null || b === null) return a !== null;
    const [aServes, bServes] = [a, b].map((outcome) => servesEnough(outcome, mostUnservedKwh));
    if (aServes !== bServes) return aServes;
    return aServes ? a.lifeCycleCost < b.lifeCycleCost : a.unservedKwh < b.unservedKwh;
  };
  const byPlace = new Map<string, SweepCell>();
  for (const cell of cells) {
    const place = `${cell.at[across]} ${cell.at[up]}`;
    const known = byPlace.get(place);
    if (!known || better(cell.outcome, known.outcome)) byPlace.set(place, cell);
  }
  return [...byPlace.values()];
}

/** Where the site as filed lies; null where it is outside. */
function filedPlace({ filedAt: x }: AxisView, { filedAt: y }: AxisView): MapPlace | null {
  return x === null || y === null ? null : { x, y };
}

function classesKey({ classes }: MapScale): KeyEntry[] {
  return classes.map(({ from, to, fill }): KeyEntry => {
    if (from === null) return { fill, text: to === null ? 'all' : `below ${asEntered(to)}` };
    return {
      fill,
      text: to === null ? `${asEntered(from)} and more` : `${asEntered(from)} to ${asEntered(to)}`,
    };
  });
}

function signsKey({ filed, best, cells, sparse }: ValueMap): KeyEntry[] {
  const isWhole = filed && Number.isInteger(filed.x) && Number.isInteger(filed.y) && !sparse;
  const entries: (KeyEntry | false | null)[] = [
    filed && { fill: 'none', text: 'as filed', sign: isWhole ? 'frame' : 'ring' },
    best && { fill: 'none', text: 'cheapest that serves enough', sign: sparse ? 'star' : 'dashes' },
    cells.some(({ short }) => short) && {
      fill: 'url(#hatch-unserved)',
      text: 'leaves more unserved than the limit',
      sign: sparse ? 'triangle' : undefined,
    },
    cells.some(({ value }) => value === null) && { fill: SAVED, text: 'contradicts itself' },
  ];
  return entries.filter((entry) => entry !== false && entry !== null);
}

/** Money in thousands where it is large, so that a cell has room for it. */
function unitAndScale({ site }: Sweep, { kind }: Measure, values: readonly number[]) {
  const unit = unitOf(kind, site.currency);
  const large = kind === 'money' && Math.max(...values.map(Math.abs)) >= 20_000;
  return large ? { unit: `thousand ${unit}`, perUnit: 1000 } : { unit, perUnit: 1 };
}

function figureOf(outcome: Outcome | null, { key }: Measure): number | null {
  return outcome === null ? null : outcome[key];
}
