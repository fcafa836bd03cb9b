import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { changesAgainst, changeWords, isMainChange } from './change-words.ts';
import { hasMoney } from './facts.ts';
import { digits } from './numbers.ts';
import { arrayChange, arrayNow } from './sentences-array.ts';
import { batteryChange, batteryNow } from './sentences-battery.ts';
import { cabinetChange } from './sentences-cabinet.ts';
import { chosenNow } from './sentences-chosen.ts';
import { generatorChange, generatorNow } from './sentences-generator.ts';
import { moneyChange, moneyNow } from './sentences-money.ts';
import { unservedChange, unservedNow } from './sentences-unserved.ts';
import { capital, counted, listed } from './words.ts';

export interface AlternativeWords {
  name: string;
  sentences: string[];
}

/** So many changes are named; a longer list says less than the alternative's own name. */
const MOST_NAMED = 3;

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
    ...chosenNow(study, first),
    ...batteryNow(study, first),
    ...arrayNow(study, first),
    ...money,
  ].map(finished);
}

function sentencesAgainst(study: Study, first: AlternativeResult, other: AlternativeResult): string[] {
  const lead = changesLead(first, other);
  const [main, ...rest] = [
    ...generatorChange(study, first, other),
    unservedChange(study, first, other),
    ...chosenNow(study, other),
    ...batteryChange(study, first, other),
    ...arrayChange(study, first, other),
    ...cabinetChange(study, first, other),
    ...(hasMoney(study) ? [moneyChange(study, first, other)] : []),
  ];
  return [lead === '' ? main : `${lead}: ${main}`, ...rest].map(finished);
}

/**
 * "Twenty-four battery modules instead of twelve (with 2 changes that go with it)": the changes that a reader knows by
 * name, and how many others there are. Empty where nothing, or too much, was changed.
 */
export function changesLead(first: AlternativeResult, other: AlternativeResult): string {
  const gone = first.plant.generator !== null && other.plant.generator === null;
  // that the generator is gone is the sentence itself, and its tank and its thresholds go with it
  const changes = changesAgainst(first, other).filter(
    ({ path }) => !gone || !/^(generator|tank|control)\b/.test(path),
  );
  const main = changes.filter(isMainChange);
  const named = main.length > 0 ? main : changes;
  if (named.length > MOST_NAMED) return '';
  const others = changes.length - named.length;
  const more =
    others > 0
      ? ` (with ${counted(digits(others), 'change')} that ${others === 1 ? 'goes' : 'go'} with it)`
      : '';
  return `${listed(named.map(changeWords))}${more}`;
}

function finished(sentence: string): string {
  return `${capital(sentence)}.`;
}
