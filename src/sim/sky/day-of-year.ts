/**
 * Day of the year, 1 to 366, in universal time.
 * @param unixS seconds since 1970-01-01T00:00Z
 * Source: Gregorian calendar.
 */
export function dayOfYearUtc(unixS: number): number {
  const day = Math.floor(unixS / 86400);
  const year = 1970 + Math.floor((day + 0.5) / 365.2425);
  const start = daysToYear(year);
  // the mean year may miss the turn of a year by a day or two
  if (day < start) return day - daysToYear(year - 1) + 1;
  const next = daysToYear(year + 1);
  return day >= next ? day - next + 1 : day - start + 1;
}

/** Days from 1970-01-01 to the first of January of a year. */
function daysToYear(year: number): number {
  const before = year - 1;
  const leapDays = Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  return 365 * (year - 1970) + leapDays - 477;
}
