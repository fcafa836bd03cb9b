import type { RecordSheet } from '../../scenarios/log/site-record.ts';
import type { Visit } from '../../scenarios/visit/visit.ts';
import { asEntered, digits, duration } from '../numbers.ts';
import { counted, listed } from '../words.ts';
import { columnName } from './column-words.ts';
import { dateOf } from './span.ts';

/** The log's data sheet in a few sentences: columns with what they lack, gaps, clock. */
export function sheetSentences(visit: Visit): string[] {
  const { record } = visit;
  return [
    `${record.file}: ${counted(digits(record.rows), 'row')}, times read as ${record.timeZone}.`,
    columnsSentence(visit),
    gapsSentence(visit),
    clockSentence(record),
  ].filter((sentence) => sentence !== '');
}

function columnsSentence({ record, fromS, toS, stepMin }: Visit): string {
  const steps = Math.max(1, (toS - fromS) / 60 / stepMin);
  if (record.columns.length === 0) return 'No column of it was read.';
  const columns = record.columns.map(({ is, missing, turned }) => {
    const notes = [
      missing > 0 ? `${missingShare(missing / steps)} missing` : '',
      turned === 'found' ? 'signs turned, as the data showed' : '',
    ].filter((note) => note !== '');
    return notes.length > 0 ? `${columnName(is)} (${notes.join(', ')})` : columnName(is);
  });
  return `Columns: ${columns.join(', ')}.`;
}

function missingShare(frac: number): string {
  return frac < 0.01 ? 'under 1 %' : `${digits(100 * frac)} %`;
}

function gapsSentence(visit: Visit): string {
  const { gaps, duplicates, resets } = visit.record;
  const [longest] = gaps;
  const told = [
    longest === undefined
      ? 'no gaps'
      : `${counted(digits(gaps.length), 'gap')}, the longest ${duration((longest.steps * visit.stepMin) / 60)} from ${dateOf(visit, longest.startS)}`,
    duplicates > 0 ? counted(digits(duplicates), 'doubled row') : '',
    resets > 0 ? `its clock set back ${resets === 1 ? 'once' : `${digits(resets)} times`}` : '',
  ].filter((part) => part !== '');
  return `It has ${listed(told)}.`;
}

function clockSentence({ clock: { by, addedH, driftHPerDay } }: RecordSheet): string {
  if (by === 'unknown') return 'Its clock could not be checked: nothing in it shows the sun.';
  if (by === 'right') return 'Its clock is right by the sun.';
  const added = Math.round(addedH * 60);
  const drift = driftHPerDay * 3600;
  const parts = [
    added === 0 ? '' : `${asEntered(Math.abs(added))} min ${added > 0 ? 'added' : 'taken off'}`,
    Math.abs(drift) < 0.05
      ? ''
      : `${digits(Math.abs(drift), 1)} s a day ${drift > 0 ? 'added' : 'taken off'}`,
  ].filter((part) => part !== '');
  return parts.length === 0
    ? 'Its clock is right by the sun.'
    : `Its clock was put right by the sun: ${parts.join(', and ')}.`;
}
