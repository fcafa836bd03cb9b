import { parseHTML } from 'linkedom';
import { makeClock, offsetAt } from '../../scenarios/clock.ts';
import { type Issue, issueSentence } from '../../scenarios/issue.ts';
import type { Recorded, RecordedColumn, SiteRecord } from '../../scenarios/log/site-record.ts';
import type { Site } from '../../scenarios/site-schema.ts';
import { PATTERNS } from '../charts/palette.ts';
import { type Html, html, raw } from '../html.ts';
import { digits } from '../numbers.ts';
import { cautions } from '../page/cautions.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { STYLE } from '../page/style.ts';
import {
  clockWords,
  instant,
  quantityWords,
  quantumWords,
  rowWords,
  shown,
  TURNED_WORDS,
  totalWords,
} from './record-words.ts';
import { stripBins, stripChart } from './strip.ts';

/** One page about a site's own log: what was read, every doubt, and each column over the whole time. */
export function logPage(site: Site, record: SiteRecord, issues: readonly Issue[]): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { axis, sheet } = record;
  const end = axis.startS + axis.count * axis.stepMin * 60;
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>The log of ${site.site.name}</title>
<style>${raw(STYLE)}</style>
</head>
<body>
${raw(PATTERNS)}
<div class="sheet">
<header><p class="made">Darkweek · a look at a log before anything is worked out from it</p>
<h1>The log of ${site.site.name}</h1>
<p class="question">Can this be trusted, and what does it look like?</p></header>
<main>
<section><h2>What was read</h2>
<ul><li>${sheet.file}: ${digits(axis.count)} steps of ${axis.stepMin} min, ${instant(axis.startS)} to ${instant(end)} UTC; times read as ${sheet.timeZone}</li>
<li>${rowWords(sheet, axis.stepMin)}</li>
<li>${clockWords(sheet.clock)}</li></ul>
${scrollable('Columns of the log', columnTable(record))}
<h3>Doubts</h3>
${issues.length === 0 ? html`<p>None.</p>` : html`<ul>${issues.map((issue) => html`<li>${issueSentence(issue)}</li>`)}</ul>`}
</section>
<section><h2>Each column over the whole time</h2>
<p>Local time. Grey: between the lowest and the highest value; line: the mean. Where nothing is drawn nothing is known.</p>
${sheet.columns.map((column) => strip(column, record, site, paper))}
</section>
${cautions({ battery: site.battery !== null, array: site.arrays.length > 0, generator: site.generator !== null })}
</main>
</div>
</body>
</html>
`;
  return page.html;
}

function columnTable({ axis, sheet }: SiteRecord): Html {
  return html`<table><thead><tr><th scope="col">Column</th><th scope="col">Unit</th><th scope="col">Read as</th><th scope="col">Total or mean</th><th scope="col">Lowest</th><th scope="col">Highest</th><th scope="col">Missing</th><th scope="col">Steps</th><th scope="col">Sign</th></tr></thead>
<tbody>${sheet.columns.map((column) => {
    const { name, factor, unit } = quantityWords(column.is);
    return html`<tr><th scope="row">${column.header}</th><td>${column.unit}</td><td>${name}</td><td>${totalWords(column)}</td><td>${withUnit(column.lowest * factor, unit)}</td><td>${withUnit(column.highest * factor, unit)}</td><td>${digits((100 * column.missing) / axis.count, 1)} %</td><td>${quantumWords(column)}</td><td>${TURNED_WORDS[column.turned]}</td></tr>`;
  })}</tbody></table>`;
}

function strip(column: RecordedColumn, record: SiteRecord, site: Site, paper: Document): Html | null {
  const { axis, columns, arraysKw } = record;
  const values = column.is.startsWith('array:')
    ? arraysKw[column.is.slice(6)]
    : columns[column.is as Recorded];
  if (!values) return null;
  const { name, unit, factor } = quantityWords(column.is);
  const clock = makeClock(site.site.timeZone, axis.startS, axis.startS + axis.count * axis.stepMin * 60);
  const bins = stripBins(values, axis, factor, clock ? offsetAt(clock, axis.startS) : 0);
  const range = `${shown(column.lowest * factor)} to ${shown(column.highest * factor)} ${unit}`;
  const title = `${name}: ${totalWords(column)}, from ${range}`;
  return figureBox(title, { wide: stripChart(bins, unit, title, paper) }, { full: true });
}

/** Nothing has no unit. */
function withUnit(value: number, unit: string): string {
  return Number.isFinite(value) ? `${shown(value)} ${unit}` : shown(value);
}
