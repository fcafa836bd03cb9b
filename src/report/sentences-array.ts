import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { groupKwh, LOSS_GROUPS, type LossGroup } from './array-losses.ts';
import { arrayUsedKwh } from './facts.ts';
import { rowOf, shownText } from './shown.ts';
import { LOSS_WHERE, listed } from './words.ts';

/** What keeps less than this share of the array energy used from the site is left out. */
const WORTH_TELLING = 0.02;

/** What snow, horizon and converters keep from the site, where it is much. */
export function arrayNow(study: Study, result: AlternativeResult): string[] {
  const much = shownGroups(study).filter((group) => isMuch(result, groupKwh(result, group)));
  if (much.length === 0) return [];
  return [
    `array energy is lost: ${listed(much.map((group) => `${lost(study, result, group)} ${LOSS_WHERE[group]}`))}`,
  ];
}

/** What changes in that, where it is much. */
export function arrayChange(study: Study, first: AlternativeResult, other: AlternativeResult): string[] {
  return shownGroups(study)
    .filter((group) => {
      const difference = Math.abs(groupKwh(other, group) - groupKwh(first, group));
      return isMuch(other, difference) && lost(study, other, group) !== lost(study, first, group);
    })
    .map(
      (group) =>
        `the array energy lost ${LOSS_WHERE[group]} is ${lost(study, other, group)} instead of ${lost(study, first, group)}`,
    );
}

/** Those that the comparison has a line for. */
function shownGroups(study: Study): LossGroup[] {
  return LOSS_GROUPS.filter((group) => rowOf(study, `lost:${group}`) !== undefined);
}

function isMuch({ ledger }: AlternativeResult, kwh: number): boolean {
  return kwh > 0 && kwh > WORTH_TELLING * arrayUsedKwh(ledger.totals);
}

function lost(study: Study, result: AlternativeResult, group: LossGroup): string {
  const text = shownText(study, result, `lost:${group}`);
  return text === '0 kWh' ? 'none' : text;
}
