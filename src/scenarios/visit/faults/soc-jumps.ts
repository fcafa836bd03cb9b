import { medianOf } from '../../middle-values.ts';
import type { VisitGround } from '../ground.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { stepHours } from './log-days.ts';

/** At or above this a meter may set itself right: part of its working. */
const NEAR_FULL = 0.97;
/** Steps whose power moves the charge by so much tell how much it moves it, so many of them at the least. */
const TELLING = { change: 0.008, steps: 30 };
/** Power and charge may belong to steps beside each other, by how a recorder stamps them. */
const LAGS = [0, 1, -1];

export interface Jump {
  step: number;
  /** beyond what the battery's power explains, which is `explained` */
  jump: number;
  explained: number;
}

/** Changes of the shown charge within a step beyond what the power explains; none without both columns. */
export function jumpsOf(ground: VisitGround): Jump[] {
  const { battery } = ground.site;
  const { socFrac: soc, batteryKw } = ground.record.columns;
  if (!battery || !soc || !batteryKw) return [];
  const { leastSize } = FAULT_TERMS['soc-jump'];
  const explained = bestExplained(ground, soc, batteryKw, battery);
  const jumps: Jump[] = [];
  for (let i = 1; i + 1 < soc.length; i++) {
    const change = soc[i] - soc[i - 1];
    const jump = change - explained[i];
    // a reading that is back at once is a reading, not a meter's charge
    const stays = (soc[i + 1] - explained[i + 1] - soc[i - 1] - explained[i]) / jump >= 0.5;
    if (Math.max(soc[i], soc[i - 1]) < NEAR_FULL && Math.abs(jump) >= leastSize && stays)
      jumps.push({ step: i, jump, explained: explained[i] });
  }
  return jumps;
}

type Battery = NonNullable<VisitGround['site']['battery']>;

/** Change of charge by the power of each step, of the lag that leaves least; capacity and losses as the log has them. */
function bestExplained(
  ground: VisitGround,
  soc: Float64Array,
  batteryKw: Float64Array,
  battery: Battery,
): Float64Array {
  const { leastSize } = FAULT_TERMS['soc-jump'];
  let best: Float64Array | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const lag of LAGS) {
    const named = batteryKw.map((_, i) => {
      const kw = batteryKw[i + lag] ?? Number.NaN;
      const stored = kw > 0 ? kw * battery.chargeEfficiency : kw / battery.dischargeEfficiency;
      return (stored * stepHours(ground)) / (battery.modules * battery.moduleKwh);
    });
    const [charging, discharging] = [1, -1].map((sign) => moved(soc, named, sign));
    const explained = named.map((change) => change * (change > 0 ? charging : discharging));
    const left = soc.reduce((sum, value, i) => {
      const off = Math.abs(value - soc[i - 1] - explained[i]);
      return Number.isNaN(off) ? sum : sum + Math.min(off, leastSize);
    }, 0);
    if (best !== null && !(left < least)) continue;
    best = explained;
    least = left;
  }
  return best as Float64Array;
}

/** How much more the charge moves than named, while charging or discharging; 1 where too little tells. */
function moved(soc: Float64Array, named: Float64Array, sign: number): number {
  const ratios: number[] = [];
  for (let i = 1; i < soc.length; i++) {
    const isTold = named[i] * sign >= TELLING.change && Math.max(soc[i], soc[i - 1]) < NEAR_FULL;
    if (isTold && !Number.isNaN(soc[i] - soc[i - 1])) ratios.push((soc[i] - soc[i - 1]) / named[i]);
  }
  return ratios.length >= TELLING.steps ? medianOf(ratios) : 1;
}
