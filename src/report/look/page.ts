import { parseHTML } from 'linkedom';
import { describeSheet } from '../../scenarios/data-sheet.ts';
import { type Issue, issueSentence } from '../../scenarios/issue.ts';
import type { ReadResult } from '../../scenarios/series.ts';
import { PATTERNS } from '../charts/palette.ts';
import { type Html, html, raw } from '../html.ts';
import { digits } from '../numbers.ts';
import { figureBox } from '../page/figure-box.ts';
import { STYLE } from '../page/style.ts';
import {
  DULL_SHARE,
  dullChart,
  durationChart,
  LEVELS,
  peakDayChart,
  typicalDayChart,
  yearChart,
} from './charts.ts';
import { dailyEnergy, dayText, dullestSpell, peakStep, type SeriesView, viewSeries } from './shape.ts';

/** A file that has been looked at. */
export interface LookedAt {
  file: string;
  result: ReadResult;
  /** clock for the hours of the day */
  zone: string;
}

/** One page about the files that a customer sent: what is in them, how it looks, and every doubt. */
export function lookPage(files: readonly LookedAt[]): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>A look at ${files.map(({ file }) => file).join(', ')}</title>
<style>${raw(STYLE)}</style>
</head>
<body>
${raw(PATTERNS)}
<div class="sheet">
<header><p class="made">Darkweek · a look at data before anything is simulated</p>
<h1>${files.map(({ file }) => file.split('/').pop() ?? file).join(', ')}</h1>
<p class="question">Can this be trusted, and what does it look like?</p></header>
<main>
${files.map((file) => fileSection(file, paper))}
</main>
</div>
</body>
</html>
`;
  return page.html;
}

function fileSection({ file, result, zone }: LookedAt, paper: Document): Html {
  const { sheet, series, issues } = result;
  const views = series.map((one) => viewSeries(one, zone));
  return html`<section><h2>${file}</h2>
${
  sheet
    ? html`<ul>${describeSheet(sheet)
        .slice(1)
        .map(
          (line) => html`<li>${line.trim()}</li>`,
        )}</ul><p>Read as ${sheet.reader}, because ${sheet.chosenBecause}.</p>`
    : html`<p>It could not be read.</p>`
}
<h3>Doubts and problems</h3>
${issueList(issues, sheet?.gaps.length ?? 0)}
${views.filter(isDrawn).map((view) => seriesSection(view, sheet?.timeZone.includes('any calendar year') ?? false, paper))}
</section>
`;
}

/** Load, generation and the irradiance that arrays see are drawn; the rest is in the data sheet. */
function isDrawn({ series }: SeriesView): boolean {
  return ['loadKw', 'generationKw', 'ghiWPerM2', 'poaWPerM2'].includes(series.quantity);
}

function issueList(issues: readonly Issue[], gaps: number): Html {
  if (issues.length === 0) return html`<p>${gaps === 0 ? 'None.' : 'None but the gaps counted above.'}</p>`;
  return html`<ul>${issues.map((issue) => html`<li>${issue.severity === 'error' ? html`<strong>problem</strong> ` : null}${issueSentence(issue)}</li>`)}</ul>`;
}

/** @param typical a year laid on any calendar year, so that its dates have none */
function seriesSection(view: SeriesView, typical: boolean, paper: Document): Html {
  const { series, calendar, unit } = view;
  const isSun = unit === 'W/m²';
  const daily = dailyEnergy(view);
  const peak = peakStep(series.values);
  const total = daily.reduce((sum, value) => sum + value, 0);
  const length = (series.axis.count * series.axis.stepMin) / 1440;
  const energy = isSun ? 'kWh/m²' : 'kWh';
  const shown = (value: number) => digits(value, value < 20 && !isSun ? 1 : 0);
  const highest = `${shown(series.values[peak])} ${unit}`;
  const yearTitle = `${series.name}: ${digits(total)} ${energy} in ${digits(length, Number.isInteger(length) ? 0 : 1)} days, ${digits(total / length, 1)} ${energy} a day`;
  const peakTitle = `the highest is ${highest}, on ${dated(calendar.dayNumber[peak], typical)}`;
  const mean = series.values.reduce((sum, value) => sum + value, 0) / series.values.length;
  const curveTitle = `half of it is ${shown(median(series.values))} ${unit} or less, the mean is ${shown(mean)} ${unit}`;
  const typicalTitle = `typical day of each month: the mean, and in grey what eight days in ten keep to, in ${unit}`;
  const levels = LEVELS.map((fill, i) => ({
    fill,
    text: `${Math.round((i * 100) / LEVELS.length)} to ${Math.round(((i + 1) * 100) / LEVELS.length)} %`,
  }));
  return html`<h3>${series.name}</h3>
<div class="pair top">
${figureBox(yearTitle, { wide: yearChart(view, yearTitle, paper) }, { key: levels, note: 'Each row is a day; levels are shares of the highest quarter of an hour.' })}
<div>${figureBox(peakTitle, { wide: peakDayChart(view, peakTitle, paper) })}
${figureBox(curveTitle, { wide: durationChart(view, curveTitle, paper) })}</div>
</div>
${figureBox(typicalTitle, { wide: typicalDayChart(view, typicalTitle, paper) }, { full: true })}
${isSun ? dullFigure(view, daily, typical, paper) : null}
`;
}

function dullFigure(view: SeriesView, daily: Float64Array, typical: boolean, paper: Document): Html {
  const spell = dullestSpell(daily, DULL_SHARE);
  const title =
    spell.days === 0
      ? `no day has less than ${DULL_SHARE * 100} % of the mean day`
      : `the longest dull spell is ${spell.days} ${spell.days === 1 ? 'day' : 'days'} from ${dated(view.firstDay + spell.fromDay, typical)}, each below ${DULL_SHARE * 100} % of the mean day`;
  return figureBox(title, { wide: dullChart(view, title, paper) }, { full: true });
}

function dated(dayNumber: number, typical: boolean): string {
  return typical ? dayText(dayNumber).replace(/ \d{4}$/, '') : dayText(dayNumber);
}

function median(values: Float64Array): number {
  const sorted = Float64Array.from(values).sort();
  return sorted[Math.floor((sorted.length - 1) / 2)];
}
