import type { VisitGround } from '../ground.ts';
import { engineRan } from './log-days.ts';

/** Stretches of steps in all of which the engine ran (or stood), as it is known; empty without a column. */
export function engineStretches(ground: VisitGround, running: 0 | 1): { from: number; to: number }[] {
  const ran = engineRan(ground);
  const stretches: { from: number; to: number }[] = [];
  let from = -1;
  for (let i = 0; i <= (ran?.length ?? -1); i++) {
    const is = i < (ran?.length ?? 0) && ran?.[i] === running;
    if (is && from < 0) from = i;
    if (!is && from >= 0) {
      stretches.push({ from, to: i });
      from = -1;
    }
  }
  return stretches;
}
