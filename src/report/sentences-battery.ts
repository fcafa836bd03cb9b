import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { hasBattery } from './facts.ts';
import { shownText } from './shown.ts';

/** How far the battery goes down. Empty without one. */
export function batteryNow(study: Study, result: AlternativeResult): string[] {
  return hasBattery(result)
    ? [`the battery is at ${shownText(study, result, 'minSoc')} when it is lowest`]
    : [];
}

/** What changes for the battery: only where it does. */
export function batteryChange(study: Study, first: AlternativeResult, other: AlternativeResult): string[] {
  if (!hasBattery(other)) return hasBattery(first) ? ['there is no battery'] : [];
  const now = shownText(study, other, 'minSoc');
  if (!hasBattery(first)) return [`there is a battery, at ${now} when it is lowest`];
  const before = shownText(study, first, 'minSoc');
  const depth = now === before ? [] : [`at its lowest the battery is at ${now} instead of ${before}`];
  return [...depth, ...lifeChange(study, first, other)];
}

/** Years to the end of the battery's life: only where both are known and differ. */
function lifeChange(study: Study, first: AlternativeResult, other: AlternativeResult): string[] {
  if (first.batteryLifeYears === null || other.batteryLifeYears === null) return [];
  const [before, now] = [first, other].map((result) => shownText(study, result, 'batteryYears'));
  return now === before ? [] : [`used like this the battery lasts ${now} instead of ${before}`];
}
