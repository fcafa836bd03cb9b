import type { Fault } from '../visit.ts';
import { type Detector, fault, unmet } from './detector.ts';
import { findLeak } from './fuel-leak.ts';
import { engineRan, timeOf } from './log-days.ts';
import { standingLevels } from './standing-levels.ts';

/** The level in the tank falls with the engine stopped: slowly, or at once. */
export const fuelLoss: Detector = {
  kind: 'fuel-loss',
  lacks: (ground) =>
    unmet([
      [ground.site.tank, 'part: tank'],
      [ground.record.columns.fuelL, 'fuelL'],
      [engineRan(ground), 'the engine running'],
    ]),
  find(ground) {
    const { stretches, drops, noiseL } = standingLevels(ground);
    if (stretches.length === 0) return 'enough days';
    const faults: Fault[] = drops.map(({ step, litres }) =>
      fault({
        ...{ kind: 'fuel-loss', part: null, size: litres, unit: 'L' },
        ...{ fromS: timeOf(ground, step), toS: timeOf(ground, step + 1) },
        evidence: { atOnceL: litres, noiseL },
      }),
    );
    return [...faults, ...findLeak(ground, stretches, noiseL)];
  },
};
