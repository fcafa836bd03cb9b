import type { HorizonAlternative, HorizonStudy } from '../../scenarios/horizon-result.ts';
import { capacityChart, yearBarsChart } from '../charts/horizon-years.ts';
import { type Html, html } from '../html.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { capital } from '../words.ts';
import { percentLeft, replacements, shown } from './figures.ts';
import { yearColumns } from './year-rows.ts';

/** The years of one alternative: what fades, what is burnt, what goes unserved, and every year in a table. */
export function alternativeYears(
  study: HorizonStudy,
  alternative: HorizonAlternative,
  i: number,
  paper: Document,
): Html {
  const pictures = [
    capacityFigure(alternative, paper),
    fuelFigure(study, alternative, paper),
    unservedFigure(study, alternative, paper),
  ].filter((picture) => picture !== null);
  return html`<section class="alternative" id="alternative-${i + 1}"><h2>${capital(alternative.name)}</h2>
${alternative.note ? html`<p>${capital(alternative.note)}.</p>` : null}
<div class="pair top">${pictures}</div>
<h3>Year by year</h3>
${scrollable('Year by year', yearTable(study, alternative))}
</section>
`;
}

function capacityFigure(alternative: HorizonAlternative, paper: Document): Html | null {
  const { has, years } = alternative;
  if (!has.battery || !has.wear) return null;
  const replaced = replacements(alternative);
  const end = percentLeft(years[years.length - 1].battery?.endFrac ?? 1);
  const title =
    replaced.length === 0
      ? `battery: never replaced; ${end} of its capacity is left at the end`
      : `battery: replaced ${replaced.length === 1 ? `in year ${replaced[0]}` : `${replaced.length} times, first in year ${replaced[0]}`}; the last one ends at ${end}`;
  const note = replaced.length > 0 ? 'The dotted line is a new battery.' : undefined;
  return figureBox(title, { wide: capacityChart(alternative, title, paper) }, { note });
}

/** Fuel to the same scale in every alternative. */
function fuelFigure(
  { alternatives }: HorizonStudy,
  alternative: HorizonAlternative,
  paper: Document,
): Html | null {
  const { years, has } = alternative;
  const most = Math.max(...alternatives.flatMap((one) => one.years.map(({ fuelL }) => fuelL)));
  if (!has.generator || most === 0) return null;
  const highest = years.reduce((a, b) => (b.fuelL > a.fuelL ? b : a));
  const title = `fuel: ${shown('litres', years[0].fuelL)} in the first year, at most ${shown('litres', highest.fuelL)}, in year ${highest.year}`;
  const drawing = yearBarsChart(
    alternative,
    { of: ({ fuelL }) => fuelL, unit: 'L a year', most, fill: 'fuel' },
    title,
    paper,
  );
  return figureBox(title, { wide: drawing }, { note: FIRST_YEAR_NOTE });
}

const FIRST_YEAR_NOTE = 'The dashed line is the first year, repeated.';

function unservedFigure(
  { alternatives }: HorizonStudy,
  alternative: HorizonAlternative,
  paper: Document,
): Html | null {
  const { years, sums } = alternative;
  if (sums.unservedKwh === 0) return null;
  const most = Math.max(...alternatives.flatMap((one) => one.years.map(({ unservedKwh }) => unservedKwh)));
  const highest = years.reduce((a, b) => (b.unservedKwh > a.unservedKwh ? b : a));
  const title = `load not supplied: ${shown('kwh', years[0].unservedKwh)} in the first year, at most ${shown('kwh', highest.unservedKwh)}, in year ${highest.year}`;
  const drawing = yearBarsChart(
    alternative,
    { of: ({ unservedKwh }) => unservedKwh, unit: 'kWh a year', most, fill: 'unserved' },
    title,
    paper,
  );
  return figureBox(title, { wide: drawing }, { note: FIRST_YEAR_NOTE });
}

function yearTable({ site }: HorizonStudy, alternative: HorizonAlternative): Html {
  const columns = yearColumns(alternative, site.currency);
  const heads = columns.map(
    ({ head, unit, words }) =>
      html`<th scope="col"${words ? html` class="text"` : null}>${head}${unit ? `, ${unit}` : ''}</th>`,
  );
  const row = (year: number) =>
    html`<tr>${columns.map(({ texts, words }, i) =>
      i === 0
        ? html`<th scope="row">${texts[year]}</th>`
        : html`<td${words ? html` class="text"` : null}>${texts[year]}</td>`,
    )}</tr>
`;
  const caption = alternative.has.money
    ? 'Capacity at the start and the end of the year, of the new capacity; paid: fuel, service, what falls due, in today’s money, less in the last year what the battery is still worth'
    : 'Capacity at the start and the end of the year, of the new capacity';
  return html`<table class="dense"><caption>${caption}</caption><thead><tr>${heads}</tr></thead><tbody>${alternative.years.map((_, year) => row(year))}</tbody></table>`;
}
