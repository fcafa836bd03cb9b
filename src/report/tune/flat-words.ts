import type { TunedSetting, TuneResult } from '../../scenarios/many/tune-result.ts';
import { brokenWords } from '../limit-words.ts';
import { listed } from '../words.ts';
import { settingValue } from './rule-words.ts';

/** True where every value that fits costs within 1 % and keeps the limits: it does not matter. */
export function isIndifferent({ curve, flat }: TunedSetting): boolean {
  const possible = curve.flatMap(({ cost }, i) => (cost === null ? [] : [i]));
  return possible.every((i) => i >= flat.from && i <= flat.to);
}

/** Values within 1 %: "18 % to 24 %", "only 18 %", "whatever it is". */
export function flatWords(setting: TunedSetting): string {
  const { rule, values, flat } = setting;
  if (isIndifferent(setting)) return 'whatever it is';
  const [from, to] = [values[flat.from], values[flat.to]].map((value) => settingValue(rule, value));
  if (flat.from === flat.to) return `only ${from}`;
  return values[flat.to] === null ? `from ${from} up` : `${from} to ${to}`;
}

/** What ends the stretch at its lower and at its upper end, where a limit does and not the cost. */
export function boundWords(setting: TunedSetting, { limits }: TuneResult): string {
  const { curve, flat } = setting;
  const ends = [
    ['below', flat.from - 1],
    ['above', flat.to + 1],
  ] as const;
  const parts = ends.flatMap(([side, place]) => {
    const broken = curve[place]?.broken ?? [];
    return broken.length > 0 ? [`${side}: ${listed(broken.map((key) => brokenWords(key, limits)))}`] : [];
  });
  return parts.join('; ');
}
