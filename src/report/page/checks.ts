import type { DesignCheck } from '../../scenarios/design-checks/check.ts';
import type { AlternativeResult, Study } from '../../scenarios/study.ts';
import { checkTexts, differingVerdicts, VERDICTS, verdictCounts, withVerdict } from '../check-facts.ts';
import { type Html, html } from '../html.ts';
import { capital, counted, quoted } from '../words.ts';
import { scrollable } from './figure-box.ts';

/** What stands beside every list of checks. */
const CARE =
  'A design aid: first-cut rules on the values of the site file. Local codes and licensed practice decide.';

/** How the checks of all alternatives came out, and where they differ. */
export function checksSummary(study: Study): Html | null {
  if (study.alternatives.every(({ checks }) => checks.length === 0)) return null;
  const several = study.alternatives.length > 1;
  return html`<section id="checks"><h2>Design checks</h2>
<p>Each alternative is held against rules of design: voltages, currents, motor starts, temperatures, fuel. The checks of each stand with it further down.</p>
<div class="care"><p><strong>No check stands for a wiring design.</strong> ${CARE}</p></div>
${scrollable('How the design checks came out', countsTable(study))}
${several ? differences(study) : null}
</section>
`;
}

function heads(study: Study): Html {
  return html`<thead><tr><th scope="col">Verdict</th>${study.alternatives.map(({ name }) => html`<th scope="col">${capital(name)}</th>`)}</tr></thead>`;
}

function countsTable(study: Study): Html {
  return html`<table class="side">${heads(study)}<tbody>${VERDICTS.map(
    (verdict) =>
      html`<tr><th scope="row">${capital(verdict)}</th>${study.alternatives.map(({ checks }) => html`<td>${withVerdict(checks, verdict).length}</td>`)}</tr>
`,
  )}</tbody></table>`;
}

function differences(study: Study): Html {
  const rows = differingVerdicts(study);
  if (rows.length === 0) return html`<p>No check comes out differently between the alternatives.</p>`;
  const table = html`<table class="side verdicts"><thead><tr><th scope="col">Check</th>${study.alternatives.map(({ name }) => html`<th scope="col">${capital(name)}</th>`)}</tr></thead>
<tbody>${rows.map(
    ({ title, verdicts }) =>
      html`<tr><th scope="row">${title}</th>${verdicts.map((verdict, i) => html`<td>${verdictCell(verdict, verdicts[0], i)}</td>`)}</tr>
`,
  )}</tbody></table>`;
  return html`<h3>Where the alternatives differ</h3>
<p class="note">Bold: another verdict than that of ${quoted(study.alternatives[0].name)}. A dash: the check does not apply.</p>
${scrollable('Design checks that come out differently', table)}`;
}

function verdictCell(verdict: string | null, first: string | null, i: number): Html | string {
  const text = verdict ?? '–';
  return i > 0 && verdict !== first ? html`<b>${text}</b>` : text;
}

/** Every check of an alternative: open what is not fine, folded what is. */
export function checksPart(result: AlternativeResult, isFirst: boolean): Html | null {
  const { checks } = result;
  if (checks.length === 0) return null;
  const fine = withVerdict(checks, 'fine');
  const open = VERDICTS.filter((verdict) => verdict !== 'fine').flatMap((verdict) =>
    withVerdict(checks, verdict),
  );
  return html`<h3>Design checks</h3>
<p>${capital(verdictCounts(checks, false))}. <span class="soft">${CARE}</span></p>
${open.length > 0 ? scrollable('Design checks that are not fine', checksTable(open)) : null}
${
  fine.length > 0
    ? html`<details class="${isFirst ? 'checks fold' : 'checks'}"><summary><strong>Fine</strong>: ${counted(String(fine.length), 'check')}</summary>${scrollable('Design checks that are fine', checksTable(fine))}</details>`
    : null
}`;
}

function checksTable(checks: readonly DesignCheck[]): Html {
  return html`<table class="checks"><thead><tr><th scope="col">Check</th><th scope="col">Value</th><th scope="col">Limit</th><th scope="col">Margin</th><th scope="col" class="text">Verdict</th></tr></thead>
<tbody>${checks.map(checkRow)}</tbody></table>`;
}

function checkRow(check: DesignCheck): Html {
  const { title, rule, note, source, verdict, missing } = check;
  const texts = checkTexts(check);
  const lacking =
    missing.length > 0
      ? html` The site file lacks ${missing.map((key, i) => html`${i > 0 ? ', ' : ''}<code>${key}</code>`)}.`
      : null;
  const mark = verdict === 'fine' ? verdict : html`<b>${verdict}</b>`;
  return html`<tr><th scope="row">${title} <small>${rule}${note ? ` ${note}` : ''}${lacking}</small> <small>Source: ${source}.</small></th><td>${texts.value}</td><td>${texts.limit}</td><td>${texts.margin}</td><td class="text">${mark}</td></tr>
`;
}
