import type { Inputs } from '../sim/inputs.ts';

/**
 * The seven days in a row with the lowest mean outside air, each beginning at the first step's time of day; of equal
 * ones the first.
 * @returns steps, end not included; null for runs shorter than a week or without outside air
 */
export function coldestWeek({ airC, stepMin, count }: Inputs): { fromStep: number; toStep: number } | null {
  const perDay = 1440 / stepMin;
  const days = Math.floor(count / perDay);
  if (!airC || days < 7) return null;
  const sums = Array.from({ length: days }, (_, day) =>
    airC.subarray(day * perDay, (day + 1) * perDay).reduce((sum, value) => sum + value, 0),
  );
  let first = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let day = 0; day + 7 <= days; day++) {
    const sum = sums.slice(day, day + 7).reduce((total, value) => total + value, 0);
    if (sum < least - 1e-9) [first, least] = [day, sum];
  }
  return { fromStep: first * perDay, toStep: (first + 7) * perDay };
}
