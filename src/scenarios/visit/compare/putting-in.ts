import type { Inputs } from '../../../sim/inputs.ts';
import type { SiteChanges } from '../../apply-changes.ts';
import type { Issue } from '../../issue.ts';
import type { SiteRecord } from '../../log/site-record.ts';
import { type Calibrated, calibration, holdingAt, isOff } from '../calibrate.ts';
import type { VisitGround } from '../ground.ts';
import type { Cause, Comparison, Estimate, Fault } from '../visit.ts';
import { withHeldPeaks } from './held-peaks.ts';
import { type HoursInForce, hoursInForce } from './hours-in-force.ts';
import type { LogSeries } from './log-series.ts';
import { arraysByOutput, arraysBySun } from './measured-arrays.ts';
import { measuredLoad } from './measured-load.ts';
import type { Stretch } from './run-log.ts';

/** What is put into the designed run for one cause, on top of what was put in before. */
export interface PutIn {
  kind: Exclude<Cause['kind'], 'unexplained'>;
  /** series in place of the designed ones */
  inputs?: Partial<Inputs>;
  /** kinds of values of the site file that hold from here on */
  calibrated?: Calibrated;
  /** changes that hold all along */
  changes?: SiteChanges;
}

/** All that is put in, in order; one that changes nothing is there too, where the log could have told it. */
export interface Sequence {
  puts: PutIn[];
  filled: Comparison['filled'];
}

/** What can be put in, from the log and the estimates, one cause after another. */
export function sequenceOf(
  ground: VisitGround,
  series: LogSeries,
  estimates: readonly Estimate[],
  faults: readonly Fault[],
): Sequence {
  const { designed, site, record } = ground;
  const filled = { loadSteps: 0, sunSteps: 0 };
  const puts: PutIn[] = [];
  const load = measuredLoad(designed, series);
  if (load !== null) {
    filled.loadSteps = load.filledSteps;
    const loadKw = withHeldPeaks(ground, series, load.inputs.loadKw, estimates);
    puts.push({ kind: 'load', inputs: { ...load.inputs, loadKw } });
  }
  const bySun = arraysBySun(ground);
  const byOutput = bySun === null ? arraysByOutput(ground, series) : null;
  if (bySun !== null) {
    filled.sunSteps = bySun.filledSteps;
    puts.push({ kind: 'sun', inputs: bySun.arrays });
    if (estimates.some((one) => one.key === 'arrayFactor' && one.value !== null))
      puts.push({ kind: 'array', inputs: withFactor(bySun.arrays, record, estimates) });
  } else if (byOutput !== null) {
    filled.sunSteps = byOutput.filledSteps;
    puts.push({ kind: 'sun-or-array', inputs: byOutput.arrays });
  }
  for (const kind of KINDS)
    if (estimates.some((one) => one.value !== null && KEYS[kind].includes(one.key)))
      puts.push({ kind, calibrated: kind });
  const hours = hoursPut(ground, series, estimates);
  if (hours !== null) puts.push(hours);
  if (site.cabinet) puts.push(cabinetPut(ground, faults));
  if (estimates.some((one) => one.value !== null && KEYS.engine.includes(one.key)))
    puts.push({ kind: 'engine', calibrated: 'engine' });
  return { puts, filled };
}

const KINDS = ['battery', 'standby', 'thresholds', 'charging'] as const;

const KEYS: Record<(typeof KINDS)[number] | 'engine', readonly Estimate['key'][]> = {
  battery: ['usableKwh', 'oneWayEfficiency'],
  standby: ['standbyKw'],
  thresholds: ['startSoc', 'stopSoc'],
  charging: ['chargeKw'],
  engine: ['fuelAtRest', 'fuelPerKwh'],
};

/** Array output times the factor that holds in each step; where it does not differ enough, as it is. */
function withFactor(
  { dcArrayKw, acArrayKw }: Pick<Inputs, 'dcArrayKw' | 'acArrayKw'>,
  { axis }: SiteRecord,
  estimates: readonly Estimate[],
): Partial<Inputs> {
  const factors = estimates.filter((one) => one.key === 'arrayFactor');
  const factor = new Float64Array(axis.count).fill(1);
  for (const { from, to } of boundsOf(axis, factors)) {
    const [one] = holdingAt(factors, axis.startS + from * axis.stepMin * 60);
    if (one && isOff(one)) factor.fill(one.value, from, to);
  }
  const times = (kw: Float64Array | undefined) => kw?.map((value, i) => value * factor[i]);
  return { dcArrayKw: times(dcArrayKw), acArrayKw: times(acArrayKw) };
}

/** The hours that the log shows; without a change where they are as set; null where nothing could be told. */
function hoursPut(ground: VisitGround, series: LogSeries, estimates: readonly Estimate[]): PutIn | null {
  const { charge } = ground.site.control;
  if (charge === null || series.on === null || series.socFrac === null) return null;
  const found = hoursOf(ground, series, estimates);
  if (found === null) return { kind: 'hours' };
  const { restricted, exerciseDue, changes } = found;
  return {
    ...{ kind: 'hours', changes },
    inputs: { ...(restricted && { restricted }), ...(exerciseDue && { exerciseDue }) },
  };
}

/** Hours in force, by the start threshold that is: the estimated one where it is off, else the set one. */
function hoursOf(
  ground: VisitGround,
  series: LogSeries,
  estimates: readonly Estimate[],
): HoursInForce | null {
  const { axis } = ground.record;
  const endS = axis.startS + axis.count * axis.stepMin * 60;
  const starts = estimates.filter((one) => one.key === 'startSoc');
  // where the threshold changed within the log, one number says nothing of the hours
  if (starts.filter((one) => one.value !== null).length > 1) return null;
  const [held] = holdingAt(starts, endS - 1);
  const set = ground.site.control.charge?.startSoc ?? null;
  return hoursInForce(ground, series, held && isOff(held) ? held.value : set);
}

/** Outside air as it was logged, what heats and cools the cabinet, and a heater or cooler that does not work. */
function cabinetPut({ designed, record }: VisitGround, faults: readonly Fault[]): PutIn {
  const { outsideC } = record.columns;
  const airC = outsideC && designed.airC?.map((c, i) => (Number.isNaN(outsideC[i]) ? c : outsideC[i]));
  const changes: SiteChanges = {};
  const endS = record.axis.startS + record.axis.count * record.axis.stepMin * 60;
  // only what has not worked for most of the log can be put in for all of it
  const isLong = ({ fromS, toS }: Fault) => toS - fromS > (endS - record.axis.startS) / 2;
  if (faults.some((one) => one.kind === 'heater-off' && isLong(one))) changes['cabinet.heater'] = null;
  if (faults.some((one) => one.kind === 'cooler-off' && isLong(one))) changes['cabinet.cooler'] = null;
  return { kind: 'cabinet', calibrated: 'cabinet', changes, ...(airC && { inputs: { airC } }) };
}

/** The stretches of a log in which other estimates hold, each with the changes of what is put in. */
export function stretchesOf(
  ground: VisitGround,
  estimates: readonly Estimate[],
  kinds: readonly Calibrated[],
  always: SiteChanges,
): { stretches: Stretch[]; issues: Issue[] } {
  const { axis } = ground.record;
  const issues: Issue[] = [];
  const stretches: Stretch[] = [];
  for (const { from, to } of boundsOf(axis, kinds.length > 0 ? estimates : [])) {
    const held = holdingAt(estimates, axis.startS + from * axis.stepMin * 60).filter(isOff);
    const all = calibration(held, ground.site, ground.site);
    let changes: SiteChanges = { ...always };
    for (const kind of kinds) {
      const next = { ...changes, ...all[kind] };
      const made = ground.filed.variant(next);
      if (Array.isArray(made)) issues.push(...made);
      else changes = next;
    }
    const last = stretches[stretches.length - 1];
    if (last && JSON.stringify(last.changes) === JSON.stringify(changes)) last.to = to;
    else stretches.push({ from, to, changes });
  }
  return { stretches, issues };
}

/** Steps between which the same estimates hold. */
function boundsOf(axis: SiteRecord['axis'], estimates: readonly Estimate[]): { from: number; to: number }[] {
  const stepOf = (atS: number) => Math.ceil((atS - axis.startS) / (axis.stepMin * 60));
  const ends = estimates.flatMap((one) => (one.value === null ? [] : [stepOf(one.fromS), stepOf(one.toS)]));
  const inside = ends.filter((step) => step > 0 && step < axis.count);
  const bounds = [...new Set([0, ...inside, axis.count])].sort((a, b) => a - b);
  return bounds.slice(1).map((to, i) => ({ from: bounds[i], to }));
}
