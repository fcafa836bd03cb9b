import { parseHTML } from 'linkedom';
import type { TuneResult } from '../../scenarios/many/tune-result.ts';
import { html } from '../html.ts';
import { cautions } from '../page/cautions.ts';
import { sheet } from '../page/sheet.ts';
import { basis, figures, howFlat, whatToSet } from './parts.ts';
import { tuneSentences } from './sentences.ts';

/** The page of a search for settings: one HTML file that opens from disk and prints; the same result, the same bytes. */
export function tunePage(result: TuneResult): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { site, made, stepMin, alternative, years, days } = result;
  const period = days === 365 ? 'a year' : `${days} days, taken as a share of a year`;
  return sheet({
    ...{ site, alternative, made, stepMin },
    kind: 'tune',
    how: `${period} in steps of ${stepMin} min, cost over ${years} years`,
    question: 'Where should the generator start and stop, and how much does it matter?',
    title: 'where the generator should start and stop',
    contents: [
      { id: 'answer', text: 'In short' },
      { id: 'set', text: 'What to set' },
      { id: 'care', text: 'Before anyone builds or touches anything' },
      { id: 'flat', text: 'How much it matters' },
      { id: 'figures', text: 'What it changes' },
      { id: 'basis', text: 'What the figures rest on' },
    ],
    main: html`<section id="answer"><h2>In short</h2>${tuneSentences(result).map((sentence) => html`<p>${sentence}</p>`)}</section>
${whatToSet(result)}${cautions({ battery: result.chosen.minSoc !== null, array: true, generator: true })}
${howFlat(result, paper)}${figures(result)}${basis(result)}`,
  });
}
