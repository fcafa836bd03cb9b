import type { Estimate } from '../visit.ts';
import { dailyRatio, LEAST_BLOCKS } from './daily-ratio.ts';
import type { LogView } from './log-view.ts';
import { fitted, refused } from './outcome.ts';

/** Measured load over the designed one of the same days of the year. */
export function loadFactor(view: LogView): Estimate {
  const { loadKw, count, ground } = view;
  if (loadKw === null) return refused('loadFactor', 'no-column', 'loadKw');
  const designed = new Float64Array(count);
  for (const phase of ground.designed.loadKw) for (let i = 0; i < count; i++) designed[i] += phase[i];
  const { ratio, days } = dailyRatio(view, loadKw, designed, served(view));
  if (ratio === null)
    return refused('loadFactor', 'too-little', `${days} days, ${LEAST_BLOCKS} weeks needed`);
  const { fromS } = ratio;
  return fitted('loadFactor', ratio, view, { designed: 1, basis: { count: ratio.days, of: 'days' }, fromS });
}

/**
 * 1 where load was not held back: a site that is cut off, or sheds load, has none or less to measure; nor has one
 * without a battery whose engine stands.
 */
function served({ plant, site, loadKw, count, column, running }: LogView): Uint8Array {
  const soc = column('socFrac');
  const { battery } = plant;
  if (battery === null && plant.generator !== null && running !== null)
    return Uint8Array.from(running, (share) => Number(share === 1));
  const counts = new Uint8Array(count).fill(1);
  if (soc === null || battery === null || loadKw === null) return counts;
  const off = battery.cutoffSoc + battery.reconnectSoc + 0.01;
  const shed = site.control.shed?.aboveSoc ?? 0;
  for (let i = 0; i < count; i++) {
    const before = soc[Math.max(0, i - 1)];
    if ((loadKw[i] === 0 && before < off) || before < shed) counts[i] = 0;
  }
  return counts;
}
