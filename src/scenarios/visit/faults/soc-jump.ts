import type { VisitGround } from '../ground.ts';
import { type Detector, fault, unmet } from './detector.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { stepHours, timeOf } from './log-days.ts';

/** At or above this a meter may set itself right: part of its working. */
const NEAR_FULL = 0.97;
/** A battery may hold so much less than named, so that the same power moves its charge by more. */
const SMALLER = 1.5;

/** The shown charge changes within a step by more than any power around it explains. */
export const socJump: Detector = {
  kind: 'soc-jump',
  lacks: ({ site, record }) =>
    unmet([
      [site.battery, 'part-battery'],
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

interface Jump {
  step: number;
  /** beyond what the battery's power explains, which is `explained` */
  jump: number;
  explained: number;
}

function jumpsOf(ground: VisitGround): Jump[] {
  const { site, record } = ground;
  const soc = record.columns.socFrac as Float64Array;
  const kw = record.columns.batteryKw as Float64Array;
  const { leastSize } = FAULT_TERMS['soc-jump'];
  if (!site.battery) return [];
  const { modules, moduleKwh, dischargeEfficiency } = site.battery;
  const perKw = (SMALLER * stepHours(ground)) / (modules * moduleKwh);
  const jumps: Jump[] = [];
  for (let i = 1; i + 1 < soc.length; i++) {
    const near = [kw[i - 1], kw[i], kw[i + 1]];
    const change = soc[i] - soc[i - 1];
    if (Math.max(soc[i], soc[i - 1]) >= NEAR_FULL) continue;
    const most = Math.max(0, ...near) * perKw;
    const least = (Math.min(0, ...near) * perKw) / dischargeEfficiency;
    const explained = Math.min(most, Math.max(least, change));
    const jump = change - explained;
    // a reading that is back at once is a reading, not a meter's charge
    const stays = (soc[i + 1] - soc[i - 1]) / change >= 0.5;
    if (Math.abs(jump) >= leastSize && stays) jumps.push({ step: i, jump, explained });
  }
  return jumps;
}
