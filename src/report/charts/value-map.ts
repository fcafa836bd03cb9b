import * as Plot from '@observablehq/plot';
import { CELLS, draw, FONT_PX } from './draw.ts';
import { classOf, type MapScale } from './map-scale.ts';
import { INK, PAPER, SAVED, SOFT } from './palette.ts';

/** One side of a map: equal cells, however far apart the values are. */
interface MapSide {
  title: string;
  labels: readonly string[];
}

export interface MapCell {
  /** places on the sides */
  x: number;
  y: number;
  /** null: no figures */
  value: number | null;
  /** leaves more unserved than is allowed */
  short: boolean;
}

/** A place on the map: between two cells where it is not whole. */
export interface MapPlace {
  x: number;
  y: number;
}

export interface ValueMap {
  across: MapSide;
  up: MapSide;
  cells: readonly MapCell[];
  scale: MapScale;
  textOf: (value: number) => string;
  filed: MapPlace | null;
  best: MapPlace | null;
  /** single cells of a grid, drawn as dots */
  sparse: boolean;
}

const TOP = 24;
const RIGHT = 10;
const CHAR_PX = 6.3;
const MOST_LABEL_CHARS = 18;

/** One figure over two numbers of a site: a cell each pair, pale where it is low and dark where it is high. */
export function valueMapChart(map: ValueMap, width: number, label: string, paper: Document): SVGElement {
  const { across, up, cells } = map;
  const leftPx = 14 + CHAR_PX * Math.max(2, ...up.labels.map((text) => cut(text).length));
  const cellPx = (width - leftPx - RIGHT) / across.labels.length;
  const rowPx = Math.max(9, Math.min(28, (width * 0.75) / up.labels.length));
  const lines = Math.max(
    ...across.labels.map((text) => Math.ceil((text.length * CHAR_PX) / Math.max(40, cellPx))),
  );
  const belowPx = 26 + 14 * Math.min(3, lines);
  const known = cells.filter(({ value }) => value !== null);
  return draw(paper, label, {
    width,
    height: TOP + rowPx * up.labels.length + belowPx,
    marginTop: TOP,
    marginBottom: belowPx,
    marginLeft: leftPx,
    marginRight: RIGHT,
    color: { type: 'identity' },
    x: { domain: [-0.5, across.labels.length - 0.5], axis: null },
    y: { domain: [-0.5, up.labels.length - 0.5], axis: null },
    marks: [
      ...(map.sparse ? dotMarks(map, Math.min(7, cellPx / 2, rowPx / 2)) : cellMarks(map)),
      ...(printsValues(map, cellPx, rowPx) ? [valueTexts(map, known)] : []),
      Plot.frame({ stroke: SOFT, strokeWidth: 0.8 }),
      ...placeMarks(map),
      ...sideLabels(map, cellPx, rowPx, leftPx, belowPx),
    ],
  });
}

/** Whether every value has room in its cell. */
function printsValues({ cells, textOf, sparse }: ValueMap, cellPx: number, rowPx: number): boolean {
  const longest = Math.max(0, ...cells.map(({ value }) => (value === null ? 0 : textOf(value).length)));
  const leastPx = cells.some(({ short }) => short) ? 22 : 15;
  return !sparse && rowPx >= leastPx && cellPx >= longest * CHAR_PX + 5;
}

const SQUARE = {
  x1: ({ x }: MapPlace) => x - 0.5,
  x2: ({ x }: MapPlace) => x + 0.5,
  y1: ({ y }: MapPlace) => y - 0.5,
  y2: ({ y }: MapPlace) => y + 0.5,
};

function cellMarks({ cells, scale }: ValueMap): Plot.Markish[] {
  const fill = ({ value }: MapCell) => (value === null ? SAVED : classOf(scale, value).fill);
  return [
    Plot.rect(cells as MapCell[], { ...SQUARE, fill, stroke: PAPER, strokeWidth: 0.7, className: CELLS }),
    // a bar along the foot: readable below a printed value
    Plot.ruleY(
      cells.filter(({ short }) => short),
      {
        x1: SQUARE.x1,
        x2: SQUARE.x2,
        y: ({ y }) => y - 0.4,
        stroke: 'url(#hatch-unserved)',
        strokeWidth: 4,
        insetLeft: 2,
        insetRight: 2,
      },
    ),
  ];
}

function dotMarks({ cells, scale }: ValueMap, radius: number): Plot.Markish[] {
  return [
    Plot.dot(cells as MapCell[], {
      x: 'x',
      y: 'y',
      r: radius,
      symbol: ({ short }: MapCell) => (short ? 'triangle' : 'circle'),
      fill: ({ value }: MapCell) => (value === null ? PAPER : classOf(scale, value).fill),
      stroke: INK,
      strokeWidth: 0.6,
      className: CELLS,
    }),
  ];
}

function valueTexts({ scale, textOf }: ValueMap, known: readonly MapCell[]): Plot.Markish {
  return Plot.text(known as MapCell[], {
    x: 'x',
    y: 'y',
    text: ({ value }: MapCell) => textOf(value ?? 0),
    fill: ({ value }: MapCell) => classOf(scale, value ?? 0).ink,
    fontSize: FONT_PX - 1,
  });
}

/** The site as filed in a frame, the best in a dashed one; between cells or on dots a ring, and a star. */
function placeMarks({ filed, best, sparse }: ValueMap): Plot.Markish[] {
  const marks: Plot.Markish[] = [];
  const frame = (place: MapPlace, strokeDasharray?: string) => {
    for (const [stroke, strokeWidth] of HALO)
      marks.push(
        Plot.rect([place], {
          ...SQUARE,
          fill: 'none',
          stroke,
          strokeWidth,
          strokeDasharray: stroke === INK ? strokeDasharray : undefined,
          inset: 1.5,
        }),
      );
  };
  if (filed && Number.isInteger(filed.x) && Number.isInteger(filed.y) && !sparse) frame(filed);
  else if (filed)
    for (const [stroke, strokeWidth] of HALO)
      marks.push(Plot.dot([filed], { x: 'x', y: 'y', r: 9, fill: 'none', stroke, strokeWidth }));
  if (best && !sparse) frame(best, '5 3');
  else if (best)
    marks.push(
      Plot.dot([best], { x: 'x', y: 'y', symbol: 'star', r: 7, fill: PAPER, stroke: INK, strokeWidth: 1.4 }),
    );
  return marks;
}

/** A line with paper on both sides, for fills of any darkness. */
const HALO = [
  [PAPER, 5],
  [INK, 2.2],
] as const;

function sideLabels(
  { across, up }: ValueMap,
  cellPx: number,
  rowPx: number,
  leftPx: number,
  belowPx: number,
): Plot.Markish[] {
  const widest = Math.max(...across.labels.map(({ length }) => length)) * CHAR_PX + 6;
  const everyX = across.labels.length > 6 ? Math.max(1, Math.ceil(Math.min(widest, 80) / cellPx)) : 1;
  const everyY = Math.max(1, Math.ceil(15 / rowPx));
  const places = (labels: readonly string[], every: number) =>
    labels.map((text, place) => ({ text, place })).filter(({ place }) => place % every === 0);
  return [
    Plot.text(places(across.labels, everyX), {
      x: 'place',
      text: 'text',
      frameAnchor: 'bottom',
      dy: 6,
      lineAnchor: 'top',
      lineWidth: Math.max(40, cellPx * everyX) / FONT_PX,
      fill: INK,
    }),
    Plot.text(places(up.labels, everyY), {
      y: 'place',
      text: ({ text }: { text: string }) => cut(text),
      frameAnchor: 'left',
      dx: -6,
      textAnchor: 'end',
      fill: INK,
    }),
    Plot.text([across.title], {
      frameAnchor: 'bottom-right',
      dy: belowPx - 4,
      text: (text) => text,
      fill: SOFT,
    }),
    Plot.text([up.title], {
      frameAnchor: 'top-left',
      dx: -leftPx + 1,
      dy: -TOP + 4,
      text: (text) => text,
      fill: SOFT,
    }),
  ];
}

function cut(text: string): string {
  return text.length > MOST_LABEL_CHARS ? `${text.slice(0, MOST_LABEL_CHARS - 1)}…` : text;
}
