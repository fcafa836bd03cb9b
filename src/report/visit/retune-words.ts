import type { Range, Retune, Visit } from '../../scenarios/visit/visit.ts';
import { changeWords, valueName, valueText } from '../change-words.ts';
import { bareFigure, decimalsFor, figure, type Kind } from '../numbers.ts';
import { capital, listed } from '../words.ts';

/** Below this nothing is saved [h, L, starts or money a month]. */
const NOTHING = 0.005;

/** Changes that are proposed; none where nothing is to be changed. */
export function proposedChanges({ changes }: Retune): NonNullable<Retune['changes']> {
  return changes ?? [];
}

/** What to set, and what it saves; empty for a site without a generator. */
export function retuneSentences(visit: Visit): string[] {
  const { retune } = visit;
  const changes = proposedChanges(retune);
  if (retune.why === 'no-generator' || !visit.parts.generator) return [];
  if (changes.length > 0)
    return [`New settings: ${listed(changes.map(changeWords))}.`, ...savedSentences(visit)];
  if (retune.why === 'not-asked') return ['New settings were not looked for.'];
  if (retune.why === 'too-short')
    return ['Leave the settings as they are for now: the log is too short to set a site by.'];
  if (retune.why === 'not-calibrated')
    return ['Leave the settings as they are for now: the log tells too little of the site to try others.'];
  return ['Leave the settings as they are: nothing better was found for the site as it runs.'];
}

function savedSentences(visit: Visit): string[] {
  const { retune, fuelPerL, site } = visit;
  const { litresAMonth, hoursAMonth, startsAMonth } = retune;
  const saved = [
    amount('litres', litresAMonth, 'fuel'),
    amount('hours', hoursAMonth, 'running'),
    amount('count', startsAMonth, 'starts'),
  ].filter((part) => part !== null);
  const sentences = saved.length > 0 ? [`A month then has ${listed(saved)}.`] : [];
  const money = moneyRange(litresAMonth, fuelPerL);
  if (money !== null && Math.abs(money.value) >= NOTHING)
    sentences.push(
      `That ${money.value >= 0 ? 'saves' : 'costs'} ${span('money', money, site.currency)} a month at ${figure('money', fuelPerL, 2, site.currency)} a litre.`,
    );
  if (litresAMonth.low < 0 && litresAMonth.value > 0)
    sentences.push('It may save nothing: the log does not know the site well enough to be sure.');
  return sentences;
}

/** "14 L (9 to 18) less fuel"; null where it is nothing. */
function amount(kind: Kind, range: Range, what: string): string | null {
  if (Math.abs(range.value) < NOTHING) return null;
  const less = kind === 'count' ? 'fewer' : 'less';
  return `${span(kind, range, '')} ${range.value > 0 ? less : 'more'} ${what}`;
}

/** A value with its range, as amounts: where more is spent than before, the signs are turned. */
function span(kind: Kind, range: Range, currency: string): string {
  const turned = range.value < 0;
  const [value, low, high] = turned
    ? [-range.value, -range.high, -range.low]
    : [range.value, range.low, range.high];
  const decimals = kind === 'count' ? 1 : kind === 'money' && value >= 9.5 ? 0 : decimalsFor(kind, [value]);
  const bare = (each: number) => bareFigure(kind === 'count' ? 'cycles' : kind, each, decimals);
  const shown = kind === 'count' ? bare(value) : figure(kind, value, decimals, currency);
  return `${shown} (${bare(low)} to ${bare(high)})`;
}

/** Money by the month; null where the site file has no price. */
function moneyRange(litres: Range, fuelPerL: number | null): Range | null {
  if (fuelPerL === null || fuelPerL <= 0) return null;
  return { value: litres.value * fuelPerL, low: litres.low * fuelPerL, high: litres.high * fuelPerL };
}

/** Rows of a table: what is set, as it is, as it should be. */
export function changeRows(visit: Visit): { name: string; from: string; to: string }[] {
  return proposedChanges(visit.retune).map(({ path, from, to }) => {
    const { name } = valueName(path);
    return { name: capital(name), from: valueText(path, from), to: valueText(path, to) };
  });
}
