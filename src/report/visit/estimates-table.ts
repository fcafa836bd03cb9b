import type { Visit } from '../../scenarios/visit/visit.ts';
import { intervalChart } from '../charts/interval.ts';
import { GENERATOR, LOAD } from '../charts/palette.ts';
import { type Html, html, raw } from '../html.ts';
import { digits } from '../numbers.ts';
import { keyList, scrollable } from '../page/figure-box.ts';
import { small } from '../words.ts';
import {
  basisWords,
  estimateName,
  estimateTexts,
  estimateUnit,
  isKnown,
  type Known,
  refusalWords,
} from './estimate-words.ts';
import { isMaterial } from './material.ts';

/** The scale of all drawings reaches so far from the designed value, at least and at most [share of it]. */
const LEAST_SPAN = 0.1;
const MOST_SPAN = 0.5;

/** What was estimated, with intervals, beside what was designed. */
export function estimatesTable(visit: Visit, paper: Document): Html {
  const known = visit.estimates.filter(isKnown);
  if (known.length === 0)
    return html`<h3>What the plant is, by the log</h3><p>Nothing could be estimated.</p>`;
  const span = spanOf(known);
  return html`<h3>What the plant is, by the log</h3>
${keyList([
  { fill: GENERATOR, text: '90 % interval without the designed value, 2 % or more from it' },
  { fill: LOAD, text: 'one that holds it, or less than 2 % from it' },
])}
${scrollable(
  'Estimates with their intervals',
  html`<table class="compact"><thead><tr><th scope="col">Of the plant</th><th scope="col">Estimated</th><th scope="col">90 % interval</th><th scope="col">Designed</th><th scope="col" class="text">Unit</th><th scope="col">−${digits(100 * span)} % designed +${digits(100 * span)} %</th><th scope="col" class="text">Rests on</th></tr></thead><tbody>${known.map((each) => row(each, visit, span, paper))}</tbody></table>`,
)}
`;
}

function row(known: Known, visit: Visit, span: number, paper: Document): Html {
  const { value, low, high, designed } = estimateTexts(known);
  const name = estimateName(known.key);
  return html`<tr${isMaterial(known) ? html` class="apart"` : null}><th scope="row" class="nobreak">${name}</th><td>${value}</td><td class="nobreak">${low} to ${high}</td><td>${designed}</td><td class="text">${estimateUnit(known.key)}</td><td class="drawing">${drawing(known, span, `${name}: ${value}, ${low} to ${high}, designed ${designed} ${estimateUnit(known.key)}`, paper)}</td><td class="text nobreak">${basisWords(known, visit)}</td></tr>
`;
}

/** Nothing where there is no designed value to draw it against. */
function drawing(known: Known, span: number, label: string, paper: Document): Html | null {
  const { designed, value, low, high } = known;
  if (designed === null || designed <= 0) return null;
  const shares = { value: value / designed, low: low / designed, high: high / designed };
  return raw(intervalChart(shares, span, isMaterial(known), label, paper).outerHTML);
}

/** A round span that holds nearly all ends. */
function spanOf(known: readonly Known[]): number {
  const ends = known.flatMap(({ designed, low, high }) =>
    designed !== null && designed > 0 ? [Math.abs(low / designed - 1), Math.abs(high / designed - 1)] : [],
  );
  const rounded = Math.ceil(Math.max(0, ...ends) * 10) / 10;
  return Math.min(MOST_SPAN, Math.max(LEAST_SPAN, rounded));
}

/** What could not be estimated, and why. */
export function refusedList({ estimates }: Visit): Html | null {
  const refused = estimates.filter((each) => each.value === null);
  if (refused.length === 0) return null;
  return html`<p class="note">Not estimated: ${refused.map((each) => `${small(estimateName(each.key))} (${refusalWords(each)})`).join('; ')}.</p>
`;
}
