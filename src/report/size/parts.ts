import { issueSentence } from '../../scenarios/issue.ts';
import { GOES_WITH } from '../../scenarios/many/size-changes.ts';
import type { Sized, SizeResult } from '../../scenarios/many/size-result.ts';
import { changesYaml } from '../changes-yaml.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { costFrontierChart, fuelFrontierChart } from '../charts/size-frontier.ts';
import { type Html, html } from '../html.ts';
import { alone, digits, figure } from '../numbers.ts';
import { outcomeRows } from '../outcome-rows.ts';
import { MONEY_CARE } from '../page/cautions.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { priceList } from './price-list.ts';
import { markWords, shownSizes, sizeEffort } from './sentences.ts';
import { insteadWords, sizeWords } from './words.ts';

/** What more capital saves every year. */
export function moneyFrontier(result: SizeResult, paper: Document): Html {
  const { cheapest, own, years, site } = result;
  const title =
    cheapest === null
      ? 'no choice keeps the limits'
      : cheapest.changes === own.changes
        ? `your choice costs least over ${years} years`
        : `cheapest over ${years} years, ${figure('money', cheapest.outcome.lifeCycleCost, 0, site.currency)} in all: ${insteadWords(cheapest.size, own.size)}`;
  return html`<section id="money"><h2>Capital against yearly cost</h2>
${figureBox(
  title,
  {
    wide: costFrontierChart(result, FULL_WIDTH, title, paper),
    narrow: costFrontierChart(result, HALF_WIDTH, title, paper),
  },
  {
    full: true,
    note: `Every dot is a choice of sizes that keeps the limits; the line joins those that no other beats: less at the start costs more later. A year’s cost is all that is paid after the start, as an even payment: fuel, service, overhauls, batteries, and, where the site file prices them, unserved load and call-outs, less what the last battery is still worth.`,
  },
)}</section>
`;
}

/** The least fuel for what goes unserved. */
export function fuelFrontier(result: SizeResult, paper: Document): Html {
  const [same] = result.fuelFrontiers;
  const least = same.sizes[0];
  const left = (kwh: number) => (kwh === 0 ? 'nothing unserved' : `${alone('kwh', kwh)} unserved`);
  const { outcome: own } = result.own;
  const title = `for no more at the start than your choice, ${alone('litres', least.outcome.fuelL)} a year is the least fuel with ${left(least.outcome.unservedKwh)}; your choice burns ${alone('litres', own.fuelL)} with ${left(own.unservedKwh)}`;
  const single = result.fuelFrontiers.every(({ sizes }) => sizes.length === 1);
  return html`<section id="fuel"><h2>Fuel against unserved energy</h2>
${figureBox(
  title,
  {
    wide: fuelFrontierChart(result, FULL_WIDTH, title, paper),
    narrow: fuelFrontierChart(result, HALF_WIDTH, title, paper),
  },
  {
    full: true,
    note: `Every dot is a choice of sizes, whether it keeps the limits or not; the lines join the least fuel for what goes unserved, among choices that cost no more than so much at the start.${single ? ' Here each line is one point: going without some load saves no fuel.' : ''}`,
  },
)}</section>
`;
}

/** The own choice and the cheapest in figures. @param forFile with the lines to copy into a site file */
export function beside({ own, cheapest, years, site }: SizeResult, forFile = true): Html {
  const shown = cheapest === null || cheapest.changes === own.changes ? [own] : [own, cheapest];
  const rows = outcomeRows(
    shown.map(({ outcome }) => outcome),
    years,
    site.currency,
  );
  return html`<section id="beside"><h2>Your choice and the cheapest</h2>
${scrollable(
  'Figures of your choice and the cheapest',
  html`<table class="side"><thead><tr><th scope="col">Figure</th>${['Your choice', 'Cheapest'].slice(0, shown.length).map((name) => html`<th scope="col">${name}</th>`)}</tr></thead><tbody>
<tr><th scope="row">Sizes</th>${shown.map(({ size }) => html`<td>${sizeWords(size)}</td>`)}</tr>
${rows.map(
  ({ label, unit, texts }) =>
    html`<tr><th scope="row">${label}${unit ? `, ${unit}` : ''}</th>${texts.map((text) => html`<td>${text}</td>`)}</tr>
`,
)}</tbody></table>`,
)}
<p class="note">${MONEY_CARE} Sizes are not held against the design checks here${forFile ? html`: put the one you like below <code>alternatives:</code> in the site file, and <code>darkweek simulate</code> does that` : null}.</p>
${forFile && shown.length > 1 ? html`<pre>${changesYaml('cheapest', shown[1].changes)}</pre>` : null}</section>
`;
}

/** The choices in numbers. */
export function alongFrontier(result: SizeResult): Html {
  const { frontier, all, site } = result;
  const listed = shownSizes(result);
  const row = (one: Sized) => {
    const words = markWords(one, result);
    const mark = words ? ` (${words})` : '';
    const { outcome, yearlyCost } = one;
    return html`<tr><th scope="row">${sizeWords(one.size)}${mark}</th><td>${digits(outcome.capital)}</td><td>${digits(yearlyCost)}</td><td>${digits(outcome.lifeCycleCost)}</td><td>${digits(outcome.fuelL)}</td></tr>
`;
  };
  return html`<section id="along"><h2>${all ? 'All choices' : 'Along the frontier'}</h2>
<p class="note">By what is paid at the start${all ? '' : '; no choice that keeps the limits costs less at the start and less later'}.${listed.length < frontier.length ? ` ${listed.length} of ${frontier.length} are listed, evenly along it.` : ''}</p>
${scrollable(
  'Choices along the frontier',
  html`<table class="dense"><thead><tr><th scope="col">Sizes</th><th scope="col">At the start, ${site.currency}</th><th scope="col">A year after it, ${site.currency}</th><th scope="col">In all, ${site.currency}</th><th scope="col">Fuel a year, L</th></tr></thead><tbody>${listed.map(row)}</tbody></table>`,
)}</section>
`;
}

/** How it was searched, what goes with a size, and at which prices. */
export function basis(result: SizeResult): Html {
  const { doubts, years } = result;
  return html`<section id="basis"><h2>What these figures rest on</h2>
<ul>${sizeEffort(result).map((sentence) => html`<li>${sentence}</li>`)}
<li>The simulated period is repeated over ${years} years. Thresholds of the generator are those of the site file, not tuned to each size: <code>darkweek tune</code> does that for one.</li></ul>
<h3>What goes with a size</h3>
<ul>${GOES_WITH.map((rule) => html`<li>${rule}</li>`)}</ul>
${priceList(result)}
<h3>Doubts</h3>
${doubts.length === 0 ? html`<p>None were found in the inputs.</p>` : html`<ul>${doubts.map((doubt) => html`<li>${issueSentence(doubt)}</li>`)}</ul>`}
</section>
`;
}
