import pc from 'picocolors';
import type { Study } from '../scenarios/study.ts';
import { checksLine } from './check-facts.ts';
import { type ComparisonRow, comparisonRows } from './comparison-table.ts';
import { peaksUnderstatedMin, spanWords } from './facts.ts';
import { keepUnits, unitOf } from './numbers.ts';
import { studySentences } from './sentences.ts';
import { wrapped } from './wrap.ts';

/** Labels may be folded down to this, and take up to the other where there is room. */
const LABEL_WIDTH_LEAST = 21;
const LABEL_WIDTH_MOST = 40;
const LABEL_WIDTH_CROWDED = 16;
const LEAST_WIDTH = 60;
/** so that names of alternatives have room above narrow columns */
const COLUMN_WIDTH_LEAST = 12;

/** What the command line prints of a study: the comparison and, in words, what changed. */
export function terminalReport(study: Study, columns = 80, colour = pc.isColorSupported): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold } = pc.createColors(colour);
  const heading = `${study.site.name}: when does the generator run, and what would change that?`;
  const indented = (text: string) =>
    wrapped(keepUnits(text), width - 2).map((line) => `  ${line.replaceAll('\u00a0', ' ')}`);
  const words = studySentences(study).flatMap(({ name, sentences }, i) => {
    const result = study.alternatives[i];
    return [
      bold(name),
      ...indented(sentences.join(' ')),
      ...(result.checks.length > 0 ? indented(checksLine(study, result)) : []),
    ];
  });
  return [
    ...wrapped(heading, width).map(bold),
    '',
    terminalTable(study, width, colour),
    '',
    ...words,
    '',
  ].join('\n');
}

/**
 * The comparison for the terminal: figures go down and alternatives across; those that do not fit follow in further
 * blocks, each with the first. The best of each line is bold, differences are dim.
 * @param columns width of the terminal; under 60 is treated as 60
 * @param colour default: as the terminal and NO_COLOR say
 */
export function terminalTable(study: Study, columns = 80, colour = pc.isColorSupported): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const colours = pc.createColors(colour);
  const rows = comparisonRows(study);
  const count = study.alternatives.length;
  const widths = widthsOf(rows, count, width);
  const blocks = blocksOf(count, columnsThatFit(widths, width)).map((shown) =>
    block({ study, rows, widths, colours }, shown),
  );
  const below = notes(study, rows, width).map(colours.dim);
  return [blocks.join('\n\n'), ...below].join('\n');
}

interface Widths {
  label: number;
  number: number;
  difference: number;
}

/** Width of an alternative's column with the space before it; the first has no differences. */
function columnWidth({ number, difference }: Widths, i: number): number {
  return i === 0 ? 1 + Math.max(number, COLUMN_WIDTH_LEAST - 2) : 1 + number + difference;
}

function totalWidth(widths: Widths, columns: number): number {
  return widths.label + columnWidth(widths, 0) + (columns - 1) * columnWidth(widths, 1);
}

function widthsOf(rows: readonly ComparisonRow[], alternatives: number, width: number): Widths {
  const number = Math.max(...rows.flatMap((row) => row.numbers.map((text) => text.length)));
  const least = Math.max(
    ...rows.flatMap((row) => row.differenceTexts.map((text) => shortDifference(text).length)),
  );
  const difference = Math.max(least === 0 ? 0 : least + 1, COLUMN_WIDTH_LEAST - number);
  let widths = { label: LABEL_WIDTH_LEAST, number, difference };
  // numbers too long for two columns with differences: without them
  if (totalWidth(widths, 2) > width) widths = { label: LABEL_WIDTH_CROWDED, number, difference: 0 };
  const spare = width - totalWidth(widths, Math.min(alternatives, columnsThatFit(widths, width)));
  return { ...widths, label: Math.min(LABEL_WIDTH_MOST, widths.label + Math.max(0, spare)) };
}

function columnsThatFit(widths: Widths, width: number): number {
  return Math.max(2, 1 + Math.floor((width - totalWidth(widths, 1)) / columnWidth(widths, 1)));
}

/** Alternatives of each block; the first is in every one, for it is what the others are compared with. */
function blocksOf(count: number, fit: number): number[][] {
  const others = Array.from({ length: count - 1 }, (_, i) => i + 1);
  const blocks: number[][] = [];
  for (let from = 0; from < others.length || blocks.length === 0; from += fit - 1)
    blocks.push([0, ...others.slice(from, from + fit - 1)]);
  return blocks;
}

interface Colours {
  bold: (text: string) => string;
  dim: (text: string) => string;
}

interface Sheet {
  study: Study;
  rows: readonly ComparisonRow[];
  widths: Widths;
  colours: Colours;
}

function block({ study, rows, widths, colours }: Sheet, columns: readonly number[]): string {
  const { bold, dim } = colours;
  const heads = columns.map((i) =>
    wrapped(keepUnits(study.alternatives[i].name), columnWidth(widths, i) - 1),
  );
  const height = Math.max(...heads.map((lines) => lines.length));
  const headLines = Array.from({ length: height }, (_, line) => {
    const names = heads.map((lines, i) =>
      (lines[line - height + lines.length] ?? '')
        .replaceAll('\u00a0', ' ')
        .padStart(columnWidth(widths, columns[i])),
    );
    const corner = line === height - 1 ? spanWords(study.alternatives[0].ledger) : '';
    return [dim(corner.padEnd(widths.label)), ...names.map(bold)].join('').trimEnd();
  });
  const rule = dim('─'.repeat(totalWidth(widths, columns.length)));
  const lines = rows.flatMap((row) => rowLines(row, columns, study.site.currency, widths, colours));
  return [...headLines, rule, ...lines].join('\n');
}

function rowLines(
  row: ComparisonRow,
  columns: readonly number[],
  currency: string,
  widths: Widths,
  { bold, dim }: Colours,
): string[] {
  const unit = unitOf(row.figure.kind, currency);
  const indent = row.figure.part ? '  ' : '';
  const label = `${indent}${row.figure.label}${unit ? `, ${unit}` : ''}${row.understated ? ' *' : ''}`;
  const labelLines = wrapped(label, widths.label - 1, indent);
  const cells = columns.map((i) => {
    const number = plainMinus(row.numbers[i]).padStart(
      columnWidth(widths, i) - (i === 0 ? 0 : widths.difference),
    );
    if (i === 0 || widths.difference === 0) return row.marked.includes(i) ? bold(number) : number;
    const difference = shortDifference(row.differenceTexts[i]).padStart(widths.difference);
    return `${row.marked.includes(i) ? bold(number) : number}${dim(difference)}`;
  });
  const last = labelLines.length - 1;
  return labelLines.map((line, i) =>
    i < last ? line : line.padEnd(widths.label) + cells.join('').trimEnd(),
  );
}

function shortDifference(text: string): string {
  return plainMinus(text).replace(' pts', 'pt').replace(' %', '%');
}

/** A minus sign that a spreadsheet takes. */
function plainMinus(text: string): string {
  return text.replaceAll('−', '-');
}

function notes(study: Study, rows: readonly ComparisonRow[], width: number): string[] {
  const coarse = peaksUnderstatedMin(study);
  if (coarse === null || !rows.some((row) => row.understated)) return [];
  return wrapped(
    `* Understated: the load data have a step of ${coarse} min, and shorter peaks that would start the generator are not in them.`,
    width,
  );
}
