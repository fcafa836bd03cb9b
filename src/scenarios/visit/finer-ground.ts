import type { SiteRecord } from '../log/site-record.ts';
import { shapeWithin } from '../within-step.ts';
import { type VisitGround, visitGround } from './ground.ts';

/**
 * The ground of a visit in the design's own step where the log's is longer: means of a long step hide the peaks that
 * start a generator, so that neither the design nor the log would run as they do. Each reading holds for all of its
 * step, and the load within it has the shape of the designed one, its mean kept (own choice).
 * @returns the ground itself where the log's step is not a multiple of the design's
 */
export function finerGround(files: Parameters<typeof visitGround>[0], ground: VisitGround): VisitGround {
  const { record, site } = ground;
  const { stepMin } = site.period;
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
