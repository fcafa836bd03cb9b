import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { hasArray, hasBattery } from './facts.ts';
import { shownText } from './shown.ts';

/** A change of the cabinet's energy or of refused charging smaller than this share of the load is left out. */
const WORTH_TELLING = 0.005;

/** What changes in the energy that the cabinet's climate takes, and in what cold or hot cells refuse. */
export function cabinetChange(study: Study, first: AlternativeResult, other: AlternativeResult): string[] {
  const now = other.ledger.totals;
  const before = first.ledger.totals;
  const matters = (a: number, b: number, key: string) =>
    Math.abs(a - b) > WORTH_TELLING * now.loadKwh && energy(study, other, key) !== energy(study, first, key);
  const sentences: string[] = [];
  const compared = (verb: string, key: string) =>
    `${verb} ${energy(study, other, key)} instead of ${energy(study, first, key)}`;
  if (other.plant.cabinet && first.plant.cabinet && matters(now.climateKwh, before.climateKwh, 'climateKwh'))
    sentences.push(compared('heating and cooling the cabinet takes', 'climateKwh'));
  const charged = [first, other].every((result) => hasBattery(result) && hasArray(result));
  if (charged && matters(now.frostKwh, before.frostKwh, 'frostKwh'))
    sentences.push(
      `${compared('battery cells that are too cold or too hot refuse', 'frostKwh')} of the array’s output`,
    );
  return sentences;
}

function energy(study: Study, result: AlternativeResult, key: string): string {
  const text = shownText(study, result, key);
  return text === '0 kWh' ? 'none' : text;
}
