import { parseHTML } from 'linkedom';
import { PATTERNS } from '../charts/palette.ts';
import { hasMoney } from '../facts.ts';
import { html, raw } from '../html.ts';
import type { Texts } from '../texts/text.ts';
import { makeView } from '../view.ts';
import { daysPart } from './days.ts';
import { carePart, dutiesPart, wordsPart } from './duties.ts';
import { limitsPart } from './limits.ts';
import { alternativesPart, moneyPart } from './money.ts';
import { noisePart } from './noise.ts';
import { proposedPart, shortPart } from './proposed.ts';
import { type OwnerSource, type OwnerView, yearsOf } from './source.ts';
import { Speaker } from './speak.ts';
import { OWNER_STYLE } from './style.ts';
import { whatIfPart } from './what-if.ts';

/** Language, and how numbers and dates are written. */
export interface Tongue {
  /** BCP 47, such as 'de-AT' */
  locale: string;
  texts: Texts;
}

/**
 * The owner's report: one HTML file in plain words, without scripts, that reads on a phone and prints on four to six
 * pages. The same study and date give the same bytes.
 * @param madeOn yyyy-mm-dd
 */
export function ownerReport(source: OwnerSource, { locale, texts }: Tongue, madeOn: string): string {
  const owner = ownerView(source, new Speaker(texts, locale, source.study.site.currency));
  const { study, speaker, site, proposed } = owner;
  const { made } = study;
  const page = html`<!doctype html>
<html lang="${locale}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${study.site.name}: ${texts.labels.subtitle}</title>
<style>${raw(OWNER_STYLE)}</style>
</head>
<body>
${raw(PATTERNS)}
<main>
<header><h1>${study.site.name}</h1>
<p class="subtitle">${texts.labels.subtitle}</p>
${site.site.invented ? html`<p class="made">${texts.labels.invented}</p>` : null}
${proposed > 0 ? html`<p>${speaker.label('alternativeChosen', { name: study.alternatives[proposed].name })}</p>` : null}</header>
${proposedPart(owner)}${shortPart(owner)}${daysPart(owner)}${noisePart(owner)}${moneyPart(owner)}${alternativesPart(owner)}${whatIfPart(owner)}${limitsPart(owner)}${dutiesPart(owner)}${carePart(owner)}${wordsPart(owner)}
<footer><p>${speaker.label('made', {
    date: speaker.date(madeOn),
    version: html`<code>${made.version}</code>`,
    hash: html`<code>${made.inputsHash}</code>`,
  })}</p></footer>
</main>
</body>
</html>
`;
  return page.html;
}

function ownerView(source: OwnerSource, speaker: Speaker): OwnerView {
  const { study, alternatives, proposed } = source;
  const result = study.alternatives[proposed];
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const shared = { speaker, result, site: alternatives[proposed].site, paper };
  return { ...source, ...shared, view: makeView(study), priced: hasMoney(study), years: yearsOf(result) };
}
