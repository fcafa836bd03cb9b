import { isXml } from './greenbutton-feed.ts';

/** The clock that a file names in its LocalTimeParameters, in words. */
export function clockText(local: unknown): string {
  if (!isXml(local)) return '';
  const hours = Number(local.tzOffset) / 3600;
  const dst =
    Number(local.dstOffset) > 0
      ? `, summer time from ${ruleText(local.dstStartRule)} to ${ruleText(local.dstEndRule)}`
      : '';
  return `; local standard time UTC${hours >= 0 ? '+' : ''}${hours}${dst}`;
}

const WEEKDAYS = ['', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];
const WHICH: Record<number, string> = {
  1: 'on or after',
  2: 'first',
  3: 'second',
  4: 'third',
  5: 'fourth',
  7: 'last',
};

/**
 * A rule of summer time: 32 bits in hex, of which second 0-11, hour 12-16, weekday 17-19, day 20-24, operator 25-27,
 * month 28-31.
 * Source: NAESB REQ.21, espi.xsd 4.0, DstRuleType.
 */
export function ruleText(hex: unknown): string {
  const bits = Number.parseInt(String(hex), 16);
  if (Number.isNaN(bits)) return String(hex);
  const part = (from: number, width: number) => Math.floor(bits / 2 ** from) % 2 ** width;
  return `${WHICH[part(25, 3)] ?? '?'} ${WEEKDAYS[part(17, 3)] ?? '?'} of month ${part(28, 4)}, ${String(part(12, 5)).padStart(2, '0')}:00`;
}
