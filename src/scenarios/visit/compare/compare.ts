import type { Inputs } from '../../../sim/inputs.ts';
import type { SiteChanges } from '../../apply-changes.ts';
import type { Issue } from '../../issue.ts';
import { type Calibrated, kindOf } from '../calibrate.ts';
import type { VisitGround } from '../ground.ts';
import type { Cause, Comparison, Estimate, Fault, Sums } from '../visit.ts';
import { isAsDesigned } from './as-designed.ts';
import { logSeries } from './log-series.ts';
import { type PutIn, sequenceOf, stretchesOf } from './putting-in.ts';
import { runLog, type Stretch } from './run-log.ts';
import { type LogRun, sumsOfLog, sumsOfRun } from './sums.ts';

/** A comparison, and what the retuning and extending of the site go on from. */
export interface Compared {
  comparison: Comparison;
  /** with all that was put in: the log's load, sun and air, hours and thresholds in force */
  calibratedInputs: Inputs;
  /** what was put in beside the estimates (hours in force, what does not work), as changes of the site file */
  always: SiteChanges;
  /** estimates without those that the log's generator contradicts */
  believed: Estimate[];
  doubts: Issue[];
}

/**
 * The site as designed, as it ran and as calibrated, over the same steps of its log; and what each cause changed,
 * putting one after another into the designed run. What is left between that and the log is not explained.
 */
export function compareWithLog(
  ground: VisitGround,
  estimates: readonly Estimate[],
  faults: readonly Fault[],
): Compared {
  const { record, site, designed } = ground;
  const series = logSeries(record, site);
  const { puts, filled } = sequenceOf(ground, series, estimates, faults);
  const { sums: ran, fuelFrom } = sumsOfLog(series, record.columns.fuelL, site, record.axis.stepMin);
  const doubts: Issue[] = [];
  let believed = [...estimates];
  let stretches: Stretch[] = [{ from: 0, to: record.axis.count, changes: {} }];
  let run = runLog(ground, designed, stretches).run;
  const designedRun = run;
  const lost = unservedFrac(designedRun);
  if (lost > UNSERVED_TOLD) doubts.push(servedOnly(ground, lost));
  const told = (sums: Sums): Sums => (ran.fuelL === null ? { ...sums, fuelL: null } : sums);
  let before = sumsOfRun(run, series);
  const designedSums = told(before);
  const causes: Cause[] = [];
  let now: State = { inputs: designed, kinds: [], changes: {} };
  for (const put of puts) {
    const next = stateAfter(now, put);
    const made = stretchesOf(ground, estimates, next.kinds, next.changes);
    doubts.push(...made.issues.filter((issue) => !doubts.some((one) => one.path === issue.path)));
    const isAnother =
      next.inputs !== now.inputs || JSON.stringify(made.stretches) !== JSON.stringify(stretches);
    const tried = isAnother ? runLog(ground, next.inputs, made.stretches).run : run;
    const after = sumsOfRun(tried, series);
    if (put.calibrated && isContradicted(before, after, ran)) {
      doubts.push(contradicted(ground, put.calibrated, after, ran));
      believed = believed.filter(({ key }) => kindOf(key) !== put.calibrated);
      continue;
    }
    run = tried;
    stretches = made.stretches;
    causes.push(difference(put.kind, told(before), told(after)));
    before = after;
    now = next;
  }
  const calibrated = told(before);
  causes.push(difference('unexplained', calibrated, ran));
  const comparison: Comparison = {
    ...{ designed: designedSums, ran, calibrated, coverage: series.coverage, fuelFrom, filled },
    asDesigned: !puts.some(isOtherHours) && isAsDesigned(designedSums, ran, estimates),
    causes,
    days: daysOf(ground, series.known, series.generatorKw, designedRun, run),
  };
  return {
    comparison,
    calibratedInputs: now.inputs,
    always: now.changes,
    believed,
    doubts: asDoubts(doubts),
  };
}

/** An estimate that takes the run so much further from the log is not believed: share of the generator's energy. */
const CONTRADICTED_SHARE = 0.15;

/** Whether what was put in takes the generator's energy far away from what the log says it gave. */
function isContradicted(before: Sums, after: Sums, ran: Sums): boolean {
  if (ran.generatorKwh === null || before.generatorKwh === null || after.generatorKwh === null) return false;
  const apart = (sums: number) => Math.abs(sums - (ran.generatorKwh as number));
  const further = apart(after.generatorKwh) - apart(before.generatorKwh);
  return further > CONTRADICTED_SHARE * Math.max(ran.generatorKwh, before.generatorKwh);
}

function contradicted({ filed }: VisitGround, kind: string, after: Sums, ran: Sums): Issue {
  const kwh = (value: number | null) => `${Math.round(value ?? 0)} kWh`;
  return {
    severity: 'doubt',
    code: 'estimate-contradicted',
    path: `log: ${kind}`,
    got: `an estimate with which the generator would have given ${kwh(after.generatorKwh)}`,
    want: `the ${kwh(ran.generatorKwh)} that the log has: it was left out of what explains them`,
    at: filed.placeOf(['log']),
  };
}

/** From this share of the load on, it is told that a log has only what was served (own choice). */
const UNSERVED_TOLD = 0.003;

function unservedFrac({ inputs, columns }: LogRun): number {
  const wanted = inputs.loadKw.reduce((all, phase) => all + phase.reduce((sum, kw) => sum + kw, 0), 0);
  return wanted > 0 ? columns.unservedKw.reduce((sum, kw) => sum + kw, 0) / wanted : 0;
}

function servedOnly({ filed }: VisitGround, lost: number): Issue {
  return {
    severity: 'doubt',
    code: 'served-only',
    path: 'log: load',
    got: `a design that leaves ${(100 * lost).toFixed(1)} % of its load unserved`,
    want: 'a log of what was wanted: load that was not served is missing from it, and from what is run again; in place of a peak that started the engine, the least that starts it is put there',
    at: filed.placeOf(['log']),
  };
}

interface State {
  inputs: Inputs;
  kinds: Calibrated[];
  changes: SiteChanges;
}

function stateAfter({ inputs, kinds, changes }: State, put: PutIn): State {
  const own = put.inputs && Object.keys(put.inputs).length > 0;
  return {
    inputs: own ? { ...inputs, ...put.inputs } : inputs,
    kinds: put.calibrated ? [...kinds, put.calibrated] : kinds,
    changes: put.changes ? { ...changes, ...put.changes } : changes,
  };
}

/** Hours or exercise runs that are not as set, whatever they did to the sums. */
function isOtherHours({ kind, changes }: PutIn): boolean {
  return kind === 'hours' && Object.keys(changes ?? {}).length > 0;
}

function difference(kind: Cause['kind'], before: Sums, after: Sums): Cause {
  const of = (key: 'generatorKwh' | 'fuelL' | 'runH') => {
    const [from, to] = [before[key], after[key]];
    return from === null || to === null ? null : to - from;
  };
  return { kind, generatorKwh: of('generatorKwh'), fuelL: of('fuelL'), runH: of('runH') };
}

/** Generator energy by local days, each over its known steps. */
function daysOf(
  { calendar, record }: VisitGround,
  known: Uint8Array,
  ranKw: Float64Array | null,
  designed: LogRun,
  calibrated: LogRun,
): Comparison['days'] {
  const { startS, stepMin } = record.axis;
  const days: Comparison['days'] = { startS: [], designedKwh: [], ranKwh: [], calibratedKwh: [] };
  const add = (sums: (number | null)[], kw: number) => {
    const at = sums.length - 1;
    sums[at] = (sums[at] ?? 0) + (kw * stepMin) / 60;
  };
  let day = Number.NaN;
  for (const [i, now] of calendar.dayNumber.entries()) {
    if (now !== day) {
      day = now;
      days.startS.push(startS + i * stepMin * 60);
      for (const sums of [days.designedKwh, days.ranKwh, days.calibratedKwh]) sums.push(null);
    }
    if (known[i] === 0) continue;
    add(days.designedKwh, designed.columns.generatorKw[i]);
    add(days.calibratedKwh, calibrated.columns.generatorKw[i]);
    if (ranKw !== null) add(days.ranKwh, ranKw[i]);
  }
  return days;
}

/** Estimates that contradict each other are no fault of the site file: they are left out, and it is said. */
function asDoubts(issues: readonly Issue[]): Issue[] {
  return issues.map((issue) =>
    issue.severity === 'doubt' ? issue : { ...issue, severity: 'doubt', code: 'estimate-left-out' },
  );
}
