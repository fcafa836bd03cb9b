import { type Html, html, raw } from '../html.ts';
import type { LabelKey, SentenceKey, Texts } from '../texts/text.ts';
import { type FactKind, QuantityWriter } from './quantity.ts';

/** One figure of the report, and where it comes from: the key under which a test finds it in the run again. */
export interface Fact {
  key: string;
  kind: FactKind;
  value: number;
}

export function fact(key: string, kind: FactKind, value: number): Fact {
  return { key, kind, value };
}

/** What may stand in the place of `{name}`. */
export type Filling = Fact | Html | string;

/**
 * Speaks a language: sentences from texts, figures and dates. Every figure is put into the page as `<data>` with its
 * key and its value as it was worked out, every date as `<time>`: a test finds each of them in the run again.
 */
export class Speaker {
  readonly write: QuantityWriter;

  constructor(
    readonly texts: Texts,
    readonly locale: string,
    readonly currency: string,
  ) {
    this.write = new QuantityWriter(texts, locale, currency);
  }

  fact({ key, kind, value }: Fact): Html {
    return html`<data class="figure" data-fact="${key}" data-kind="${kind}" value="${String(value)}">${this.write.write(kind, value)}</data>`;
  }

  say(key: SentenceKey, values: Record<string, Filling> = {}): Html {
    return this.fill(this.texts.sentences[key], values);
  }

  label(key: LabelKey, values: Record<string, Filling> = {}): Html {
    return this.fill(this.texts.labels[key], values);
  }

  /** "a", "a and b", "a, b and c" */
  list(items: readonly Html[]): Html {
    if (items.length < 2) return items[0] ?? raw('');
    const head = items.slice(0, -1).map((item, i) => html`${i > 0 ? ', ' : ''}${item}`);
    return this.fill(this.texts.and, { first: html`${head}`, last: items[items.length - 1] });
  }

  /** "12 January", of local time counted as if it were UTC [ms]. */
  day(ms: number): Html {
    const text = new Intl.DateTimeFormat(this.locale, { day: 'numeric', month: 'long', timeZone: 'UTC' });
    return html`<time class="nobreak" datetime="${new Date(ms).toISOString().slice(0, 10)}">${text.format(ms)}</time>`;
  }

  /** "Mon 12", for the axis of a drawing. */
  shortDay(ms: number): string {
    const text = new Intl.DateTimeFormat(this.locale, {
      weekday: 'short',
      day: 'numeric',
      timeZone: 'UTC',
    });
    return text.format(ms);
  }

  /** "12 January 2026" of yyyy-mm-dd */
  date(day: string): Html {
    const text = new Intl.DateTimeFormat(this.locale, { dateStyle: 'long', timeZone: 'UTC' });
    return html`<time datetime="${day}">${text.format(Date.parse(`${day}T00:00Z`))}</time>`;
  }

  /** @param month 0 is January */
  month(month: number, style: 'long' | 'short' | 'narrow' = 'long'): string {
    const text = new Intl.DateTimeFormat(this.locale, { month: style, timeZone: 'UTC' });
    return text.format(Date.UTC(2025, month, 15));
  }

  /** A time of day that somebody set. */
  clock(time: string): Html {
    return html`<time class="nobreak">${time}</time>`;
  }

  private fill(template: string, values: Record<string, Filling>): Html {
    const parts = template.split(/\{(\w+)\}/);
    return html`${parts.map((part, i) => (i % 2 === 0 ? part : this.filling(part, values, template)))}`;
  }

  private filling(name: string, values: Record<string, Filling>, template: string): Html | string {
    const value = values[name];
    if (value === undefined) throw new Error(`no value for {${name}} in "${template}"`);
    if (typeof value === 'object' && 'kind' in value) return this.fact(value);
    return value;
  }
}
