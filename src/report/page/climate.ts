import type { ClimateRow } from '../../scenarios/climate-decision.ts';
import { COOLER, HEATER } from '../../scenarios/climate-sizes.ts';
import type { AlternativeResult } from '../../scenarios/study.ts';
import { coldWeekChart } from '../charts/cold-week.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { climateSentences, variantHead } from '../climate-words.ts';
import { coldWeekTitle } from '../cold-week-title.ts';
import { hasGenerator, hasMoney, spanLength } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { bareFigure, decimalsFor, digits, type Kind, unitOf } from '../numbers.ts';
import type { StudyView } from '../view.ts';
import { counted } from '../words.ts';
import { figureBox, scrollable } from './figure-box.ts';

/** What the cabinet's climate costs and saves: without what it has, with what it has not; and its coldest week. */
export function climatePart(view: StudyView, result: AlternativeResult, paper: Document): Html | null {
  const { climate } = result;
  if (!climate) return null;
  const { rows } = climate;
  const assumed = rows.some(({ variant }) => variant.startsWith('with '))
    ? ' A heater or cooler that is not there has a size worked out for this weather, switched at usual temperatures (common practice).'
    : '';
  const tried = (part: string) => rows.some(({ variant }) => variant.endsWith(part));
  const left = [
    tried('heater') ? '' : ` No heater was tried, for the cells never come down to ${HEATER.onC} °C.`,
    tried('cooler') ? '' : ` No cooler was tried, for the air inside never comes up to ${COOLER.onC} °C.`,
  ].join('');
  return html`<h3>The cabinet’s climate: what it costs and what it saves</h3>
<ul>${climateSentences(view, result, climate).map((sentence) => html`<li>${sentence}</li>`)}</ul>
${scrollable('The cabinet with one thing changed', climateTable(view, result, rows))}
<p class="note">Each column is this alternative simulated again over ${spanLength(result.ledger)} with that one thing about the cabinet changed.${assumed}${left} Cells are those after the first two days, in which the cabinet comes from the outside temperature. What a change costs to build is in no figure here.</p>
${coldWeekBox(view, result, paper)}`;
}

interface Line {
  label: string;
  kind: Kind | 'celsius';
  of: (row: ClimateRow) => number | null;
  part?: boolean;
}

function linesOf(view: StudyView, result: AlternativeResult): Line[] {
  const whose = (result.plant.batteryCabinets ?? []).length > 0 ? ' (mean of the cabinets)' : '';
  const lines: Line[] = [
    { label: 'Heating and cooling take', kind: 'kwh', of: (row) => row.climateKwh },
    { label: 'of that the heater', kind: 'kwh', of: (row) => row.heaterKwh, part: true },
    { label: 'Charging refused: cells too cold or hot', kind: 'kwh', of: (row) => row.frostKwh },
    { label: 'Load above the derated inverters', kind: 'kwh', of: (row) => row.deratedKwh },
    { label: 'Load unserved', kind: 'kwh', of: (row) => row.unservedKwh },
  ];
  if (hasGenerator(result))
    lines.push(
      { label: 'Generator runs', kind: 'hours', of: (row) => row.runH },
      { label: 'Generator starts', kind: 'count', of: (row) => row.starts },
      { label: 'Fuel', kind: 'litres', of: (row) => row.fuelL },
    );
  lines.push(
    { label: `Coldest cells${whose}`, kind: 'celsius', of: (row) => row.coldestCellC },
    { label: `Hottest cells${whose}`, kind: 'celsius', of: (row) => row.hottestCellC },
    { label: 'Battery life', kind: 'years', of: (row) => row.batteryLifeYears },
  );
  if (hasMoney(view.study))
    lines.push({
      label: `Life-cycle cost over ${counted(String(result.money.years), 'year')}`,
      kind: 'money',
      of: (row) => row.lifeCycleCost,
    });
  return lines;
}

function climateTable(view: StudyView, result: AlternativeResult, rows: readonly ClimateRow[]): Html {
  const lines = linesOf(view, result).filter((line) => rows.some((row) => (line.of(row) ?? 0) !== 0));
  return html`<table class="side">
<thead><tr><th scope="col">Figure</th>${rows.map((row) => html`<th scope="col">${variantHead(row)}</th>`)}</tr></thead>
<tbody>${lines.map((line) => tableRow(line, rows, view.study.site.currency))}</tbody></table>`;
}

function tableRow(line: Line, rows: readonly ClimateRow[], currency: string): Html {
  const values = rows.map(line.of);
  const { kind } = line;
  const unit = kind === 'celsius' ? '°C' : unitOf(kind, currency);
  const decimals =
    kind === 'celsius' ? 1 : kind === 'kwh' ? decimalsForKwh(values) : decimalsFor(kind, values);
  const text = (value: number | null) =>
    kind === 'celsius' ? digits(value ?? Number.NaN, 1) : bareFigure(kind, value, decimals);
  return html`<tr${line.part ? html` class="part"` : null}><th scope="row">${line.label}${unit ? `, ${unit}` : ''}</th>${values.map((value) => html`<td>${text(value)}</td>`)}</tr>
`;
}

/** A trace in one column does not give all others its digits. */
function decimalsForKwh(values: readonly (number | null)[]): number {
  return values.some((value) => value !== null && value >= 99.5)
    ? 0
    : Math.min(1, decimalsFor('kwh', values));
}

function coldWeekBox(view: StudyView, result: AlternativeResult, paper: Document): Html | null {
  const week = result.climate?.coldWeek;
  if (!week) return null;
  const title = coldWeekTitle(view, result, week);
  const draw = (width: number) => coldWeekChart(view, result, week, width, title, paper);
  const note =
    'The week with the coldest outside air. The charging is what the battery takes, from array and generator; all powers are drawn to one scale.';
  return figureBox(title, { wide: draw(FULL_WIDTH), narrow: draw(HALF_WIDTH) }, { full: true, note });
}
