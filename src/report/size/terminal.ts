import pc from 'picocolors';
import type { Sized, SizeResult } from '../../scenarios/many/size-result.ts';
import { changesYaml } from '../changes-yaml.ts';
import { digits, keepUnits } from '../numbers.ts';
import { outcomeRows } from '../outcome-rows.ts';
import { table } from '../plain-table.ts';
import { wrapped } from '../wrap.ts';
import { markWords, shownSizes, sizeEffort, sizeSentences } from './sentences.ts';
import { shortSize } from './words.ts';

const LEAST_WIDTH = 60;

/** What the command line prints of a search for sizes; the drawings are on the page. */
export function terminalSize(result: SizeResult, columns = 80, colour = pc.isColorSupported): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold, dim } = pc.createColors(colour);
  const paragraph = (text: string) =>
    wrapped(keepUnits(text), width - 2).map((line) => `  ${line.replaceAll('\u00a0', ' ')}`);
  const { site, alternative, own, cheapest } = result;
  const title = `${site.name}${alternative ? `, ${alternative}` : ''}: how large should each part be?`;
  const differs = cheapest !== null && cheapest.changes !== own.changes;
  return [
    ...wrapped(title, width).map(bold),
    ...paragraph(sizeSentences(result).join(' ')),
    '',
    ...besideOwn(result, dim),
    '',
    bold(result.all ? 'All choices' : 'What more money at the start saves every year'),
    ...frontierLines(result, dim),
    '',
    ...(differs
      ? [
          bold('To put into the site file, below alternatives:'),
          changesYaml('cheapest', cheapest.changes),
          '',
        ]
      : []),
    bold('How it was searched'),
    ...paragraph(sizeEffort(result).join(' ')),
    '',
  ].join('\n');
}

function besideOwn({ own, cheapest, years, site }: SizeResult, dim: (text: string) => string): string[] {
  const shown = cheapest === null || cheapest.changes === own.changes ? [own] : [own, cheapest];
  const rows = outcomeRows(
    shown.map(({ outcome }) => outcome),
    years,
    site.currency,
  );
  return table(
    [
      ['Figure', 'yours', 'cheapest'].slice(0, 1 + shown.length),
      ...rows.map(({ label, unit, texts }) => [unit ? `${label}, ${unit}` : label, ...texts]),
    ],
    dim,
    'right',
  );
}

function frontierLines(result: SizeResult, dim: (text: string) => string): string[] {
  const { site } = result;
  const row = (one: Sized) => [
    shortSize(one.size),
    digits(one.outcome.capital),
    digits(one.yearlyCost),
    digits(one.outcome.lifeCycleCost),
    digits(one.outcome.fuelL),
    markWords(one, result),
  ];
  const heads = ['Sizes', `Start, ${site.currency}`, 'then a year', 'in all', 'fuel, L', ''];
  return table([heads, ...shownSizes(result).map(row)], dim, 'right');
}
