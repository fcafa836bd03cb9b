import pc from 'picocolors';
import type { TuneResult } from '../../scenarios/many/tune-result.ts';
import { changesYaml } from '../changes-yaml.ts';
import { keepUnits } from '../numbers.ts';
import { outcomeRows } from '../outcome-rows.ts';
import { table } from '../plain-table.ts';
import { capital } from '../words.ts';
import { wrapped } from '../wrap.ts';
import { boundWords, flatWords } from './flat-words.ts';
import { settingName, settingValue } from './rule-words.ts';
import { effortSentences, tuneSentences } from './sentences.ts';

const LEAST_WIDTH = 60;

/** What the command line prints of a search for settings. */
export function terminalTune(result: TuneResult, columns = 80, colour = pc.isColorSupported): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold, dim } = pc.createColors(colour);
  const paragraph = (text: string) =>
    wrapped(keepUnits(text), width - 2).map((line) => `  ${line.replaceAll('\u00a0', ' ')}`);
  const { site, alternative } = result;
  const title = `${site.name}${alternative ? `, ${alternative}` : ''}: start and stop the generator at what?`;
  return [
    ...wrapped(title, width).map(bold),
    ...paragraph(tuneSentences(result).join(' ')),
    '',
    ...settingLines(result, dim),
    '',
    ...figureLines(result, dim),
    '',
    bold('To put into the site file, below alternatives:'),
    changesYaml('tuned', result.changes),
    '',
    bold('How it was searched'),
    ...paragraph(effortSentences(result).join(' ')),
    '',
  ].join('\n');
}

function settingLines(result: TuneResult, dim: (text: string) => string): string[] {
  const rows = result.settings.map((setting) => {
    const { rule, values, today, chosen } = setting;
    return [
      capital(settingName(setting)),
      settingValue(rule, values[today]),
      settingValue(rule, values[chosen]),
      flatWords(setting),
      boundWords(setting, result),
    ];
  });
  return table([['Setting', 'today', 'chosen', 'within 1 %', 'what bounds it, but cost'], ...rows], dim);
}

function figureLines(result: TuneResult, dim: (text: string) => string): string[] {
  const rows = outcomeRows([result.today, result.chosen], result.years, result.site.currency);
  return table(
    [
      ['Figure', 'today', 'chosen'],
      ...rows.map(({ label, unit, texts }) => [unit ? `${label}, ${unit}` : label, ...texts]),
    ],
    dim,
    'right',
  );
}
