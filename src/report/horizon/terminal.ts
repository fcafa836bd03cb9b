import pc from 'picocolors';
import type { HorizonAlternative, HorizonStudy } from '../../scenarios/horizon-result.ts';
import { keepUnits } from '../numbers.ts';
import { wrapped } from '../wrap.ts';
import { horizonFigures, offWords, shownTogether } from './figures.ts';
import { horizonSentences } from './sentences.ts';
import { yearColumns } from './year-rows.ts';

const LEAST_WIDTH = 60;

/** What the command line prints of an alternative as soon as it is finished: its years, and what they mean. */
export function terminalYears(
  study: HorizonStudy,
  alternative: HorizonAlternative,
  columns = 80,
  colour = pc.isColorSupported,
): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold, dim } = pc.createColors(colour);
  const table = yearColumns(alternative, study.site.currency);
  const heads = table.map(({ head, unit }) => [head, unit]);
  const widths = table.map(({ texts }, i) => Math.max(...[...heads[i], ...texts].map((text) => text.length)));
  const line = (texts: readonly string[]) =>
    texts
      .map((text, i) => (table[i].words ? text.padEnd(widths[i]) : text.padStart(widths[i])))
      .join('  ')
      .trimEnd();
  return [
    bold(alternative.name),
    line(heads.map(([head]) => head)),
    dim(line(heads.map(([, unit]) => unit))),
    ...alternative.years.map((_, year) => plainMinus(line(table.map(({ texts }) => texts[year])))),
    ...paragraph(horizonSentences(study, alternative).join(' '), width),
    '',
  ].join('\n');
}

/** All alternatives side by side, a line each figure, and how far the first year repeated is off. */
export function terminalComparison(study: HorizonStudy, columns = 80, colour = pc.isColorSupported): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold, dim } = pc.createColors(colour);
  const { alternatives, site } = study;
  const lines = horizonFigures(study).flatMap(({ label, kind, of, shortcut }) => {
    const texts = shownTogether(kind, alternatives.map(of), site.currency);
    return [
      bold(label),
      ...alternatives.map((one, i) => {
        const off = shortcut && offWords(shortcut(one), of(one) ?? 0);
        const note = off ? dim(`  first year repeated: ${off}`) : '';
        return `  ${one.name.padEnd(nameWidth(study))} ${plainMinus(texts[i]).padStart(14)}${note}`;
      }),
    ];
  });
  const heading = `${site.name}: all years, one after the other`;
  return [...wrapped(heading, width).map(bold), ...lines, ''].join('\n');
}

function nameWidth({ alternatives }: HorizonStudy): number {
  return Math.min(30, Math.max(...alternatives.map(({ name }) => name.length)));
}

function paragraph(text: string, width: number): string[] {
  return wrapped(keepUnits(text), width - 2).map((line) => `  ${line.replaceAll('\u00a0', ' ')}`);
}

/** A minus sign that a spreadsheet takes. */
function plainMinus(text: string): string {
  return text.replaceAll('−', '-');
}
