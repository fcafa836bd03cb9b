import pc from 'picocolors';
import { type StressStudy, summaryOf } from '../../scenarios/many/stress-result.ts';
import { keepUnits, unitOf } from '../numbers.ts';
import { wrapped } from '../wrap.ts';
import { bandFigures, bandText, shareText } from './figures.ts';
import { stressSentences, termSentences } from './sentences.ts';

const LEAST_WIDTH = 60;

/** What the command line prints: bands of every alternative, and what they mean. */
export function terminalStress(study: StressStudy, columns = 80, colour = pc.isColorSupported): string {
  const width = Math.max(LEAST_WIDTH, columns);
  const { bold, dim } = pc.createColors(colour);
  const { alternatives, site } = study;
  const paragraph = (text: string, indent = '  ') =>
    wrapped(keepUnits(text), width - indent.length).map((line) => indent + line.replaceAll('\u00a0', ' '));
  const names = Math.min(30, Math.max(...alternatives.map(({ name }) => name.length)));
  const summaries = alternatives.map(summaryOf);
  const bands = bandFigures(study).flatMap(({ label, kind, of }) => [
    `${bold(label)}${unitOf(kind, site.currency) ? `, ${unitOf(kind, site.currency)}` : ''}`,
    ...alternatives.map(
      ({ name }, i) => `  ${name.padEnd(names)}  ${bandText(kind, of(summaries[i])).replaceAll('−', '-')}`,
    ),
  ]);
  const without = alternatives.map(({ name }, i) => {
    const { years, yearsWithoutUnserved } = summaries[i];
    return `  ${name.padEnd(names)}  ${shareText(yearsWithoutUnserved, years)}`;
  });
  return [
    bold(`${site.name}: what if the years go badly?`),
    ...termSentences(study.terms).flatMap((sentence) => paragraph(sentence, '').map(dim)),
    '',
    dim('10 % / 50 % / 90 % of the years (of the runs, for the life-cycle cost) lie below'),
    ...bands,
    bold('Years without any load unserved'),
    ...without,
    '',
    ...alternatives.flatMap((one) => [bold(one.name), ...paragraph(stressSentences(study, one).join(' '))]),
    '',
  ].join('\n');
}
