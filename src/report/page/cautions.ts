import type { Study } from '../../scenarios/study.ts';
import { hasArray, hasBattery, hasGenerator } from '../facts.ts';
import { type Html, html } from '../html.ts';

/** What a site is made of that can hurt. */
export interface Dangers {
  battery: boolean;
  array: boolean;
  generator: boolean;
}

/** The dangers of all alternatives of a study together. */
export function dangersOf({ alternatives }: Study): Dangers {
  return {
    battery: alternatives.some(hasBattery),
    array: alternatives.some(hasArray),
    generator: alternatives.some(hasGenerator),
  };
}

/** What must be read before anyone acts on the page; only of what the site has. */
export function cautions({ battery, array, generator }: Dangers): Html {
  const dangers = [
    battery ? 'batteries' : '',
    array ? 'arrays' : '',
    generator ? 'generators' : '',
    'mains voltage',
  ];
  const list = dangers.filter((danger) => danger !== '');
  return html`<section id="care"><h2>Before anyone builds or touches anything</h2><div class="care">
<p><strong>This is a design aid, not a wiring design.</strong> ${sentenceOf(list)} can kill. Have the work designed, done and tested by licensed people to the codes that hold at the site: those for stand-alone power systems, battery installation, generating sets and wiring rules.</p>
<ul>
${
  generator
    ? html`<li>Exhaust holds carbon monoxide: never run an engine in or near a closed room, and keep its exhaust away from openings${battery ? ' and from the battery’s air intake' : ''}.</li>
<li>Change-over between generator and inverters must be interlocked, so that neither can feed back into the other or into any other supply.</li>`
    : null
}
${battery ? html`<li>A battery cannot be switched off: its terminals stay live, and a short circuit at them burns. More modules in parallel mean a higher fault current; protection and cables must be checked again.</li>` : null}
${array ? html`<li>An array is live whenever there is light.</li>` : null}
<li>Earthing and the neutral’s bond must be right for each way in which the site can be supplied${generator && battery ? ': from the inverters, and from the generator' : ''}.</li>
</ul></div></section>
`;
}

function sentenceOf(list: readonly string[]): string {
  const text = list.length > 1 ? `${list.slice(0, -1).join(', ')} and ${list[list.length - 1]}` : list[0];
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Beside every list of generator runs. */
export const GENERATOR_CARE = html`<div class="care"><p><strong>The engine starts by itself, at any hour and without warning.</strong> Lock it out before touching it or anything that it drives; parts stay hot after a run. Say so on a sign beside it.</p></div>`;

/** Beside the money. */
export const MONEY_CARE =
  'An estimate in today’s money from the prices in the site file; not an offer, and no promise that weather or load will be as simulated.';
