import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { changesAgainst, changeWords } from './change-words.ts';
import { hasMoney } from './facts.ts';
import { batteryChange, batteryNow } from './sentences-battery.ts';
import { cabinetChange } from './sentences-cabinet.ts';
import { generatorChange, generatorNow } from './sentences-generator.ts';
import { moneyChange, moneyNow } from './sentences-money.ts';
import { unservedChange, unservedNow } from './sentences-unserved.ts';
import { capital, listed } from './words.ts';

export interface AlternativeWords {
  name: string;
  sentences: string[];
}

/** Above so many changes the alternative's own name says more than their list. */
const MOST_CHANGES_LISTED = 3;

/**
 * Plain sentences about each alternative: the first as it is, the others by what they change against it.
 * Every number in them is written as in the comparison table.
 */
export function studySentences(study: Study): AlternativeWords[] {
  const [first, ...others] = study.alternatives;
  return [
    { name: first.name, sentences: sentencesNow(study, first) },
    ...others.map((other) => ({ name: other.name, sentences: sentencesAgainst(study, first, other) })),
  ];
}

/** The same as one paragraph for each alternative, its name first. */
export function changeSentences(study: Study): string[] {
  return studySentences(study).map(({ name, sentences }) => `${capital(name)}. ${sentences.join(' ')}`);
}

function sentencesNow(study: Study, first: AlternativeResult): string[] {
  const money = hasMoney(study) ? [moneyNow(study, first)] : [];
  return [
    ...generatorNow(study, first),
    unservedNow(study, first),
    ...batteryNow(study, first),
    ...money,
  ].map(finished);
}

function sentencesAgainst(study: Study, first: AlternativeResult, other: AlternativeResult): string[] {
  const lead = changesLead(first, other);
  const [main, ...rest] = [
    ...generatorChange(study, first, other),
    unservedChange(study, first, other),
    ...batteryChange(study, first, other),
    ...cabinetChange(study, first, other),
    ...(hasMoney(study) ? [moneyChange(study, first, other)] : []),
  ];
  return [lead === '' ? main : `${lead}: ${main}`, ...rest].map(finished);
}

/** "Twenty-four battery modules instead of twelve"; empty where nothing, or too much, was changed. */
export function changesLead(first: AlternativeResult, other: AlternativeResult): string {
  const changes = changesAgainst(first, other);
  return changes.length > MOST_CHANGES_LISTED ? '' : listed(changes.map(changeWords));
}

function finished(sentence: string): string {
  return `${capital(sentence)}.`;
}
