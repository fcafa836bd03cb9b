import type { Texts, UnitKey } from '../texts/text.ts';

/** What a figure measures. Shares are fractions, lengths of time hours, prices by the litre. */
export type FactKind = UnitKey | 'share' | 'money' | 'moneyPerLitre' | 'length' | 'plain';

/** US gallon, exactly 231 cubic inches: NIST Handbook 44, appendix C (from memory) [L]. */
const L_PER_GALLON = 3.785411784;

/** Writes quantities as a locale has them: digits, decimal sign, currency, and the word after the number. */
export class QuantityWriter {
  private readonly plurals: Intl.PluralRules;
  private readonly inGallons: boolean;

  /**
   * @param locale BCP 47, such as 'de-AT'; @param currency as the site states it: an ISO 4217 code or a sign
   */
  constructor(
    readonly texts: Texts,
    readonly locale: string,
    private readonly currency: string,
  ) {
    this.plurals = new Intl.PluralRules(locale);
    this.inGallons = /-US\b/.test(locale);
  }

  /** "1,204 litres", "46 %", "AUD 1,900", "2 hours 15 minutes"; what is too small to show is "under" the least shown. */
  write(kind: FactKind, value: number): string {
    if (!Number.isFinite(value)) throw new Error(`no figure to write: ${kind} ${value}`);
    if (kind === 'length') return this.length(value);
    if (kind === 'litres' && this.inGallons) return this.write('gallons', value / L_PER_GALLON);
    if (kind === 'moneyPerLitre') return this.price(value);
    const decimals = decimalsOf(kind, value);
    const scaled = kind === 'share' ? value * 100 : value;
    const least = 10 ** -decimals;
    const tooSmall = scaled !== 0 && Math.abs(scaled) < least / 2;
    const text = this.withUnit(kind, tooSmall ? least : scaled, decimals);
    return tooSmall ? fillText(this.texts.under, { figure: text }) : text;
  }

  /** A number alone, for axes and columns whose head names the unit. */
  bare(value: number, decimals: number): string {
    const format = new Intl.NumberFormat(this.locale, {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
    });
    return format.format(value === 0 ? 0 : value).replace('-', '−');
  }

  private withUnit(kind: FactKind, value: number, decimals: number): string {
    if (kind === 'money') return this.money(value, decimals);
    const number = this.bare(value, value === 0 ? 0 : decimals);
    if (kind === 'share') return `${number}\u00a0%`;
    if (kind === 'plain' || kind === 'length' || kind === 'moneyPerLitre') return number;
    const forms = this.texts.units[kind];
    const rounded = Math.abs(Number(value.toFixed(decimals)));
    // a number written with decimals may take another form than the whole number: "1.0 hours"
    const shown = new Intl.PluralRules(this.locale, {
      minimumFractionDigits: value === 0 ? 0 : decimals,
    }).select(rounded);
    const rule = decimals > 0 ? shown : this.plurals.select(rounded);
    return `${number}\u00a0${forms[rule] ?? forms.other}`;
  }

  /** Where the locale puts its currencies; the sign or code is the site's. */
  private money(value: number, decimals: number): string {
    const isCode = /^[A-Z]{3}$/.test(this.currency);
    const parts = new Intl.NumberFormat(this.locale, {
      style: 'currency',
      currency: isCode ? this.currency : 'USD',
      currencyDisplay: isCode || /\p{L}$/u.test(this.currency) ? 'code' : 'narrowSymbol',
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
    }).formatToParts(value === 0 ? 0 : value);
    const text = parts.map((part) => (part.type === 'currency' ? this.currency : part.value)).join('');
    return text.replace('-', '−').replace(/ /g, '\u00a0');
  }

  private price(perLitre: number): string {
    const { perLitre: each, perGallon } = this.texts;
    const money = this.money(this.inGallons ? perLitre * L_PER_GALLON : perLitre, 2);
    return fillText(this.inGallons ? perGallon : each, { money });
  }

  private length(hours: number): string {
    const minutes = Math.round(hours * 60);
    if (minutes < 1) return fillText(this.texts.under, { figure: this.write('minutes', 1) });
    if (minutes < 60) return this.write('minutes', minutes);
    if (minutes >= 48 * 60) return this.write('days', hours / 24);
    const whole = this.write('hours', Math.floor(minutes / 60));
    return minutes % 60 === 0 ? whole : `${whole} ${this.write('minutes', minutes % 60)}`;
  }
}

/** Kinds of which there are only whole ones; written with a decimal where a year has few of them. */
const COUNTS: readonly FactKind[] = ['times', 'runs', 'modules', 'deliveries', 'services', 'plain'];

/** As few digits as keep a figure readable: whole numbers from ten on, money too. */
function decimalsOf(kind: FactKind, value: number): number {
  const size = Math.abs(kind === 'share' ? value * 100 : value);
  if (size === 0) return 0;
  if (kind === 'money') return size >= 9.995 ? 0 : 2;
  if (kind === 'share') return size >= 0.95 ? 0 : 1;
  const decimals = size >= 9.95 ? 0 : size >= 0.095 || COUNTS.includes(kind) ? 1 : 2;
  // "5 hours", not "5.0 hours"
  const shown = Number(size.toFixed(decimals));
  return shown > 0 && Number.isInteger(shown) ? 0 : decimals;
}

/** Puts values in place of `{name}`. Errors: throws on a name without a value: texts and code must agree. */
function fillText(template: string, values: Record<string, string>): string {
  return template.replace(/\{(\w+)\}/g, (_, name: string) => {
    if (!(name in values)) throw new Error(`no value for {${name}} in "${template}"`);
    return values[name];
  });
}
