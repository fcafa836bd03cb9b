import pc from 'picocolors';
import { type Sweep, servesEnough } from '../../scenarios/many/sweep.ts';
import { digits, keepUnits, unitOf } from '../numbers.ts';
import { wrapped } from '../wrap.ts';
import { type AxisView, axisView } from './axis-view.ts';
import { measureRow, measuresOf } from './measures.ts';
import { sweepSentences } from './sentences.ts';

const LEAST_WIDTH = 60;

/** What the command line prints of a sweep: what it says, the best beside the site as filed, a small map of cost. */
export function terminalSweep(sweep: Sweep, columns = 80, colour = pc.isColorSupported): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold, dim } = pc.createColors(colour);
  const plain = (text: string) => text.replaceAll('\u00a0', ' ').replaceAll('−', '-');
  const sentences = wrapped(keepUnits(sweepSentences(sweep).join(' ')), width).map(plain);
  const map = costMap(sweep, width);
  return [
    bold(`${sweep.site.name}: sweep`),
    ...sentences,
    '',
    ...bestTable(sweep).map((line, i) => plain(i === 0 ? dim(line) : line)),
    ...(map ? ['', ...map.map((line, i) => plain(i < 2 ? dim(line) : line.trimEnd()))] : []),
  ].join('\n');
}

function bestTable(sweep: Sweep): string[] {
  const best = sweep.best === null ? null : sweep.cells[sweep.best].outcome;
  const outcomes = [sweep.filed, ...(best ? [best] : [])];
  const rows = measuresOf(sweep).map((measure) => measureRow(measure, outcomes, sweep));
  const heads = ['as filed', ...(best ? ['cheapest'] : [])];
  const labels = rows.map(({ label, unit }) => (unit ? `${label}, ${unit}` : label));
  const labelPx = Math.max(...labels.map(({ length }) => length));
  const widths = heads.map(
    (head, i) => Math.max(head.length, ...rows.map(({ texts }) => texts[i].length)) + 3,
  );
  const line = (label: string, texts: readonly string[]) =>
    `${label.padEnd(labelPx)}${texts.map((text, i) => text.padStart(widths[i])).join('')}`;
  return [line('', heads), ...rows.map(({ texts }, i) => line(labels[i], texts))];
}

/** Life-cycle cost over two numbers, where it fits: [ ] as filed, * the cheapest, ! leaves more unserved. */
function costMap(sweep: Sweep, width: number): string[] | null {
  const views = sweep.axes.map(axisView);
  if (views.length !== 2 || sweep.cells.length < sweep.gridSize) return null;
  const [across, up] = views;
  const text = (at: readonly number[]) => costText(sweep, views, at);
  const rows = up.labels
    .map((label, y) => ({ label, texts: across.labels.map((_, x) => text([x, y])) }))
    .reverse();
  const labelChars = Math.max(...up.labels.map(({ length }) => length));
  const chars =
    Math.max(
      ...[...across.labels.map((label) => `${label} `), ...rows.flatMap(({ texts }) => texts)].map(
        ({ length }) => length,
      ),
    ) + 1;
  if (labelChars + across.labels.length * chars > width || rows.length > 24) return null;
  const unit = unitOf('money', sweep.site.currency);
  return [
    `Life-cycle cost, ${unit}: ${across.title} across, ${up.title} up.`,
    '[ ] as filed, * cheapest that serves enough, ! leaves more unserved',
    ...rows.map(
      ({ label, texts }) =>
        `${label.padStart(labelChars)}${texts.map((one) => one.padStart(chars)).join('')}`,
    ),
    `${' '.repeat(labelChars)}${across.labels.map((label) => `${label} `.padStart(chars)).join('')}`,
  ];
}

function costText(
  { cells, best, mostUnservedKwh }: Sweep,
  views: readonly AxisView[],
  at: readonly number[],
): string {
  const index = cells.findIndex((cell) => cell.at.every((place, i) => place === at[i]));
  const { outcome } = cells[index];
  if (outcome === null) return '– ';
  const sign = index === best ? '*' : servesEnough(outcome, mostUnservedKwh) ? '' : '!';
  const money = `${sign}${digits(outcome.lifeCycleCost)}`;
  return views.every(({ filedAt }, i) => filedAt === at[i]) ? `[${money}]` : `${money} `;
}
