import { sunPath } from '../sim/sky/plane.ts';
import type { Findings } from './findings.ts';
import type { LaidRows } from './lay-rows.ts';
import type { TimeAxis } from './series.ts';

/** Twilight is weaker than this [W/m²]. */
const TWILIGHT_W_PER_M2 = 20;

/** A file whose global irradiation differs more than this from its parts has something in the wrong column. */
const MOST_DISAGREEMENT = 0.2;

/** Diffuse irradiance above the global by more than what instruments differ: a tenth, and this [W/m²]. */
const [DIFFUSE_SHARE, DIFFUSE_W_PER_M2] = [1.1, 20];

/**
 * Doubts what the sun contradicts: light in steps during which it never rises (the sign of a wrong offset from UTC,
 * a wrong longitude, or stamps that mean something else); more diffuse than global light, and a global irradiation
 * that is not that of its direct and diffuse parts (the signs of swapped columns). Limits are our own.
 */
export function checkAgainstSun(
  laid: LaidRows,
  axis: TimeAxis,
  place: { latDeg: number; lonDeg: number },
  found: Findings,
): void {
  const path = sunPath(axis.startS, axis.stepMin, axis.count, place.latDeg, place.lonDeg);
  const global = laid.values.get('ghiWPerM2');
  const light = global ?? laid.values.get('poaWPerM2');
  if (light) checkNight(light, path.sunlit, laid.lineOf, found);
  const direct = laid.values.get('dniWPerM2');
  const diffuse = laid.values.get('dhiWPerM2');
  if (!global || !direct || !diffuse) return;
  checkDiffuse(global, diffuse, laid.lineOf, found);
  const upright = path.cosZenith.map((cosine, i) => cosine * path.sunlit[i]);
  checkParts(global, direct, diffuse, upright, found);
}

function lineOf(lines: Uint32Array, step: number): { line?: number } {
  return lines[step] > 0 ? { line: lines[step] } : {};
}

function checkNight(light: Float64Array, sunlit: Float64Array, lines: Uint32Array, found: Findings): void {
  const odd = light.map((value, i) => Number(sunlit[i] === 0 && value > TWILIGHT_W_PER_M2));
  const want = 'darkness at night; check the place, the offset from UTC and what the stamps mean';
  doubtRows(odd, 'night-sun', 'irradiance while the sun is down', want, lines, found);
}

function checkDiffuse(
  global: Float64Array,
  diffuse: Float64Array,
  lines: Uint32Array,
  found: Findings,
): void {
  const odd = global.map((value, i) => Number(diffuse[i] > DIFFUSE_SHARE * value + DIFFUSE_W_PER_M2));
  const want = 'diffuse as a part of the global; check the columns';
  doubtRows(odd, 'diffuse-above-global', 'more diffuse than global', want, lines, found);
}

/** One doubt for all rows of a kind, at the first of them. @param odd 1 where a row is of that kind */
function doubtRows(
  odd: Float64Array,
  code: string,
  what: string,
  want: string,
  lines: Uint32Array,
  found: Findings,
): void {
  const count = odd.reduce((sum, one) => sum + one, 0);
  if (count === 0) return;
  const got = `${count} ${count === 1 ? 'row' : 'rows'} with ${what}, the first here`;
  found.doubt(code, 'irradiance', got, want, lineOf(lines, odd.indexOf(1)));
}

function checkParts(
  global: Float64Array,
  direct: Float64Array,
  diffuse: Float64Array,
  upright: Float64Array,
  found: Findings,
): void {
  let whole = 0;
  let parts = 0;
  for (let i = 0; i < global.length; i++) {
    whole += global[i];
    parts += direct[i] * upright[i] + diffuse[i];
  }
  const ratio = whole / parts;
  if (Math.abs(ratio - 1) <= MOST_DISAGREEMENT || (whole === 0 && parts === 0)) return;
  const got = `global irradiation ${ratio.toFixed(2)} times that of its direct and diffuse parts`;
  found.doubt('parts', 'irradiance', got, 'about 1; check the columns and the place');
}
