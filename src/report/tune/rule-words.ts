import type { Rule, Setting } from '../../scenarios/many/settings.ts';
import { asEntered } from '../numbers.ts';

/** How a rule is called, and the unit of its number. */
const RULE_WORDS: Record<Rule, { name: string; unit: 'share' | 'min' | 's' | 'kW'; none: string }> = {
  startSoc: { name: 'start at', unit: 'share', none: '' },
  stopSoc: { name: 'stop at', unit: 'share', none: '' },
  chargeDelayMin: { name: 'start after', unit: 'min', none: '' },
  chargeTargetKw: { name: 'output that charging aims at', unit: 'kW', none: 'as much as it can' },
  minRunMin: { name: 'minimum run', unit: 'min', none: '' },
  peakStartKw: { name: 'peak start, per phase', unit: 'kW', none: 'only what the inverters cannot carry' },
  peakStopKw: { name: 'peak stop, per phase', unit: 'kW', none: '' },
  peakDelayS: { name: 'peak start after', unit: 's', none: '' },
  peakHoldMin: { name: 'peak stop after', unit: 'min', none: '' },
};

/** "start at", "start at in winter". */
export function settingName({ rule, season }: Pick<Setting, 'rule' | 'season'>): string {
  return `${RULE_WORDS[rule].name}${season ? `, ${season.name}` : ''}`;
}

/** A value with its unit: "30 %", "45 min", "as much as it can". */
export function settingValue(rule: Rule, value: number | null): string {
  const { unit, none } = RULE_WORDS[rule];
  if (value === null) return none;
  return unit === 'share' ? `${asEntered(100 * value)} %` : `${asEntered(value)} ${unit}`;
}

/** The same for an axis whose label names the unit. */
export function bareValue(rule: Rule, value: number | null): string {
  if (value === null) return 'none';
  return asEntered(RULE_WORDS[rule].unit === 'share' ? 100 * value : value);
}

export function axisUnit(rule: Rule): string {
  const { unit } = RULE_WORDS[rule];
  return unit === 'share' ? '%' : unit;
}
