import { issueSentence } from '../../scenarios/issue.ts';
import { bandTop } from '../../scenarios/many/flat.ts';
import { runningCostOf } from '../../scenarios/many/score.ts';
import type { TunedSetting, TuneResult } from '../../scenarios/many/tune-result.ts';
import { changesYaml } from '../changes-yaml.ts';
import { type CostScale, settingCostChart } from '../charts/setting-cost.ts';
import { type Html, html } from '../html.ts';
import { outcomeRows } from '../outcome-rows.ts';
import { GENERATOR_CARE, MONEY_CARE } from '../page/cautions.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { capital } from '../words.ts';
import { boundWords, flatWords, isIndifferent } from './flat-words.ts';
import { settingName, settingValue } from './rule-words.ts';
import { effortSentences } from './sentences.ts';

/** Every setting today and chosen. @param forFile with the lines to copy into a site file */
export function whatToSet(result: TuneResult, forFile = true): Html {
  const row = (setting: TunedSetting) => {
    const { rule, values, today, chosen } = setting;
    const text = settingValue(rule, values[chosen]);
    return html`<tr><th scope="row">${capital(settingName(setting))}</th><td class="text">${settingValue(rule, values[today])}</td><td class="text">${chosen === today ? text : html`<b>${text}</b>`}</td><td class="text">${flatWords(setting)}</td><td class="text">${boundWords(setting, result)}</td></tr>
`;
  };
  return html`<section id="set"><h2>What to set</h2>
<p class="note">Values that change are bold. “Within 1 %”: so far one setting can be moved, the others as chosen, until the cost rises by 1 % or a limit is broken.</p>
${scrollable(
  'Settings, today and chosen',
  html`<table class="dense"><thead><tr><th scope="col">Setting</th><th scope="col" class="text">Today</th><th scope="col" class="text">Chosen</th><th scope="col" class="text">Within 1 %</th><th scope="col" class="text">Ended by a limit</th></tr></thead><tbody>${result.settings.map(row)}</tbody></table>`,
)}
${forFile ? forSiteFile(result) : null}
${GENERATOR_CARE}</section>
`;
}

function forSiteFile({ changes }: TuneResult): Html {
  return html`<h3>For the site file</h3>
<p class="note">Below <code>alternatives:</code>, so that <code>darkweek simulate</code> shows it beside the site as filed, with its design checks.</p>
<pre>${changesYaml('tuned', changes)}</pre>`;
}

/** Costs shown above the chosen one, as a share of it. */
const SHOWN_FRAC = 0.12;

/** What each setting costs over its values, the others as chosen. */
export function howFlat(result: TuneResult, paper: Document): Html {
  const best = runningCostOf(result.chosen);
  const scale: CostScale = {
    best,
    bandTop: bandTop(result.chosen),
    most: best + SHOWN_FRAC * Math.max(1, Math.abs(best)),
    currency: result.site.currency,
  };
  const mattering = result.settings.filter((setting) => !isIndifferent(setting));
  return html`<section id="flat"><h2>How much it matters</h2>
<p class="note">Each drawing moves one setting, the others as chosen (diamond). The grey band is 1 % above its cost; the bar on the axis covers the values within it that keep all limits. Hollow dots break a limit. All drawings have the same scale; dearer values are above its edge.</p>
<div class="pair top">${mattering.map((setting) => {
    const bound = boundWords(setting, result);
    const title = `${settingName(setting)}: ${flatWords(setting)}${bound ? ` (${bound})` : ''}`;
    return figureBox(title, { wide: settingCostChart(setting, scale, title, paper) });
  })}</div>
</section>
`;
}

/** The year and the study with today's settings and with the chosen ones. */
export function figures({ today, chosen, years, site }: TuneResult): Html {
  const rows = outcomeRows([today, chosen], years, site.currency);
  return html`<section id="figures"><h2>What it changes</h2>
${scrollable(
  'Figures today and with the chosen settings',
  html`<table class="side"><thead><tr><th scope="col">Figure</th><th scope="col">Today</th><th scope="col">Chosen</th></tr></thead><tbody>${rows.map(
    ({ label, unit, texts }) =>
      html`<tr><th scope="row">${label}${unit ? `, ${unit}` : ''}</th>${texts.map((text) => html`<td>${text}</td>`)}</tr>
`,
  )}</tbody></table>`,
)}
<p class="note">${MONEY_CARE}</p></section>
`;
}

/** How it was searched, and what that leaves out. */
export function basis(result: TuneResult): Html {
  const { doubts } = result;
  return html`<section id="basis"><h2>What these figures rest on</h2>
<ul>${effortSentences(result).map((sentence) => html`<li>${sentence}</li>`)}
<li>Cost is what is paid after the start over ${result.years} years, in today’s money: fuel, service, overhauls, batteries, and, where the site file prices them, unserved load and call-outs, less what the last battery is still worth. Settings change no capital. The simulated period is repeated every year.</li>
<li>Settings are tuned to this weather and load. A threshold at the edge of a limit in this year may break it in another: stay inside the stretch, not at its end.</li>
<li>Restricted hours, exercise runs and all rules not listed stay as they are in the site file.</li>
</ul>
<h3>Doubts</h3>
${doubts.length === 0 ? html`<p>None were found in the inputs.</p>` : html`<ul>${doubts.map((doubt) => html`<li>${issueSentence(doubt)}</li>`)}</ul>`}
</section>
`;
}
