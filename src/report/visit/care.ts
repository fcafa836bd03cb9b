import type { Visit } from '../../scenarios/visit/visit.ts';
import { type Html, html } from '../html.ts';

/** In short what the full cautions say: beside everything that a person could act on. */
export function visitCare({ generator, battery, array }: Visit['parts']): Html {
  const dangers = [
    generator ? 'An engine starts by itself, and its exhaust kills in closed rooms.' : '',
    battery ? 'A battery’s terminals are always live.' : '',
    array ? 'Arrays are live in any light.' : '',
  ].filter((danger) => danger !== '');
  return html`<div class="care"><p><strong>Leave looking and setting to licensed people.</strong> ${dangers.join(' ')} What is said here is likely, not certain: it is reckoned from logs, and nobody has been there.</p></div>`;
}
