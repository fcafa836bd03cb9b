import type { Issue } from '../issue.ts';
import type { SiteRecord } from '../log/site-record.ts';
import type { Site } from '../site-schema.ts';
import { shapeWithin } from '../within-step.ts';
import { coarserInputs } from './coarser-inputs.ts';
import { runLog } from './compare/run-log.ts';
import { type VisitGround, visitGround } from './ground.ts';

/** Where peaks of the load start the engine they do so within a minute or less, whatever the design's step [min]. */
const PEAK_STEP_MIN = 1;

/** The step in which a site runs as its engine does [min]. */
function runStepMin({ control, period }: Site): number {
  return control.peak !== null ? PEAK_STEP_MIN : period.stepMin;
}

/**
 * The ground of a visit in the design's own step, or in minutes where peaks start the engine, where the log's is
 * longer: means of a long step hide those peaks, so that neither the design nor the log would run as they do. Each
 * reading holds for all of its step, and the load within it has the shape of the designed one, its mean kept (own
 * choice).
 * @returns the ground itself where the log's step is not a multiple of that
 */
export function finerGround(files: Parameters<typeof visitGround>[0], ground: VisitGround): VisitGround {
  const { record, site } = ground;
  const stepMin = runStepMin(site);
  const per = record.axis.stepMin / stepMin;
  if (!(per > 1 && Number.isInteger(per))) return ground;
  const axis = { ...record.axis, stepMin, count: record.axis.count * per };
  const held = <Kept extends Record<string, Float64Array>>(columns: Kept) =>
    Object.fromEntries(
      Object.entries(columns).map(([name, values]) => [
        name,
        Float64Array.from({ length: axis.count }, (_, i) => values[Math.floor(i / per)]),
      ]),
    ) as Kept;
  const columns = held(record.columns as Record<string, Float64Array>) as SiteRecord['columns'];
  const finer = visitGround(files, { ...record, axis, columns, arraysKw: held(record.arraysKw) }).ground;
  if (finer === null) throw new Error('the log was laid on its own axis, and cannot be on a finer one');
  const { loadKw } = finer.designed;
  const whole = loadKw[0].map((_, i) => loadKw.reduce((sum, phase) => sum + phase[i], 0));
  const unlimited = new Float64Array(axis.count).fill(Number.POSITIVE_INFINITY);
  const weights = { loadKw: whole, load1Kw: loadKw[0], load2Kw: loadKw[1], load3Kw: loadKw[2] };
  for (const name of ['loadKw', 'load1Kw', 'load2Kw', 'load3Kw'] as const) {
    const flat = columns[name];
    if (flat && weights[name]) columns[name] = shapeWithin(flat, per, weights[name], unlimited);
  }
  return finer;
}

/** From so much more or less fuel on, it is told what the design's own step hides (own choice). */
const HIDDEN_TOLD = 0.03;

/** What a design promises otherwise in its own steps than in minutes: its owner was told that. */
export function hiddenPeaks(ground: VisitGround): Issue[] {
  const { site, record, designed, filed } = ground;
  const { stepMin } = site.period;
  const isInMinutes = site.control.peak !== null && record.axis.stepMin === PEAK_STEP_MIN;
  if (!isInMinutes || stepMin === PEAK_STEP_MIN) return [];
  const litres = (inputs: typeof designed) =>
    runLog(ground, inputs, [{ from: 0, to: inputs.count, changes: {} }]).run.fuelL;
  const [own, here] = [litres(coarserInputs(designed, stepMin)), litres(designed)];
  if (Math.abs(here - own) < HIDDEN_TOLD * Math.max(here, own)) return [];
  return [
    {
      severity: 'doubt',
      code: 'hidden-peaks',
      path: 'period.stepMin',
      got: `steps of ${stepMin} min, in which the design burns ${own.toFixed(0)} L over the days of the log`,
      want: `${PEAK_STEP_MIN}: peaks of the load start this generator; in minutes, in which it is run here, the same design burns ${here.toFixed(0)} L`,
      at: filed.placeOf(['period', 'stepMin']),
    },
  ];
}
