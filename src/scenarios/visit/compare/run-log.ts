import { carryOn, type SiteState } from '../../../sim/carry-on.ts';
import { makeColumns } from '../../../sim/columns.ts';
import type { Inputs } from '../../../sim/inputs.ts';
import type { SiteChanges } from '../../apply-changes.ts';
import { controlsFromSite } from '../../controls-from-site.ts';
import { columnsOf, spanOf } from '../../horizon-spans.ts';
import type { Issue } from '../../issue.ts';
import { plantFromSite } from '../../plant-from-site.ts';
import type { Site } from '../../site-schema.ts';
import type { VisitGround } from '../ground.ts';
import type { LogRun } from './sums.ts';

/** What holds in a stretch of the log: changes of the site file from one step to another (not included). */
export interface Stretch {
  from: number;
  to: number;
  changes: SiteChanges;
}

/**
 * Runs a site over its log's axis, one stretch after another, from the charge that the log begins with.
 * @param stretches in turn, without holes
 * @returns the run, and problems of stretches whose changes contradict each other: those run as filed
 */
export function runLog(
  ground: VisitGround,
  inputs: Inputs,
  stretches: readonly Stretch[],
): { run: LogRun; issues: Issue[] } {
  const columns = makeColumns(inputs.count);
  const issues: Issue[] = [];
  const sites: { to: number; site: Site }[] = [];
  const initialSoc = firstSoc(ground);
  let state: SiteState | null = null;
  let [runH, fuelL] = [0, 0];
  for (const { from, to, changes } of stretches) {
    const made = ground.filed.variant(changes);
    if (Array.isArray(made)) issues.push(...made);
    const site = Array.isArray(made) ? ground.site : made;
    const plant = plantFromSite(site, ground.airAtStartC, ground.acArrayShare);
    if (plant.battery && initialSoc !== null) plant.battery.initialSoc = initialSoc;
    const span = spanOf(inputs, from, to);
    const stretch = carryOn(plant, controlsFromSite(site), span, state, null, columnsOf(columns, from, to));
    state = stretch.state;
    runH += stretch.totals.runH;
    fuelL += stretch.totals.fuelL;
    sites.push({ to, site });
  }
  const fuelAt = (step: number) => sites.find(({ to }) => step < to)?.site.generator?.fuel ?? null;
  return { run: { inputs, columns, fuelAt, runH, fuelL }, issues };
}

/** The first state of charge that a log has; null: none. */
export function firstSoc({ record }: Pick<VisitGround, 'record'>): number | null {
  const first = record.columns.socFrac?.find((soc) => !Number.isNaN(soc));
  return first === undefined ? null : Math.min(1, Math.max(0, first));
}
