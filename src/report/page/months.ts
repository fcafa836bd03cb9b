import type { AlternativeResult } from '../../scenarios/study.ts';
import { monthsEnergyChart, monthsFuelChart } from '../charts/months-energy.ts';
import { ARRAY, GENERATOR, INK, UNSERVED } from '../charts/palette.ts';
import { hasArray, hasGenerator, hasMoney } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { type MonthRow, monthRows, wholeOf } from '../months.ts';
import { digits } from '../numbers.ts';
import { monthsEnergyTitle, monthsFuelTitle } from '../titles.ts';
import type { StudyView } from '../view.ts';
import { figureBox, type KeyEntry, scrollable } from './figure-box.ts';

/** Energy by source, fuel and running cost of each month. */
export function monthsPart(view: StudyView, result: AlternativeResult, paper: Document): Html | null {
  const rows = monthRows(view, result);
  if (rows.length === 0) return null;
  const energy = monthsEnergyTitle(result, rows);
  const fuel = monthsFuelTitle(rows);
  return html`<h3>Energy and fuel by month</h3>
<div class="pair">${figureBox(energy, { wide: monthsEnergyChart(rows, energy, paper) }, { key: energyKey(result, rows) })}
${hasGenerator(result) ? figureBox(fuel, { wide: monthsFuelChart(rows, fuel, paper) }) : null}</div>
${scrollable('Energy, fuel and running cost by month', monthTable(view, result, rows))}`;
}

function energyKey(result: AlternativeResult, rows: readonly MonthRow[]): KeyEntry[] {
  const key: KeyEntry[] = [];
  if (hasArray(result)) key.push({ fill: ARRAY, text: 'array' });
  if (hasGenerator(result)) key.push({ fill: GENERATOR, text: 'generator' });
  if (rows.some(({ unservedKwh }) => unservedKwh > 0)) key.push({ fill: UNSERVED, text: 'unserved' });
  return [
    ...key,
    { fill: INK, text: 'load: the bar across; what is beyond it was lost on the way', line: true },
  ];
}

interface Column {
  head: string;
  of: (row: Omit<MonthRow, 'name' | 'short'>) => number;
  decimals: number;
}

function monthTable(view: StudyView, result: AlternativeResult, rows: readonly MonthRow[]): Html {
  const whole = wholeOf(rows);
  const columns: Column[] = [{ head: 'Load, kWh', of: (row) => row.loadKwh, decimals: 0 }];
  if (hasArray(result)) columns.push({ head: 'Array used, kWh', of: (row) => row.arrayKwh, decimals: 0 });
  if (hasGenerator(result))
    columns.push(
      { head: 'Generator, kWh', of: (row) => row.generatorKwh, decimals: 0 },
      { head: 'Run hours', of: (row) => row.runH, decimals: whole.runH < 100 ? 1 : 0 },
      { head: 'Starts', of: (row) => row.starts, decimals: 0 },
      { head: 'Fuel, L', of: (row) => row.fuelL, decimals: whole.fuelL < 100 ? 1 : 0 },
    );
  if (whole.unservedKwh > 0)
    columns.push({ head: 'Unserved, kWh', of: (row) => row.unservedKwh, decimals: 1 });
  if (hasMoney(view.study))
    columns.push({
      head: `Running cost, ${view.study.site.currency}`,
      of: (row) => row.runningCost,
      decimals: whole.runningCost < 100 ? 2 : 0,
    });
  const cells = (row: Omit<MonthRow, 'name' | 'short'>) =>
    columns.map(({ of, decimals }) => html`<td>${digits(of(row), decimals)}</td>`);
  return html`<table class="short"><thead><tr><th scope="col">Month</th>${columns.map(({ head }) => html`<th scope="col">${head}</th>`)}</tr></thead>
<tbody>${rows.map((row) => html`<tr><th scope="row">${row.name}</th>${cells(row)}</tr>`)}
<tr class="whole"><th scope="row">Together</th>${cells(whole)}</tr></tbody></table>`;
}
