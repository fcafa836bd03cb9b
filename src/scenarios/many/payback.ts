/**
 * Years until what an alternative saves has paid back what it costs more to build: the first moment at which the sum
 * of its savings, less what it must buy meanwhile, reaches the extra capital. Each year's payment is spread over the
 * year so that its worth at the year's end is kept, hence for equal savings the usual −ln(1 − C·d/S)/ln(1 + d).
 * Source: Fuller and Petersen, Life-Cycle Costing Manual, NIST Handbook 135 (from memory): simple payback with rate 0.
 * @param extra   what it costs more at the start, > 0
 * @param savings what it costs less in each year, the first first; negative where it costs more
 * @param rate    discount rate, a fraction a year
 * @returns null where that is not reached within the years
 */
export function paybackYears(extra: number, savings: readonly number[], rate: number): number | null {
  let owed = extra;
  for (const [i, saving] of savings.entries()) {
    const worth = saving * (1 + rate) ** -(i + 1);
    if (worth > 0 && owed <= worth * (1 + 1e-12)) return i + partOfYear(owed, saving, rate, i);
    owed -= worth;
  }
  return null;
}

/** The part of a year after which a payment spread over it comes to an amount of today's worth. */
function partOfYear(owed: number, saving: number, rate: number, yearsBefore: number): number {
  const atStart = owed * (1 + rate) ** yearsBefore;
  if (rate === 0) return atStart / saving;
  return -Math.log(1 - (atStart * rate) / saving) / Math.log(1 + rate);
}
