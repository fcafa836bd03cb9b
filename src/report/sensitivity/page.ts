import { parseHTML } from 'linkedom';
import type { StudyFacts } from '../../scenarios/many/many-study.ts';
import type { SensitivityResult, SensitivityRow, StudyFigures } from '../../scenarios/many/sensitivity.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { rangesChart } from '../charts/ranges.ts';
import { type Html, html } from '../html.ts';
import { bareFigure, decimalsFor, type Kind } from '../numbers.ts';
import { cautions } from '../page/cautions.ts';
import { figureBox, scrollable } from '../page/figure-box.ts';
import { filesAndDoubts, sheet } from '../page/sheet.ts';
import { capital, counted, quoted } from '../words.ts';
import { sensitivitySentences } from './sentences.ts';
import { uncertainName, uncertainValue } from './words.ts';

/** The page of a sensitivity: what is uncertain, and how far each of it moves the cost. */
export function sensitivityPage(facts: StudyFacts, result: SensitivityResult, stated: boolean): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { currency } = facts.site;
  const { names, years } = result;
  const [first, second] = names.map(quoted);
  const sentences = sensitivitySentences(result, currency);
  const title = sentences[1].replace(/\.$/, '');
  const drawn = (width: number) => rangesChart(result, currency, width, title, paper);
  const ends = 'An open ring is the cost at the lowest value, a full dot that at the highest';
  const note = second
    ? `What ${second} costs more than ${first} (left of the thick line: less). ${ends}; the dashed line is the site as filed.`
    : `Life-cycle cost of ${first}. ${ends}; the dashed line is the site as filed.`;
  const main = html`<section id="answer"><h2>In short</h2><p>${sentences.join(' ')}</p></section>
<section id="drawn"><h2>What moves the cost, one value at a time</h2>
${figureBox(title, { wide: drawn(FULL_WIDTH), narrow: drawn(HALF_WIDTH) }, { full: true, note })}</section>
${names.map((name, i) => table(result, name, i, currency))}
${cautions(facts.has)}
${basis(facts, stated)}`;
  return sheet({
    ...facts,
    kind: 'sensitivity',
    how: `${counted(String(years), 'year')} simulated one after the other in steps of ${facts.stepMin} min`,
    question: second
      ? `What could turn the choice between ${first} and ${second}?`
      : 'Which uncertain value matters?',
    title: 'what moves the cost',
    contents: [
      { id: 'answer', text: 'In short' },
      { id: 'drawn', text: 'What moves the cost' },
      ...names.map((name, i) => ({ id: `table-${i + 1}`, text: `Figures: ${name}` })),
      { id: 'care', text: 'Before anyone builds or touches anything' },
      { id: 'basis', text: 'What the figures rest on' },
    ],
    main,
  });
}

const COLUMNS: [string, string, Kind, (figures: StudyFigures) => number][] = [
  ['Life-cycle cost', '', 'money', ({ lifeCycleCost }) => lifeCycleCost],
  ['Fuel', 'L a year', 'litres', ({ fuelL }) => fuelL],
  ['Runs', 'h a year', 'hours', ({ runH }) => runH],
  ['Unserved', 'kWh a year', 'kwh', ({ unservedKwh }) => unservedKwh],
];

/** All figures of an alternative at both ends of every value. */
function table({ rows, filed }: SensitivityResult, name: string, i: number, currency: string): Html {
  const ends = rows.flatMap((row: SensitivityRow) => [
    { row, value: row.low, figures: row.atLow[i], isLow: true },
    { row, value: row.high, figures: row.atHigh[i], isLow: false },
  ]);
  const decimals = COLUMNS.map(([, , kind, of]) =>
    kind === 'kwh' ? decimalsFor(kind, [filed[i], ...ends.map(({ figures }) => figures)].map(of)) : 0,
  );
  const cells = (figures: StudyFigures) =>
    COLUMNS.map(([, , kind, of], k) => html`<td>${bareFigure(kind, of(figures), decimals[k])}</td>`);
  const heads = COLUMNS.map(
    ([head, unit]) => html`<th scope="col">${head}, ${unit === '' ? currency : unit}</th>`,
  );
  return html`<section id="table-${i + 1}"><h2>Figures: ${capital(name)}</h2>
${scrollable(
  `Figures of ${name}`,
  html`<table class="dense"><thead><tr><th scope="col">Value</th><th scope="col">At</th>${heads}</tr></thead><tbody>
<tr><th scope="row">As filed</th><td></td>${cells(filed[i])}</tr>
${ends.map(
  ({
    row,
    value,
    figures,
    isLow,
  }) => html`<tr><th scope="row">${isLow ? capital(uncertainName(row)) : ''}</th><td>${uncertainValue(row, value, currency)}</td>${cells(figures)}</tr>
`,
)}</tbody></table>`,
)}</section>
`;
}

function basis({ sheets, doubts }: StudyFacts, stated: boolean): Html {
  return html`<section id="basis"><h2>What these figures rest on</h2>
<ul>
<li>${stated ? 'The ranges are those that the site file states (uncertain).' : 'The site file states no ranges (uncertain), so that usual ones are taken: assumptions of ours, to be replaced by what is known of the site.'}</li>
<li>One value is changed at a time, all others stay as filed: values that go wrong together do more. ‘All load’, ‘energy from arrays’ and ‘fuel that the generator burns’ are multiplied as a whole.</li>
<li>Every year of the study is simulated, each from where the one before ended, with the battery as worn as it is by then; a mere price changes what the same years cost. A module’s price counts at the start too.</li>
</ul>
${filesAndDoubts(sheets, doubts)}</section>
`;
}
