import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

/** Strings further than this from the rating of their array were meant for another. */
const RATING_OFF_FRAC = 0.1;

/** Strings must add up to their array, and a module's numbers must be possible. */
export function checkStrings({ arrays }: Pick<Site, 'arrays'>, tell: Tell): void {
  for (const [i, { kWp, strings }] of arrays.entries()) {
    if (!strings) continue;
    if (strings.vmpV >= strings.vocV)
      tell.refuse(
        ['arrays', i, 'strings', 'vmpV'],
        `${strings.vmpV} V`,
        `below the open-circuit voltage, ${strings.vocV} V`,
      );
    if (strings.impA >= strings.iscA)
      tell.refuse(
        ['arrays', i, 'strings', 'impA'],
        `${strings.impA} A`,
        `below the short-circuit current, ${strings.iscA} A`,
      );
    const kw = (strings.modulesInSeries * strings.strings * strings.vmpV * strings.impA) / 1000;
    if (Math.abs(kw - kWp) > RATING_OFF_FRAC * kWp)
      tell.doubt(
        ['arrays', i, 'strings'],
        `${strings.strings} strings of ${strings.modulesInSeries} modules, ${kw.toFixed(1)} kW`,
        `strings that add up to kWp, ${kWp} kWp`,
      );
  }
}

type Machines = Pick<Site, 'motors' | 'breakers' | 'inverter'>;

/** Motors and breakers have names of their own, and motors a phase that is there. */
export function checkMachines({ motors, breakers, inverter }: Machines, tell: Tell): void {
  for (const [i, { phase }] of (motors ?? []).entries())
    if (phase !== 'all' && phase > inverter.phases)
      tell.refuse(['motors', i, 'phase'], `phase ${phase}`, `a phase of ${inverter.phases}, or 'all'`);
  for (const [group, items] of [
    ['motors', motors],
    ['breakers', breakers],
  ] as const)
    for (const [i, { name }] of (items ?? []).entries())
      if ((items ?? []).findIndex((item) => item.name === name) < i)
        tell.refuse([group, i, 'name'], `a second '${name}'`, 'names of their own');
}

/** Design days must be in order. */
export function checkDesign({ design }: Pick<Site, 'design'>, tell: Tell): void {
  const { coldestC, hottestC, recordLowC } = design;
  if (coldestC !== undefined && hottestC !== undefined && coldestC >= hottestC)
    tell.refuse(['design', 'coldestC'], `${coldestC} °C`, `below hottestC, ${hottestC} °C`);
  if (recordLowC !== undefined && coldestC !== undefined && recordLowC > coldestC)
    tell.doubt(['design', 'recordLowC'], `${recordLowC} °C`, `at most coldestC, ${coldestC} °C`);
}
