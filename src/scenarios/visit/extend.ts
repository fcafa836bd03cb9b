import type { Ledger } from '../../sim/ledger.ts';
import { simulate } from '../../sim/simulate.ts';
import type { SiteChanges } from '../apply-changes.ts';
import { controlsFromSite } from '../controls-from-site.ts';
import type { InputMaker } from '../inputs-from-site.ts';
import type { Issue } from '../issue.ts';
import type { Filed } from '../many/ground.ts';
import { plantFromSite } from '../plant-from-site.ts';
import type { Site } from '../site-schema.ts';
import { arrayChanges, calibration, holdingAt, isOff, type Known } from './calibrate.ts';
import type { Compared } from './compare/compare.ts';
import type { VisitGround } from './ground.ts';
import type { Estimate, Extension } from './visit.ts';

/** A year of each alternative of the site file on the calibrated site, and of that without it. */
export function extend(
  ground: VisitGround,
  { always }: Pick<Compared, 'always'>,
  estimates: readonly Estimate[],
  onProgress?: (name: string) => void,
): { extensions: Extension[]; issues: Issue[] } {
  const { axis } = ground.record;
  const held = holdingAt(estimates, axis.startS + axis.count * axis.stepMin * 60 - 1);
  const issues: Issue[] = [];
  let maker = ground.maker.forked();
  const run = (changes: SiteChanges): Extension['before'] | null => {
    const made = yearOf(ground.filed, maker, changes);
    if (!Array.isArray(made)) return made;
    // what a wrong file leaves among the maker's issues would stop all that come after it
    maker = ground.maker.forked();
    issues.push(...made.map((issue): Issue => ({ ...issue, severity: 'doubt', code: 'extension-left-out' })));
    return null;
  };
  const extensions: Extension[] = [];
  const { alternatives } = ground.site;
  const before = alternatives.length > 0 ? run(extended(ground, always, held, {})) : null;
  if (before === null) return { extensions, issues };
  for (const { name, note, changes } of alternatives) {
    onProgress?.(name);
    const after = run(extended(ground, always, held, changes));
    if (after !== null) extensions.push({ name, note, before, after });
  }
  return { extensions, issues };
}

/**
 * Changes that make the calibrated site with an alternative on it: old parts as estimated, new ones as named, the
 * load times what was measured. What the alternative sets goes before what the log shows.
 */
export function extended(
  { site, filed }: VisitGround,
  always: SiteChanges,
  held: readonly Known[],
  alternative: SiteChanges,
): SiteChanges {
  const put = held.filter(isOff);
  const altered = filed.variant({ ...alternative });
  // an alternative that is wrong by itself is said to be so when it is run
  const now: Site = Array.isArray(altered) ? site : altered;
  const touched = Object.keys(alternative);
  const free = Object.entries(always).filter(
    ([path]) => !touched.some((one) => path.startsWith(one) || one.startsWith(path)),
  );
  const factor = (key: Known['key']) => put.find((one) => one.key === key)?.value ?? 1;
  return {
    ...Object.fromEntries(free),
    ...alternative,
    ...Object.assign({}, ...Object.values(calibration(put, site, now))),
    ...(factor('arrayFactor') === 1 ? {} : arrayChanges(factor('arrayFactor'), site, now)),
    ...(factor('loadFactor') === 1 ? {} : loadChanges(factor('loadFactor'), now, site)),
  };
}

/** What was there draws what was measured; what an alternative adds draws what it says. */
function loadChanges(factor: number, now: Site, filed: Site): SiteChanges {
  const times = (value: number, old: number) => Math.min(value, old) * factor + Math.max(0, value - old);
  const isSame = (a: object, b: object | undefined) =>
    b !== undefined &&
    JSON.stringify({ ...a, scale: 0, watts: 0 }) === JSON.stringify({ ...b, scale: 0, watts: 0 });
  const loads = now.load.flatMap((one, i) =>
    isSame(one, filed.load[i]) ? [[`load.${i}.scale`, times(one.scale, filed.load[i].scale)]] : [],
  );
  const appliances = now.appliances.flatMap((one, i) =>
    isSame(one, filed.appliances[i])
      ? [[`appliances.${i}.watts`, times(one.watts, filed.appliances[i].watts)]]
      : [],
  );
  return Object.fromEntries([...loads, ...appliances]);
}

/** Sums of the site file's period, by the year. */
function yearOf(filed: Filed, maker: InputMaker, changes: SiteChanges): Extension['before'] | Issue[] {
  const site = filed.variant(changes);
  if (Array.isArray(site)) return site;
  const made = maker.make(site, false);
  if (made === null) return maker.issues;
  const plant = plantFromSite(site, made.airAtStartC, made.acArrayShare);
  const ledger = simulate(plant, controlsFromSite(site), made.inputs);
  return byTheYear(ledger, site.period.days);
}

function byTheYear({ totals, extremes }: Ledger, days: number): Extension['before'] {
  const years = days / 365;
  return {
    generatorKwh: totals.generatorKwh / years,
    fuelL: totals.fuelL / years,
    runH: totals.runH / years,
    starts: totals.starts / years,
    lowestSoc: extremes.minSoc,
    unservedKwh: totals.unservedKwh / years,
  };
}
