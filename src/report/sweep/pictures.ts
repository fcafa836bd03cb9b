import { type Sweep, servesEnough } from '../../scenarios/many/sweep.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { type CurvePoint, valueCurveChart } from '../charts/value-curve.ts';
import { type Html, html } from '../html.ts';
import { digits, unitOf } from '../numbers.ts';
import { figureBox } from '../page/figure-box.ts';
import { listed } from '../words.ts';
import { type AxisView, valueWordsOf } from './axis-view.ts';
import { type MapOf, mainMaps, mapFigure, sharedKey, shownCells } from './maps.ts';
import { MAIN_MEASURES, type Measure } from './measures.ts';

/** Curves over one number, maps over two, and for more than two: each pair, and slices. */
export function pictures(sweep: Sweep, views: readonly AxisView[], paper: Document): Html {
  const drawn =
    views.length === 1
      ? curves(sweep, views[0], paper)
      : views.length === 2
        ? mainMaps(sweep, { views, across: 0, up: 1, cells: sweep.cells }, paper)
        : overMore(sweep, views, paper);
  return html`<section id="pictures"><h2>Pictures</h2>
${drawn}</section>
`;
}

function curves(sweep: Sweep, view: AxisView, paper: Document): Html {
  const [cost, ...others] = curveFigures(sweep, view, paper);
  return html`${cost}
<div class="pair top">${others}</div>
`;
}

/** A curve of every main figure, one by one. */
export function curveFigures(sweep: Sweep, view: AxisView, paper: Document): Html[] {
  return MAIN_MEASURES.map((measure, i) =>
    curveFigure(sweep, view, measure, i === 0 ? FULL_WIDTH : HALF_WIDTH, paper),
  );
}

function curveFigure(sweep: Sweep, view: AxisView, measure: Measure, width: number, paper: Document): Html {
  const { axis, isNumber, labels, filedAt } = view;
  const xOf = (place: number) => (isNumber ? between(axis.values as number[], place) : place);
  const pointOf = ({ at, outcome }: Sweep['cells'][number]): CurvePoint[] => {
    const value = outcome?.[measure.key] ?? null;
    if (outcome === null || value === null) return [];
    return [{ x: xOf(at[0]), value, short: !servesEnough(outcome, sweep.mostUnservedKwh) }];
  };
  const points = sweep.cells.flatMap(pointOf);
  const unit = unitOf(measure.kind, sweep.site.currency);
  if (points.length === 0) return html`<p class="note">${measure.label}: no variant has figures.</p>`;
  const [first] = points;
  if (points.every(({ value }) => value === first.value))
    return html`<p class="note">${measure.label}: ${digits(first.value)}${unit ? ` ${unit}` : ''} in every variant.</p>`;
  const title = `${measure.label} over ${view.name}${unit ? `, ${unit}` : ''}`;
  const curve = {
    title: view.title,
    labels: isNumber ? null : labels,
    points,
    unit,
    tickText: (value: number) => digits(value, Math.abs(value) < 10 && value % 1 !== 0 ? 1 : 0),
    filedX: filedAt === null ? null : xOf(filedAt),
    best: sweep.best === null ? null : (pointOf(sweep.cells[sweep.best])[0] ?? null),
  };
  const drawn = (px: number) => valueCurveChart(curve, px, title, paper);
  const full = width === FULL_WIDTH;
  return figureBox(
    title,
    full ? { wide: drawn(FULL_WIDTH), narrow: drawn(HALF_WIDTH) } : { wide: drawn(width) },
    {
      full,
      note: full
        ? 'Dashed: the site as filed. Star: the cheapest that serves enough. Hollow: leaves more unserved than the limit. The axis does not begin at nothing.'
        : undefined,
    },
  );
}

/** A value of the axis; between two of them by proportion. */
function between(values: readonly number[], place: number): number {
  const low = Math.floor(place);
  const high = Math.min(values.length - 1, low + 1);
  return values[low] + (values[high] - values[low]) * (place - low);
}

/** Of more than two numbers: what each pair can reach with the others at their best, and cuts through the grid. */
function overMore(sweep: Sweep, views: readonly AxisView[], paper: Document): Html {
  const isGrid = sweep.cells.length === sweep.gridSize;
  return html`<h3>Each pair of numbers, with the others at their cheapest</h3>
<div class="pair top">${pairsOf(sweep, views).map((of) => pairFigure(sweep, of, paper))}</div>
${isGrid && views.length === 3 && views[2].labels.length <= MOST_SLICES ? slices(sweep, views, paper) : null}
${isGrid && sweep.best !== null ? cutThroughBest(sweep, views, paper) : null}
`;
}

/** Every pair of numbers over all variants. */
export function pairsOf({ cells }: Sweep, views: readonly AxisView[]): MapOf[] {
  return views.flatMap((_, across) =>
    views.slice(across + 1).map((_, i) => ({ views, across, up: across + 1 + i, cells })),
  );
}

/** What a pair can reach with the other numbers at their best. */
export function pairFigure(sweep: Sweep, of: MapOf, paper: Document): Html {
  const title = `Least life-cycle cost over ${of.views[of.across].name} and ${of.views[of.up].name}`;
  return mapFigure(sweep, of, MAIN_MEASURES[0], { title }, paper);
}

const MOST_SLICES = 9;

/** The first two numbers for every value of the third, in the same classes. */
function slices(sweep: Sweep, views: readonly AxisView[], paper: Document): Html {
  const [cost] = MAIN_MEASURES;
  const third = views[2];
  const scaledBy = sweep.cells.flatMap(({ outcome }) => outcome?.lifeCycleCost ?? []);
  return html`<h3>Life-cycle cost for every ${third.name}, in the same classes</h3>
${sharedKey(sweep, cost, scaledBy)}
<div class="pair top">${third.labels.map((_, place) => {
    const cells = sweep.cells.filter(({ at }) => at[2] === place);
    const title = `Life-cycle cost at ${valueWordsOf(third, third.axis.values[place])}`;
    // the site as filed lies in one of the slices only
    const own = views.map((view, i) =>
      i < 2 && third.filedAt !== place ? { ...view, filedAt: null } : view,
    );
    return mapFigure(
      sweep,
      { views: own, across: 0, up: 1, cells },
      cost,
      { title, scaledBy, key: 'none' },
      paper,
    );
  })}</div>
`;
}

/** Every main figure over the first two numbers, the others as in the best. */
function cutThroughBest(sweep: Sweep, views: readonly AxisView[], paper: Document): Html {
  const best = sweep.cells[sweep.best ?? 0];
  const rest = views.slice(2);
  const cells = sweep.cells.filter(({ at }) => rest.every((_, i) => at[i + 2] === best.at[i + 2]));
  const same = rest.every((view, i) => view.filedAt === best.at[i + 2]);
  const own = same ? views : views.map((view) => ({ ...view, filedAt: null }));
  const words = listed(rest.map((view, i) => valueWordsOf(view, view.axis.values[best.at[i + 2]])));
  if (shownCells({ views, across: 0, up: 1, cells }, sweep.mostUnservedKwh).length === 0) return html``;
  return html`<h3>Through the cheapest: ${words}</h3>
${mainMaps(sweep, { views: own, across: 0, up: 1, cells }, paper)}`;
}
