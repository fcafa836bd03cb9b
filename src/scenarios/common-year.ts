/** A year of 365 days: what typical years are made of. */
export const DAYS = 365;

/** Typical years are shown on this year, which is not a leap year. */
export const NOMINAL_YEAR = 2023;

const DAYS_OF_MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** Day of a 365-day year, from 0; NaN when the year has no such day. */
export function dayOfYear(month: number, day: number): number {
  if (!(day >= 1 && day <= DAYS_OF_MONTHS[month - 1])) return Number.NaN;
  return DAYS_OF_MONTHS.slice(0, month - 1).reduce((sum, days) => sum + days, 0) + day - 1;
}

export function isLeapDay(month: number, day: number): boolean {
  return month === 2 && day === 29;
}

/** '4 March 08:00'. */
export function stampWords(day: number, minute: number): string {
  let month = 0;
  let left = day;
  while (left >= DAYS_OF_MONTHS[month]) left -= DAYS_OF_MONTHS[month++];
  const two = (value: number) => String(value).padStart(2, '0');
  return `${left + 1} ${MONTHS[month]} ${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}
