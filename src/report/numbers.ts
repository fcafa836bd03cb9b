/** How figures are written: digits grouped in threes, a true minus sign, a space before the unit. */

export type Kind =
  | 'count'
  | 'hours'
  | 'litres'
  | 'kwh'
  | 'kw'
  | 'share'
  | 'kg'
  | 'cycles'
  | 'years'
  | 'money'
  | 'moneyPerKwh';

const UNITS: Record<Kind, string> = {
  count: '',
  hours: 'h',
  litres: 'L',
  kwh: 'kWh',
  kw: 'kW',
  share: '%',
  kg: 'kg',
  cycles: '',
  years: 'years',
  money: '',
  moneyPerKwh: '',
};

/** What stands where a figure does not exist. */
const NO_FIGURE = '–';

/**
 * Digits after the point that values of one kind are written with when they stand side by side: as few as keep
 * the smallest that is not nothing readable.
 * @param values in the kind's unit (shares as fractions)
 */
export function decimalsFor(kind: Kind, values: readonly (number | null)[]): number {
  if (kind === 'count') return 0;
  if (kind === 'moneyPerKwh') return 2;
  const scale = kind === 'share' ? 100 : 1;
  const sizes = values
    .filter((value) => value !== null && value !== 0)
    .map((value) => Math.abs(value ?? 0) * scale);
  if (sizes.length === 0) return 0;
  const smallest = Math.min(...sizes);
  if (kind === 'money') return Math.max(...sizes) >= 100 ? 0 : 2;
  if (kind === 'share') return smallest >= 0.95 ? 0 : 1;
  if (smallest >= 9.95) return 0;
  return smallest >= 0.095 ? 1 : 2;
}

/**
 * A number in plain digits: 1,204.5 or −3; nothing at all is "0", never "0.0" or "-0".
 * @param value finite; anything else gives a dash
 */
export function digits(value: number, decimals = 0): string {
  if (!Number.isFinite(value)) return NO_FIGURE;
  if (value === 0) return '0';
  const [whole, part] = Math.abs(value).toFixed(decimals).split('.');
  const grouped = whole.length > 3 ? whole.replace(/\B(?=(\d{3})+$)/g, ',') : whole;
  const text = part ? `${grouped}.${part}` : grouped;
  return value < 0 && /[1-9]/.test(text) ? `−${text}` : text;
}

/**
 * A figure with its unit: "1,204 L", "46 %", "AUD 1,900". Something smaller than the last digit shown is "under"
 * that digit, not nothing.
 * @param value in the kind's unit (a share as a fraction); null: there is none
 * @param currency as the site states it, for money
 */
export function figure(kind: Kind, value: number | null, decimals: number, currency = ''): string {
  const number = bareFigure(kind, value, decimals);
  if (number === NO_FIGURE) return number;
  if (number.startsWith('<')) return `under ${withUnit(kind, number.slice(1), currency)}`;
  const sign = number.startsWith('−') ? '−' : '';
  return `${sign}${withUnit(kind, number.slice(sign.length), currency)}`;
}

/** The same without its unit, for a column whose head names it; "<0.01" for what is smaller than can be shown. */
export function bareFigure(kind: Kind, value: number | null, decimals: number): string {
  if (value === null || !Number.isFinite(value)) return NO_FIGURE;
  const scaled = kind === 'share' ? value * 100 : value;
  const least = 10 ** -decimals;
  return scaled !== 0 && Math.abs(scaled) < least / 2
    ? `<${digits(least, decimals)}`
    : digits(scaled, decimals);
}

/** The number that `figure` shows, so that differences agree with what stands beside them. */
export function asShown(kind: Kind, value: number, decimals: number): number {
  const scale = kind === 'share' ? 100 : 1;
  return Number((value * scale).toFixed(decimals)) / scale;
}

/** One figure by itself, with the digits that suit it. */
export function alone(kind: Kind, value: number | null, currency = ''): string {
  return figure(kind, value, decimalsFor(kind, [value]), currency);
}

/** A value that somebody entered, with the digits it has, up to six. */
export function asEntered(value: number): string {
  const decimals = (String(Number(value.toFixed(6))).split('.')[1] ?? '').length;
  return digits(value, Math.min(6, decimals));
}

/** The unit beside a column of figures; money names the currency. */
export function unitOf(kind: Kind, currency: string): string {
  if (kind === 'money') return currency;
  if (kind === 'moneyPerKwh') return `${currency}/kWh`;
  return UNITS[kind];
}

/** A length of time: "40 min", "2 h 15 min", "3.5 days". */
export function duration(hours: number): string {
  const minutes = Math.round(hours * 60);
  if (minutes < 1) return 'under 1 min';
  if (minutes < 60) return `${minutes} min`;
  if (minutes < 48 * 60) {
    const rest = minutes % 60;
    return rest === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${rest} min`;
  }
  return `${digits(hours / 24, hours < 240 ? 1 : 0)} days`;
}

function withUnit(kind: Kind, text: string, currency: string): string {
  if (kind === 'money') return moneyText(text, currency);
  if (kind === 'moneyPerKwh') return `${moneyText(text, currency)}/kWh`;
  return UNITS[kind] === '' ? text : `${text} ${UNITS[kind]}`;
}

/** "$1,900", but "AUD 1,900" and "kr 1,900". */
function moneyText(text: string, currency: string): string {
  return /\p{L}$/u.test(currency) ? `${currency} ${text}` : `${currency}${text}`;
}

/** Puts no-break spaces where a line must not end: between a number and its unit, a currency and its number. */
export function keepUnits(text: string): string {
  return text
    .replace(/(\d) (?=(?:h|L|kWh|kW|kVA|kg|%|min|°C)(?![A-Za-z]))/g, '$1\u00a0')
    .replace(/\b([A-Z]{3}) (?=[\d−])/g, '$1\u00a0');
}
