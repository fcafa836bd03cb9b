import type { AlternativeResult, Study } from '../scenarios/study.ts';
import type { Totals } from '../sim/ledger.ts';
import { digits } from './numbers.ts';
import { shownText } from './shown.ts';
import { counted, listed } from './words.ts';

/** What was shed and shifted on purpose, what failed, and who had to come. Empty where nothing of it happened. */
export function chosenNow(study: Study, result: AlternativeResult): string[] {
  return [...chosenLoads(study, result), ...faults(result)];
}

function chosenLoads(study: Study, result: AlternativeResult): string[] {
  const { totals } = result.ledger;
  const sentences: string[] = [];
  if (totals.shedKwh > 0)
    sentences.push(
      `${shownText(study, result, 'shedKwh')} of load is shed on purpose, ${shownText(study, result, 'shedH')} in all`,
    );
  if (totals.shiftedKwh + totals.shiftForcedKwh > 0) {
    const missed = totals.shiftMissedKwh > 0.01 * (totals.shiftedKwh + totals.shiftForcedKwh);
    const tail = missed ? `, and ${shownText(study, result, 'shiftMissedKwh')} never runs` : '';
    const forced =
      totals.shiftForcedKwh > 0
        ? `${shownText(study, result, 'shiftForcedKwh')} must run at the deadline`
        : 'none must run at the deadline';
    sentences.push(
      `of the shiftable load ${shiftedText(study, result, totals)} runs on array surplus, and ${forced}${tail}`,
    );
  }
  return sentences;
}

function shiftedText(study: Study, result: AlternativeResult, totals: Totals): string {
  return totals.shiftedKwh > 0 ? shownText(study, result, 'shiftedKwh') : 'none';
}

function faults({ ledger }: AlternativeResult): string[] {
  const { failedAttempts, startLockOuts, lockOuts, visits } = ledger.totals;
  const happened: string[] = [];
  if (failedAttempts > 0) happened.push(`${counted(digits(failedAttempts), 'start attempt')} failed`);
  if (startLockOuts > 0) happened.push(`the generator locked out ${counted(digits(startLockOuts), 'time')}`);
  if (lockOuts > 0) happened.push(`the inverters locked out ${counted(digits(lockOuts), 'time')}`);
  if (visits > 0) happened.push(`somebody had to come ${counted(digits(visits), 'time')}`);
  return happened.length === 0 ? [] : [listed(happened)];
}
