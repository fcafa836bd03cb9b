import { type ArrayYield, newYield, sumOf } from './array-yields.ts';
import { type ArraySetting, addArray } from './arrays-from-site.ts';
import type { ArrayPart, Site, SourceFile } from './site-schema.ts';

/** What the arrays and other sources of a site offer it. */
export interface ArrayOutput {
  /** behind their converters [kW]; null where there is none of the kind */
  dcKw: Float64Array | null;
  acKw: Float64Array | null;
  /** share of each phase in the AC-coupled output, by the energy of the whole period */
  acShare: number[];
  /** each array, then each source: what it offers and what keeps the rest from the site */
  yields: ArrayYield[];
}

/**
 * The output of all arrays and other sources of a site.
 * @param setting   null where there is no weather, and so no array
 * @param sourcesKw what each of the site's sources could give [kW]
 * @param steps     of the run, and its periods
 */
export function arrayOutput(
  site: Site,
  setting: ArraySetting | null,
  sourcesKw: readonly Float64Array[],
  steps: { count: number; stepMin: number; periodEnds: readonly number[] },
): ArrayOutput {
  const { phases } = site.inverter;
  const output: ArrayOutput = { dcKw: null, acKw: null, acShare: [], yields: [] };
  const acByPhase = new Array<number>(phases).fill(0);
  const totalOf = (coupling: 'dc' | 'ac') => {
    if (coupling === 'dc') output.dcKw ??= new Float64Array(steps.count);
    else output.acKw ??= new Float64Array(steps.count);
    return (coupling === 'dc' ? output.dcKw : output.acKw) as Float64Array;
  };
  const take = (part: ArrayPart | SourceFile, add: (total: Float64Array) => ArrayYield) => {
    const total = totalOf(part.coupling);
    const before = sumOf(total);
    output.yields.push(add(total));
    if (part.coupling === 'ac') shareOut(acByPhase, sumOf(total) - before, part.phase);
  };
  if (setting !== null)
    for (const array of site.arrays) take(array, (total) => addArray(total, setting, array));
  for (const [i, source] of site.sources.entries())
    take(source, (total) => addSource(total, source, sourcesKw[i], steps));
  const whole = sumOf(acByPhase);
  output.acShare = acByPhase.map((part) => (whole > 0 ? part / whole : 1 / phases));
  return output;
}

function addSource(
  total: Float64Array,
  source: SourceFile,
  kw: Float64Array,
  { stepMin, periodEnds }: { stepMin: number; periodEnds: readonly number[] },
): ArrayYield {
  const told = newYield(source, 'source', periodEnds.length);
  let i = 0;
  for (const [k, end] of periodEnds.entries())
    for (; i < end; i++) {
      total[i] += kw[i];
      told.offeredKwh[k] += (kw[i] * stepMin) / 60;
    }
  return told;
}

function shareOut(byPhase: number[], energy: number, phase: ArrayPart['phase']): void {
  for (let k = 0; k < byPhase.length; k++)
    if (phase === 'all') byPhase[k] += energy / byPhase.length;
    else if (phase === k + 1) byPhase[k] += energy;
}
