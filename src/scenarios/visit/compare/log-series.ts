import type { Recorded, SiteRecord } from '../../log/site-record.ts';
import type { Site } from '../../site-schema.ts';
import { sumOfColumns } from '../../sum-columns.ts';

/** What of a log is compared, NaN where it is not known; null where the log has it not, or in too few steps. */
export interface LogSeries {
  /** all phases together, and by phase where each was logged [kW] */
  loadKw: Float64Array | null;
  phasesKw: Float64Array[] | null;
  /** what the arrays gave together [kW] */
  arrayKw: Float64Array | null;
  generatorKw: Float64Array | null;
  /** 1 in steps in which the engine ran at all, 0 in the others */
  on: Float64Array | null;
  /** share of each step in which it ran, where the log has its running contact; null: only whole steps are known */
  onShare: Float64Array | null;
  /** by its power alone it runs from here on [kW]; null: by its running contact */
  onAboveKw: number | null;
  socFrac: Float64Array | null;
  /** 1 in steps in which everything is known that the log has of the above */
  known: Uint8Array;
  /** share of such steps */
  coverage: number;
}

/** A column with fewer values than this share of the fullest one would leave too little to compare: left out. */
const LEAST_SHARE = 0.5;
/** An engine gives at least this share of its rating when it is seen by its power alone. */
const RUNS_ABOVE_FRAC = 0.02;

/** The series of a log that are compared with a run. */
export function logSeries({ axis, columns, arraysKw }: SiteRecord, site: Site): LogSeries {
  const phases = (['load1Kw', 'load2Kw', 'load3Kw'] as const).slice(0, site.inverter.phases);
  const phasesKw = all(phases.map((name: Recorded) => columns[name]));
  const arrays = all(site.arrays.map(({ name }) => arraysKw[name]));
  const leastKw = RUNS_ABOVE_FRAC * (site.generator?.ratedKw ?? 0);
  const byContact = columns.generatorOn && knownIn(columns.generatorOn) > 0 ? columns.generatorOn : null;
  const found = {
    loadKw: columns.loadKw ?? (phasesKw && sumOfColumns(phasesKw)),
    arrayKw: columns.arrayKw ?? (arrays && sumOfColumns(arrays)),
    generatorKw: columns.generatorKw ?? null,
    on: byContact
      ? flagged(byContact, 0)
      : columns.generatorKw
        ? flagged(columns.generatorKw, leastKw)
        : null,
    socFrac: columns.socFrac ?? null,
  };
  const counts = Object.values(found).map((series) => (series ? knownIn(series) : 0));
  const enough = (series: Float64Array | null) =>
    series && knownIn(series) >= LEAST_SHARE * Math.max(...counts, 1) ? series : null;
  const kept = {
    loadKw: enough(found.loadKw),
    arrayKw: enough(found.arrayKw),
    generatorKw: enough(found.generatorKw),
    on: enough(found.on),
    socFrac: enough(found.socFrac),
  };
  const series = Object.values(kept).filter((one) => one !== null);
  const known = Uint8Array.from({ length: axis.count }, (_, i) =>
    Number(series.length > 0 && series.every((one) => !Number.isNaN(one[i]))),
  );
  const coverage = axis.count > 0 ? known.reduce((total, one) => total + one, 0) / axis.count : 0;
  const onShare = kept.on && byContact;
  return { ...kept, onShare, onAboveKw: byContact ? null : leastKw, phasesKw, known, coverage };
}

/** All of some series; null where one is missing, or where there are none. */
function all(series: readonly (Float64Array | undefined)[]): Float64Array[] | null {
  const there = series.filter((one) => one !== undefined);
  return there.length > 0 && there.length === series.length ? there : null;
}

function flagged(values: Float64Array, above: number): Float64Array {
  return values.map((value) => (Number.isNaN(value) ? value : Number(value > above)));
}

function knownIn(values: Float64Array): number {
  return values.reduce((count, value) => count + Number(!Number.isNaN(value)), 0);
}
