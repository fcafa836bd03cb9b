import { type SiteChanges, valueOfPath } from '../apply-changes.ts';
import type { Outcome } from '../many/outcome.ts';
import { chooseRules } from '../many/tune.ts';
import { calibration, holdingAt, isOff, type Known } from './calibrate.ts';
import type { Compared } from './compare/compare.ts';
import type { VisitGround } from './ground.ts';
import { LogRunner } from './log-runner.ts';
import type { Estimate, Range, Retune } from './visit.ts';

export interface RetuneRequest {
  ground: VisitGround;
  compared: Compared;
  estimates: readonly Estimate[];
  /** so many runs for the search */
  mostRuns?: number;
  /** told what is being done; may throw to stop */
  onProgress?: (doing: string, runs: number) => void;
}

/** A shorter log has too few seasons in it to set a site by [days] (own choice). */
const LEAST_DAYS = 60;
/** What is not explained of the generator's energy, or hours, beyond which the plant counts as not calibrated. */
const MOST_UNEXPLAINED = 0.15;
/** Settings are changed for at least this share of the fuel, or of the hours (own choice). */
const LEAST_FUEL_SHARE = 0.02;
const LEAST_HOURS_SHARE = 0.05;
const DAYS_A_MONTH = 30.44;
const USUAL_RUNS = 240;

const NOTHING: Range = { value: 0, low: 0, high: 0 };
/** 'Change nothing', or why no settings could be tried. */
export function unchanged(why: Exclude<Retune['why'], 'found'>): Retune {
  return { changes: null, why, litresAMonth: NOTHING, hoursAMonth: NOTHING, startsAMonth: NOTHING };
}

/**
 * Settings that cost least with the plant as the log shows it, over the load and weather of the log; what they save a
 * month, with the range that the estimates leave. Nothing is to be changed where nothing is saved beyond that range,
 * or too little to be worth a visit.
 */
export async function retune(request: RetuneRequest): Promise<Retune> {
  const { ground, compared, estimates, onProgress } = request;
  const { axis } = ground.record;
  const days = (axis.count * axis.stepMin) / 1440;
  if (ground.site.generator === null) return unchanged('no-generator');
  if (days < LEAST_DAYS) return unchanged('too-short');
  if (!isCalibrated(compared)) return unchanged('not-calibrated');
  const held = holdingAt(estimates, axis.startS + axis.count * axis.stepMin * 60 - 1);
  const base = withEstimates(ground, compared.always, held.filter(isOff));
  const calibrated = ground.filed.variant(base);
  if (Array.isArray(calibrated)) return unchanged('not-calibrated');
  const runner = new LogRunner(ground, compared.calibratedInputs);
  const chosen = await chooseRules({
    site: { ...calibrated, period: { ...calibrated.period, days } },
    ...{ base: {}, evaluate: runner.evaluator(base), stepMin: axis.stepMin },
    ...{ rules: null, seasons: [], limits: {}, mostRuns: request.mostRuns ?? USUAL_RUNS },
    onProgress,
  });
  if (chosen === null || Object.keys(chosen.changes).length === 0) return unchanged('nothing-better');
  onProgress?.('the chosen settings at the ends of the estimates', 0);
  const saved = savedOver(request, runner, held, chosen.changes, days);
  if (saved === null || !isWorthIt(saved, chosen.today)) return unchanged('nothing-better');
  const changes = Object.entries(chosen.changes).map(([path, to]) => ({
    ...{ path, to },
    from: valueOfPath(calibrated, path) ?? null,
  }));
  return { changes, why: 'found', ...saved };
}

/** The load was measured, and what is left unexplained is small. */
function isCalibrated({ comparison }: Compared): boolean {
  const { ran, calibrated } = comparison;
  if (ran.loadKwh === null) return false;
  const key = ran.generatorKwh !== null ? 'generatorKwh' : 'runH';
  const [is, should] = [ran[key], calibrated[key]];
  return is !== null && should !== null && Math.abs(is - should) <= MOST_UNEXPLAINED * Math.max(is, should);
}

function withEstimates({ site }: VisitGround, always: SiteChanges, put: readonly Known[]): SiteChanges {
  return { ...always, ...Object.assign({}, ...Object.values(calibration(put, site, site))) };
}

type Saved = Pick<Retune, 'litresAMonth' | 'hoursAMonth' | 'startsAMonth'>;

/**
 * What changes save, by the plant as calibrated and with one estimate after another at either end of its interval:
 * the deviations, taken as independent, are added in quadrature. Null where the plant cannot be run.
 */
function savedOver(
  { ground, compared }: RetuneRequest,
  runner: LogRunner,
  held: readonly Known[],
  changes: SiteChanges,
  days: number,
): Saved | null {
  const put = held.filter(isOff);
  const saved = (estimates: readonly Known[], arrayTimes: number): number[] | null => {
    const base = withEstimates(ground, compared.always, estimates);
    const today = runner.run(base, undefined, arrayTimes);
    const then = runner.run({ ...base, ...changes }, undefined, arrayTimes);
    if (Array.isArray(today) || Array.isArray(then)) return null;
    const aMonth = DAYS_A_MONTH / days;
    return SAVED.map((key) => (today[key] - then[key]) * aMonth);
  };
  const best = saved(put, 1);
  if (best === null) return null;
  const below = SAVED.map(() => 0);
  const above = SAVED.map(() => 0);
  for (const one of held) {
    const ends = [one.low, one.high].map((value) => {
      if (one.key === 'arrayFactor') return saved(put, value / (isOff(one) ? one.value : 1));
      const others = put.filter(({ key }) => key !== one.key);
      return Object.keys(calibration([one], ground.site, ground.site)).length > 0
        ? saved([...others, { ...one, value }], 1)
        : null;
    });
    for (const k of SAVED.keys()) {
      const apart = ends.map((end) => (end === null ? 0 : end[k] - best[k]));
      below[k] += Math.min(0, ...apart) ** 2;
      above[k] += Math.max(0, ...apart) ** 2;
    }
  }
  const [litresAMonth, hoursAMonth, startsAMonth] = best.map(
    (value, k): Range => ({ value, low: value - Math.sqrt(below[k]), high: value + Math.sqrt(above[k]) }),
  );
  return { litresAMonth, hoursAMonth, startsAMonth };
}

const SAVED = ['fuelL', 'runH', 'starts'] as const satisfies readonly (keyof Outcome)[];

/** @param today sums by the year */
function isWorthIt({ litresAMonth, hoursAMonth }: Saved, today: Pick<Outcome, 'fuelL' | 'runH'>): boolean {
  const ofMonth = (sum: number) => (sum / 365) * DAYS_A_MONTH;
  const bySaving = (range: Range, sum: number, share: number) =>
    range.low > 0 && range.value >= share * ofMonth(sum);
  const fuel = bySaving(litresAMonth, today.fuelL, LEAST_FUEL_SHARE);
  // fewer hours are worth something where they cost no fuel
  return fuel || (litresAMonth.low >= 0 && bySaving(hoursAMonth, today.runH, LEAST_HOURS_SHARE));
}
