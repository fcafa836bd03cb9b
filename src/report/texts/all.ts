import { DE } from './de.ts';
import { EN } from './en.ts';
import type { Texts } from './text.ts';

/** The languages of the owner's report, by their ISO 639 code. */
export const LANGUAGES: Record<string, Texts> = { en: EN, de: DE };

/** The texts of a locale such as 'de-AT'; null where its language is missing. */
export function textsOf(locale: string): Texts | null {
  return LANGUAGES[locale.split('-')[0].toLowerCase()] ?? null;
}
