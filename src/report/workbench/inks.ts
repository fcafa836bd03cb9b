import { DARK, LIGHT } from '../page/style.ts';

/** Red, green and blue, 0 to 255. */
export type Ink = readonly [number, number, number];

/** The report's colours as numbers, for drawings made of pixels. */
export interface Inks {
  paper: Ink;
  ink: Ink;
  generator: Ink;
  peak: Ink;
  other: Ink;
  unserved: Ink;
  /** from nothing to the most */
  soc: Ink[];
  load: Ink[];
  array: Ink[];
  heat: Ink[];
}

/** @param dark by the system's setting; print is always light */
export function inksOf(dark: boolean): Inks {
  const text = dark ? DARK : LIGHT;
  const of = (name: string) => inkOf(text, name);
  const paper = of('card');
  return {
    paper: of('paper'),
    ink: of('ink'),
    generator: of('generator'),
    peak: of('peak'),
    other: of('other'),
    unserved: of('unserved'),
    soc: ['soc-1', 'soc-2', 'soc-3', 'soc-4', 'soc-5'].map(of),
    load: [paper, of('soft'), of('ink')],
    array: [paper, of('array'), mixed(of('array'), of('ink'), 0.45)],
    heat: [of('soc-2'), paper, of('peak')],
  };
}

function inkOf(variables: string, name: string): Ink {
  const hex = new RegExp(`--${name}:#([0-9a-f]{6})`).exec(variables)?.[1];
  if (!hex) throw new Error(`no colour '${name}'`);
  const value = Number.parseInt(hex, 16);
  return [value >> 16, (value >> 8) & 255, value & 255];
}

function mixed(a: Ink, b: Ink, share: number): Ink {
  return [0, 1, 2].map((k) => Math.round(a[k] + (b[k] - a[k]) * share)) as unknown as Ink;
}

/** Colours of levels 0 to 255 as pixels; 255 is paper. */
export function rampPixels(stops: readonly Ink[], paper: Ink): Uint32Array {
  const pixels = new Uint32Array(256).fill(pixel(paper));
  for (let level = 0; level <= 250; level++) {
    const at = (level / 250) * (stops.length - 1);
    const i = Math.min(stops.length - 2, Math.floor(at));
    pixels[level] = pixel(mixed(stops[i], stops[i + 1], at - i));
  }
  return pixels;
}

/** As a canvas stores it (little-endian). */
export function pixel([red, green, blue]: Ink): number {
  return ((255 << 24) | (blue << 16) | (green << 8) | red) >>> 0;
}

export function cssOf([red, green, blue]: Ink): string {
  return `rgb(${red} ${green} ${blue})`;
}
