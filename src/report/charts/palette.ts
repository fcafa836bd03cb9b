import type { StartCause } from '../../sim/causes.ts';

/**
 * Colours by what they stand for. The page defines them for light, dark and print; they differ in lightness first,
 * so that a grey print and a colour-blind reader lose nothing, and areas that meet also differ in pattern.
 */
export const INK = 'var(--ink)';
export const SOFT = 'var(--soft)';
export const LINE = 'var(--line)';
export const PAPER = 'var(--paper)';
export const DAYLIGHT = 'var(--daylight)';
export const LOAD = 'var(--load)';
export const ARRAY = 'var(--array)';
export const BATTERY = 'var(--battery)';
export const GENERATOR = 'var(--generator)';
export const UNSERVED = 'url(#hatch-unserved)';
export const UNSERVED_LINE = 'var(--unserved)';
export const SAVED = 'url(#hatch-saved)';
export const SNOW = 'url(#dots-snow)';
export const CALLED = 'url(#hatch-other)';
export const WARNED = 'url(#hatch-low-load)';

/** State of charge in five steps, furthest from the paper where the battery is emptiest: darkest by day, lightest on a dark screen. */
export const SOC_STEPS = ['var(--soc-1)', 'var(--soc-2)', 'var(--soc-3)', 'var(--soc-4)', 'var(--soc-5)'];
export const SOC_LABELS = ['below 20 %', '20 to 40 %', '40 to 60 %', '60 to 80 %', 'above 80 %'];

/** Fill of a start cause: plain for thin strokes, with a pattern for areas. */
export function causeFill(cause: StartCause, area: boolean): string {
  if (cause === 'charge') return GENERATOR;
  if (cause === 'peak') return area ? 'url(#dots-peak)' : 'var(--peak)';
  return area ? 'url(#hatch-other)' : 'var(--other)';
}

/** The patterns as an SVG `defs`, to stand once in a page. */
export const PATTERNS = `<svg width="0" height="0" style="position:absolute" aria-hidden="true" focusable="false"><defs>
<pattern id="hatch-unserved" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="5" height="5" style="fill:var(--paper)"/><rect width="2.6" height="5" style="fill:var(--unserved)"/></pattern>
<pattern id="hatch-saved" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><rect width="1.1" height="6" style="fill:var(--soft)"/></pattern>
<pattern id="hatch-low-load" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="5" height="5" style="fill:var(--generator)"/><rect width="2" height="5" style="fill:var(--paper)"/></pattern>
<pattern id="hatch-other" width="4" height="4" patternUnits="userSpaceOnUse"><rect width="4" height="4" style="fill:var(--paper)"/><rect width="4" height="2" style="fill:var(--other)"/></pattern>
<pattern id="dots-snow" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" style="fill:var(--paper)"/><circle cx="1.5" cy="1.5" r=".9" style="fill:var(--ink)"/><circle cx="4.5" cy="4.5" r=".9" style="fill:var(--ink)"/></pattern>
<pattern id="dots-peak" width="5" height="5" patternUnits="userSpaceOnUse"><rect width="5" height="5" style="fill:var(--peak)"/><circle cx="2.5" cy="2.5" r="1.1" style="fill:var(--paper)"/></pattern>
</defs></svg>`;
