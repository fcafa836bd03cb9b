import { type Inks, pixel, rampPixels } from './inks.ts';
import { CELLS_A_WEEK, type Shows, type WeekCells } from './messages.ts';

/** Shares of a line: where the generator ran, and the gap to the next; the rest is the quantity. */
const MARK_SHARE = 0.3;
const GAP_SHARE = 0.1;

/** Height of a line for a width of the page [px]: a whole number, so that lines are alike. */
export function linePx(width: number): number {
  return Math.max(9, Math.min(24, Math.round(width / 88)));
}

const UNSERVED = 100;
/** 1 + place of the cause in START_CAUSES */
const CHARGE = 3;
const PEAK = 4;

let buffer: HTMLCanvasElement | null = null;
let image: ImageData | null = null;

/** Paints the year in lines of weeks; a dozen milliseconds at most for a year. */
export function paintWeeks(
  canvas: HTMLCanvasElement,
  cells: WeekCells,
  inks: Inks,
  shows: Shows,
  width: number,
  density: number,
): void {
  const line = Math.max(3, Math.round(linePx(width) * density));
  const height = cells.weeks * line;
  if (canvas.width !== Math.round(width * density) || canvas.height !== height) {
    canvas.width = Math.round(width * density);
    canvas.height = height;
  }
  const context = canvas.getContext('2d');
  buffer ??= document.createElement('canvas');
  if (buffer.width !== CELLS_A_WEEK || buffer.height !== height) {
    buffer.width = CELLS_A_WEEK;
    buffer.height = height;
  }
  const drawn = buffer.getContext('2d');
  if (!context || !drawn) return;
  if (image?.height !== height) image = drawn.createImageData(CELLS_A_WEEK, height);
  fill(new Uint32Array(image.data.buffer), cells, inks, shows, line);
  drawn.putImageData(image, 0, 0);
  context.imageSmoothingEnabled = canvas.width < CELLS_A_WEEK;
  context.drawImage(buffer, 0, 0, canvas.width, height);
}

function fill(
  pixels: Uint32Array,
  { weeks, level, mark }: WeekCells,
  inks: Inks,
  shows: Shows,
  line: number,
): void {
  const ramp = rampPixels(stopsOf(inks, shows), inks.paper);
  const paper = pixel(inks.paper);
  const gap = Math.max(1, Math.round(GAP_SHARE * line));
  const bar = Math.max(1, Math.round(MARK_SHARE * line));
  const marks = new Uint32Array(256).fill(pixel(inks.other));
  marks[0] = paper;
  marks[CHARGE] = pixel(inks.generator);
  marks[PEAK] = pixel(inks.peak);
  marks[UNSERVED] = pixel(inks.unserved);
  for (let week = 0; week < weeks; week++) {
    const cell = week * CELLS_A_WEEK;
    const top = week * line * CELLS_A_WEEK;
    const rows = line - bar - gap;
    for (let c = 0; c < CELLS_A_WEEK; c++) {
      // unserved load is seen in both parts of its line
      pixels[top + c] = mark[cell + c] === UNSERVED ? marks[UNSERVED] : ramp[level[cell + c]];
      pixels[top + rows * CELLS_A_WEEK + c] = marks[mark[cell + c]];
    }
    for (let row = 1; row < rows; row++) pixels.copyWithin(top + row * CELLS_A_WEEK, top, top + CELLS_A_WEEK);
    const bars = top + rows * CELLS_A_WEEK;
    for (let row = 1; row < bar; row++)
      pixels.copyWithin(bars + row * CELLS_A_WEEK, bars, bars + CELLS_A_WEEK);
    pixels.fill(paper, bars + bar * CELLS_A_WEEK, top + line * CELLS_A_WEEK);
  }
}

export function stopsOf(inks: Inks, shows: Shows): Inks['soc'] {
  if (shows === 'soc') return inks.soc;
  if (shows === 'array') return inks.array;
  if (shows === 'cabinet') return inks.heat;
  return inks.load;
}
