import {
  costShown,
  effectOf,
  type SensitivityResult,
  type SensitivityRow,
} from '../../scenarios/many/sensitivity.ts';
import { figure } from '../numbers.ts';
import { capital, counted, listed, quoted } from '../words.ts';
import { uncertainName, uncertainValue } from './words.ts';

/** What a designer should know: what moves the cost most, what could turn the choice, and what hardly matters. */
export function sensitivitySentences(result: SensitivityResult, currency: string): string[] {
  const { names, rows, years, filed } = result;
  const money = (value: number) => figure('money', Math.abs(value), 0, currency);
  const over = `Over ${counted(String(years), 'year')}`;
  const [first, second] = names.map(quoted);
  const shown = costShown(filed);
  const sentences = second
    ? [`${over} ${second} costs ${money(shown)} ${shown < 0 ? 'less' : 'more'} than ${first}.`]
    : [`${over} ${first} costs ${money(shown)} in today’s money.`];
  const moving = rows.filter(moves);
  if (moving.length === 0) return [...sentences, 'None of the uncertain values moves that.'];
  const [most] = moving;
  sentences.push(
    `Of the uncertain values ${uncertainName(most)} moves ${second ? 'that difference' : 'it'} most: ${ends(most, result, currency)}.`,
  );
  if (second) {
    const turning = moving.filter((row) => turns(row, shown));
    sentences.push(
      turning.length === 0
        ? 'No single one of them, within its range, turns the choice.'
        : `The choice turns with ${listed(turning.map((row) => turnWords(row, shown, currency)))}.`,
    );
  }
  const small = moving.filter((row) => effectOf(row) < 0.1 * effectOf(most));
  const none = rows.filter((row) => !moving.includes(row));
  const namesOf = (some: readonly SensitivityRow[]) => capital(listed(some.map(uncertainName)));
  const verb = (some: readonly SensitivityRow[], one: string, many: string) =>
    some.length === 1 ? one : many;
  if (small.length > 0)
    sentences.push(`${namesOf(small)} ${verb(small, 'moves', 'move')} it by less than a tenth of that.`);
  if (none.length > 0) sentences.push(`${namesOf(none)} ${verb(none, 'does', 'do')} not move it.`);
  return sentences;
}

/** By half a unit of money or more; the others are not drawn. */
export function moves(row: SensitivityRow): boolean {
  return effectOf(row) >= 0.5;
}

function ends(row: SensitivityRow, { names }: SensitivityResult, currency: string): string {
  const words = (figures: SensitivityRow['atLow'], value: number) => {
    const cost = costShown(figures);
    const amount = figure('money', Math.abs(cost), 0, currency);
    const told = names.length > 1 ? `${amount} ${cost < 0 ? 'less' : 'more'}` : amount;
    return `${told} at ${uncertainValue(row, value, currency)}`;
  };
  return `${words(row.atLow, row.low)}, ${words(row.atHigh, row.high)}`;
}

/** Whether the other of two is cheaper at an end. */
function turns({ atLow, atHigh }: SensitivityRow, filed: number): boolean {
  return [atLow, atHigh].some((figures) => costShown(figures) * filed < 0);
}

function turnWords(row: SensitivityRow, filed: number, currency: string): string {
  const end = costShown(row.atLow) * filed < 0 ? row.low : row.high;
  return `${uncertainName(row)} at ${uncertainValue(row, end, currency)}`;
}
