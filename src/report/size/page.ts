import { parseHTML } from 'linkedom';
import type { SizeResult } from '../../scenarios/many/size-result.ts';
import { html } from '../html.ts';
import { cautions } from '../page/cautions.ts';
import { sheet } from '../page/sheet.ts';
import { alongFrontier, basis, beside, fuelFrontier, moneyFrontier } from './parts.ts';
import { sizeSentences } from './sentences.ts';

/** The page of a search for sizes: one HTML file that opens from disk and prints; the same result, the same bytes. */
export function sizePage(result: SizeResult): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { site, made, stepMin, alternative, years, days } = result;
  const period = days === 365 ? 'a year' : `${days} days, taken as a share of a year`;
  return sheet({
    ...{ site, alternative, made, stepMin },
    kind: 'size',
    how: `${period} in steps of ${stepMin} min, cost over ${years} years`,
    question: 'How large should generator, battery, inverters and arrays be, and what does more of each buy?',
    title: 'how large each part should be',
    contents: [
      { id: 'answer', text: 'In short' },
      { id: 'money', text: 'Capital against yearly cost' },
      { id: 'fuel', text: 'Fuel against unserved energy' },
      { id: 'beside', text: 'Your choice and the cheapest' },
      { id: 'care', text: 'Before anyone builds or touches anything' },
      { id: 'along', text: 'The choices in numbers' },
      { id: 'basis', text: 'What the figures rest on' },
    ],
    main: html`<section id="answer"><h2>In short</h2>${sizeSentences(result).map((sentence) => html`<p>${sentence}</p>`)}</section>
${moneyFrontier(result, paper)}${fuelFrontier(result, paper)}${beside(result)}
${cautions({ battery: true, array: true, generator: result.own.size.generatorKw !== null })}
${alongFrontier(result)}${basis(result)}`,
  });
}
