import { parseHTML } from 'linkedom';
import type { BreakEvenResult } from '../../scenarios/many/break-even.ts';
import type { StudyFacts } from '../../scenarios/many/many-study.ts';
import { breakEvenChart } from '../charts/break-even.ts';
import { type Html, html } from '../html.ts';
import { bareFigure, decimalsFor, type Kind, unitOf } from '../numbers.ts';
import { cautions } from '../page/cautions.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { filesAndDoubts, sheet } from '../page/sheet.ts';
import { capital, counted, quoted } from '../words.ts';
import { valueSentence, valueTitle, verdict } from './sentences.ts';

/** The page of a break-even: the verdict, the value at which it turns, and the cost of both over each value. */
export function breakEvenPage(facts: StudyFacts, result: BreakEvenResult): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { sides, years } = result;
  const { currency } = facts.site;
  const [first, second] = sides.map(({ name }) => quoted(name));
  const main = html`<section id="answer"><h2>In short</h2>
<p>${verdict(result, currency).join(' ')}</p>
<ul>${result.values.map((value) => html`<li>${valueSentence(value, result, currency)}</li>`)}</ul></section>
<section id="drawn"><h2>Cost of both, one value changed at a time</h2>
<p class="note">A ring marks where the two cost the same; the dotted line is the site file. All other values are as filed.</p>
<div class="pair top">${result.values.map((value) => {
    const title = valueTitle(value, result, currency);
    const names = sides.map(({ name }) => name);
    return figureBox(title, { wide: breakEvenChart(value, names, currency, title, paper) });
  })}</div></section>
<section id="compare"><h2>As filed</h2>
${scrollable('Both alternatives as filed', sidesTable(result, currency))}</section>
${cautions(facts.has)}
${basis(facts)}`;
  return sheet({
    ...facts,
    kind: 'break-even',
    how: `${counted(String(years), 'year')} simulated one after the other in steps of ${facts.stepMin} min`,
    question: `When does ${second} cost less than ${first}?`,
    title: `${sides[0].name} or ${sides[1].name}`,
    contents: [
      { id: 'answer', text: 'In short' },
      { id: 'drawn', text: 'Cost of both' },
      { id: 'compare', text: 'As filed' },
      { id: 'care', text: 'Before anyone builds or touches anything' },
      { id: 'basis', text: 'What the figures rest on' },
    ],
    main,
  });
}

function sidesTable({ sides }: BreakEvenResult, currency: string): Html {
  const rows: [string, Kind, number[]][] = [
    ['Capital', 'money', sides.map(({ capital: paid }) => paid)],
    ['Life-cycle cost', 'money', sides.map(({ lifeCycleCost }) => lifeCycleCost)],
    ['Fuel a year', 'litres', sides.map(({ fuelL }) => fuelL)],
    ['Generator runs a year', 'hours', sides.map(({ runH }) => runH)],
    ['Unserved a year', 'kwh', sides.map(({ unservedKwh }) => unservedKwh)],
  ];
  return html`<table><thead><tr><th scope="col">Figure</th>${sides.map(({ name }) => html`<th scope="col">${capital(name)}</th>`)}</tr></thead>
<tbody>${rows.map(([label, kind, values]) => {
    const unit = unitOf(kind, currency);
    const decimals = decimalsFor(kind, values);
    return html`<tr><th scope="row">${label}${unit ? `, ${unit}` : ''}</th>${values.map((value) => html`<td>${bareFigure(kind, value, decimals)}</td>`)}</tr>
`;
  })}</tbody></table>`;
}

function basis({ sheets, doubts }: StudyFacts): Html {
  return html`<section id="basis"><h2>What these figures rest on</h2>
<ul>
<li>Every year of the study is simulated, each from where the one before ended, with the battery as worn as it is by then; the years are those of <code>darkweek horizon</code>.</li>
<li>Costs are present values in constant money. Prices and the discount rate change what the same years cost; the growth of the load changes the years, which are simulated anew at every value tried.</li>
<li>The price of a battery module counts at the start too: the capital in the site file is taken to hold its modules at the price that the file states for one.</li>
<li>Break-even values are found by sampling the range and closing in on every change of sign until the costs differ by less than a millionth part. Two changes between neighbouring samples would be missed. A study has whole years, so that there the first year count is given with which the other is cheaper.</li>
<li>Payback counts what is paid in each year, new batteries and overhauls too, but not what the battery is still worth at the end (after NIST Handbook 135).</li>
</ul>
${filesAndDoubts(sheets, doubts)}</section>
`;
}
