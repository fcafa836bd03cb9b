import type { Money, YearOfMoney } from '../../scenarios/money.ts';
import type { AlternativeResult } from '../../scenarios/study.ts';
import { MONEY_PARTS, partsPaid, yearsMoneyChart } from '../charts/years-money.ts';
import { hasMoney } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { asEntered, digits, figure } from '../numbers.ts';
import { shownText } from '../shown.ts';
import type { StudyView } from '../view.ts';
import { capital, counted, listed } from '../words.ts';
import { MONEY_CARE } from './cautions.ts';
import { figureBox, scrollable } from './figure-box.ts';

/** What the alternative costs to build, to run, and in each year of the study. */
export function moneyPart(view: StudyView, result: AlternativeResult, paper: Document): Html | null {
  const { study } = view;
  if (!hasMoney(study)) return null;
  const { money } = result;
  const { currency } = study.site;
  const ifPaid = (name: string, paid: number): [string, string][] =>
    paid === 0 ? [] : [[name, figure('money', paid, 0, currency)]];
  const title = moneyTitle(view, result);
  const key = partsPaid(money).map(({ name, fill }) => ({ fill, text: name }));
  const lines: [string, string][] = [
    ['Capital', shownText(study, result, 'capital')],
    ['Fuel, first year', figure('money', money.fuelFirstYear, 0, currency)],
    ['Service, first year', figure('money', money.serviceFirstYear, 0, currency)],
    ...ifPaid('Load unserved, first year', money.unservedFirstYear),
    ...ifPaid('Call-outs, first year', money.visitsFirstYear),
    ['Running cost, first year', shownText(study, result, 'runningFirstYear')],
    [
      `Life-cycle cost over ${counted(String(money.years), 'year')}`,
      shownText(study, result, 'lifeCycleCost'),
    ],
    ['Levelised cost of energy served', shownText(study, result, 'levelised')],
  ];
  const summary = html`<table class="short"><caption>Real discount rate ${asEntered(money.discountRate * 100)} % a year</caption><tbody>${lines.map(
    ([name, text]) => html`<tr><th scope="row">${name}</th><td>${text}</td></tr>`,
  )}</tbody></table>`;
  const years =
    money.years > 1
      ? figureBox(title, { wide: yearsMoneyChart(money, currency, title, paper) }, { key })
      : null;
  return html`<h3>Money</h3>
<div class="pair top"><div>${summary}<p class="note">${MONEY_CARE}</p></div>${years}</div>
<details class="fold"><summary>Year by year</summary>${scrollable('Money year by year', yearTable(money, currency))}</details>`;
}

function moneyTitle(view: StudyView, result: AlternativeResult): string {
  const { money } = result;
  const later = [
    ...replaced('the battery is replaced', money.batteryReplacedInYears),
    ...replaced('the generator is overhauled', money.overhaulsInYears),
  ];
  const run = `After ${shownText(view.study, result, 'capital')} to build, ${shownText(view.study, result, 'runningFirstYear')} in the first year`;
  return [run, ...later].join('; ');
}

function replaced(what: string, years: readonly number[]): string[] {
  if (years.length === 0) return [];
  return [`${what} in ${years.length === 1 ? 'year' : 'years'} ${listed(years.map(String))}`];
}

function yearTable(money: Money, currency: string): Html {
  const parts = [{ key: 'capital' as const, name: 'capital' }, ...MONEY_PARTS].filter(({ key }) =>
    money.cashFlow.some((year) => year[key] !== 0),
  );
  const row = (year: YearOfMoney) =>
    html`<tr><th scope="row">${year.year}</th>${parts.map(({ key }) => html`<td>${digits(year[key])}</td>`)}<td>${digits(year.total)}</td><td>${digits(year.presentValue)}</td></tr>`;
  return html`<table><caption>${currency}, in today’s money; payments of a year fall at its end</caption><thead><tr><th scope="col">Year</th>${parts.map(
    ({ name }) => html`<th scope="col">${capital(name)}</th>`,
  )}<th scope="col">Together</th><th scope="col">Present value</th></tr></thead><tbody>${money.cashFlow.map(row)}
<tr class="whole"><th scope="row">Together</th>${parts.map(() => html`<td></td>`)}<td>${digits(money.cashFlow.reduce((sum, { total }) => sum + total, 0))}</td><td>${digits(money.lifeCycleCost)}</td></tr></tbody></table>`;
}
