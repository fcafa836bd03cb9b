import { type Detector, fault, unmet } from './detector.ts';
import { timeOf } from './log-days.ts';
import { jumpsOf } from './soc-jumps.ts';

/** The shown charge changes within a step by more than the battery's power explains. */
export const socJump: Detector = {
  kind: 'soc-jump',
  lacks: ({ site, record }) =>
    unmet([
      [site.battery, 'part: battery'],
      [record.columns.socFrac, 'socFrac'],
      [record.columns.batteryKw, 'batteryKw'],
    ]),
  find(ground) {
    const jumps = jumpsOf(ground);
    if (jumps.length === 0) return [];
    const [largest] = [...jumps].sort((a, b) => Math.abs(b.jump) - Math.abs(a.jump));
    const last = jumps[jumps.length - 1];
    return [
      fault({
        ...{ kind: 'soc-jump', part: null, size: largest.jump },
        ...{ fromS: timeOf(ground, jumps[0].step), toS: timeOf(ground, last.step + 1) },
        evidence: {
          jumps: jumps.length,
          largest: largest.jump,
          largestAtS: timeOf(ground, largest.step),
          explained: largest.explained,
        },
      }),
    ];
  },
};
