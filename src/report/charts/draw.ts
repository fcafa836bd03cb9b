import * as Plot from '@observablehq/plot';

/** Widths that drawings are made for: beside another one (and on a phone), and across the page [px]. */
export const HALF_WIDTH = 348;
export const FULL_WIDTH = 720;

export const FONT_PX = 12;

/** Class of the group in which every variant has a mark of its own, in their order: the workbench can be pressed there. */
export const CELLS = 'cells';

/**
 * Draws with Plot into a document (a browser's, or one without a screen), as one labelled image.
 * Styles that every drawing shares belong to the page; labels of parts would be read twice, so they are taken out.
 * @param label what the drawing shows, in a sentence
 */
export function draw(paper: Document, label: string, options: Plot.PlotOptions): SVGElement {
  const svg = Plot.plot({
    ...options,
    document: paper,
    className: 'chart',
    style: { fontSize: `${FONT_PX}px`, fontFamily: 'inherit', background: 'none', overflow: 'visible' },
  }) as unknown as SVGElement;
  for (const style of [...svg.querySelectorAll('style')]) style.remove();
  for (const part of [...svg.querySelectorAll('[aria-label], [aria-description]')]) {
    part.removeAttribute('aria-label');
    part.removeAttribute('aria-description');
  }
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', label);
  return svg;
}

/** For drawings whose marks stand in the drawing's own pixels: no scales, axes or margins. */
export const IN_PIXELS = {
  margin: 0,
  x: { type: 'identity', axis: null },
  y: { type: 'identity', axis: null },
} as const satisfies Plot.PlotOptions;

/** A mark that is one path in the drawing's own pixels, for what would be thousands of marks. */
export function pathMark(
  attributes: Record<string, string | number>,
  pathOf: (x: (value: number) => number, y: (value: number) => number) => string,
): Plot.RenderFunction {
  return (_index, scales, _values, _dimensions, context) => {
    const path = context.ownerSVGElement.ownerDocument.createElementNS('http://www.w3.org/2000/svg', 'path');
    for (const [name, value] of Object.entries(attributes)) path.setAttribute(name, String(value));
    path.setAttribute(
      'd',
      pathOf(scales.x as (value: number) => number, scales.y as (value: number) => number),
    );
    return path;
  };
}
