import type { Plant } from '../../../sim/plant.ts';
import type { Recorded, SiteRecord } from '../../log/site-record.ts';
import { plantFromSite } from '../../plant-from-site.ts';
import type { Site } from '../../site-schema.ts';
import { sumOfColumns } from '../../sum-columns.ts';
import type { VisitGround } from '../ground.ts';
import { quantumOf } from './rounding.ts';

/** How far above a thermostat's point a reading must be for it to be surely off [K]: common recorders err by 0.2 (common practice). */
const SURELY_K = 0.7;

/** In longer steps, what comes and goes within an hour is not seen: runs that stop, air that jumps with a load [h]. */
const LONGEST_STEP_H = 0.25;
/** What is told of a log that lacks them. */
export const SHORT_STEPS = 'steps of 15 minutes or less';

/** A log as the estimates look at it, beside the plant as filed. Columns are null where the log has none. */
export interface LogView {
  ground: VisitGround;
  site: Site;
  plant: Plant;
  count: number;
  /** step [h] */
  hours: number;
  startS: number;
  endS: number;
  stepS: number;
  /** local day of each step, from noon to noon for `night` */
  day: Int32Array;
  night: Int32Array;
  /** all phases together, and one by one; NaN where one of them is missing */
  loadKw: Float64Array | null;
  phaseKw: Float64Array[] | null;
  /** all arrays together; zeros for a site without */
  arrayKw: Float64Array | null;
  /** share of the step in which the engine runs, and its output; zeros for a site without */
  running: Float64Array | null;
  generatorKw: Float64Array | null;
  column: (name: Recorded) => Float64Array | null;
  /** what a column was rounded to where it was written, in our unit; 0: not to be seen, or no such column */
  quantum: (name: Recorded) => number;
  /** rows lay across the steps of the axis: means are of parts of two rows, levels up to a step old */
  isRelaid: boolean;
}

export function logView(ground: VisitGround): LogView {
  const { site, record, calendar } = ground;
  const { axis, columns } = record;
  const column = (name: Recorded) => columns[name] ?? null;
  const nothing = () => new Float64Array(axis.count);
  const { phases } = site.inverter;
  const each = [columns.load1Kw, columns.load2Kw, columns.load3Kw].filter((kw) => kw !== undefined);
  const phaseKw = phases === 1 ? one(columns.loadKw ?? columns.load1Kw) : each.length === 3 ? each : null;
  const alone = site.arrays.map(({ name }) => record.arraysKw[name]).filter((kw) => kw !== undefined);
  const allAlone = alone.length > 0 && alone.length === site.arrays.length ? sumOfColumns(alone) : null;
  const hasArrays = site.arrays.length > 0 || site.sources.length > 0;
  const generatorKw = site.generator ? column('generatorKw') : nothing();
  const running = site.generator
    ? (column('generatorOn') ?? generatorKw?.map((kw) => (kw > 0 ? 1 : kw === 0 ? 0 : Number.NaN)) ?? null)
    : nothing();
  return {
    ...{ ground, site, count: axis.count, hours: axis.stepMin / 60, column },
    plant: plantFromSite(site, ground.airAtStartC, ground.acArrayShare),
    ...{ startS: axis.startS, stepS: axis.stepMin * 60, endS: axis.startS + axis.count * axis.stepMin * 60 },
    day: calendar.dayNumber,
    night: calendar.dayNumber.map((day, i) => day + (calendar.minuteOfDay[i] < 720 ? -1 : 0)),
    ...{ loadKw: column('loadKw') ?? (phaseKw && sumOfColumns(phaseKw)), phaseKw },
    arrayKw: hasArrays ? (column('arrayKw') ?? allAlone) : nothing(),
    ...{ running, generatorKw },
    quantum: quantumsOf(record),
    isRelaid: isRelaid(record),
  };
}

/** From the file itself where it was read, as laying rows on an axis hides what they were rounded to. */
function quantumsOf({ columns, sheet }: SiteRecord): (name: Recorded) => number {
  const known = new Map<Recorded, number>();
  return (name) => {
    const before = known.get(name);
    if (before !== undefined) return before;
    const told = sheet.columns.find(({ is }) => is === name)?.quantum;
    const values = columns[name];
    const quantum = told ?? (values ? quantumOf(values) : 0);
    known.set(name, quantum);
    return quantum;
  };
}

/** A clock that was put right by anything but whole steps. */
function isRelaid({ axis, sheet: { clock } }: SiteRecord): boolean {
  const steps = (clock.addedH * 60) / axis.stepMin;
  return clock.driftHPerDay !== 0 || Math.abs(steps - Math.round(steps)) > 0.01;
}

function one(kw: Float64Array | undefined): Float64Array[] | null {
  return kw ? [kw] : null;
}

/**
 * Steps in which no thermostat of the site can be on: what they draw is in no column of load.
 * @returns 1 in those steps, or the columns that are missing to tell
 */
export function steadyOwnUse(view: LogView): { off: Uint8Array } | { lacks: string } {
  const { plant, count } = view;
  const checks: { values: Float64Array; isOff: (value: number) => boolean }[] = [];
  const lacks: string[] = [];
  const need = (name: Recorded, isOff: (value: number) => boolean) => {
    const values = view.column(name);
    if (values) checks.push({ values, isOff });
    else lacks.push(name);
  };
  const { cabinet, generator } = plant;
  if (cabinet && cabinet.heaterKw > 0) need('cellC', (c) => c > cabinet.heaterOffC + SURELY_K);
  if (cabinet && cabinet.coolerKw > 0) need('cabinetC', (c) => c < cabinet.coolerOffC - SURELY_K);
  if (generator && (generator.blockHeaterKw ?? 0) > 0)
    need('outsideC', (c) => c > (generator.blockHeaterBelowC ?? 0) + SURELY_K);
  if (lacks.length > 0) return { lacks: lacks.join(', ') };
  const off = new Uint8Array(count).fill(1);
  for (const { values, isOff } of checks)
    for (let i = 0; i < count; i++) if (!isOff(values[i]) || !isOff(values[Math.max(0, i - 1)])) off[i] = 0;
  return { off };
}

/** Whether steps are too long for what happens within an hour. */
export function hasLongSteps({ hours }: LogView): boolean {
  return hours > LONGEST_STEP_H + 1e-9;
}

/** Names of the columns that are missing among those that an estimate needs. */
export function missing(columns: Record<string, unknown>): string {
  return Object.keys(columns)
    .filter((name) => columns[name] === null)
    .join(', ');
}
