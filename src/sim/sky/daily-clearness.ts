/**
 * How the clearness of days is spread in a month of a given mean, and how hours make up a day: the published
 * models from which years of weather are made where only monthly means are known.
 */

/** The least daily clearness index. Source: Bendt, Collares-Pereira and Rabl, Solar Energy 27(1), 1981. */
export const LEAST_CLEARNESS = 0.05;

/**
 * The greatest daily clearness index in a month.
 * @param mean monthly mean clearness index, 0.1 to 0.75
 * Source: Hollands and Huget, Solar Energy 30(3), 1983 (from memory): 0.6313 + 0.267 K − 11.9 (K − 0.75)^8.
 */
export function greatestClearness(mean: number): number {
  return 0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8;
}

/**
 * Parameter of the exponential distribution of daily clearness between least and greatest that has a given mean.
 * @returns gamma of exp(gamma·K); near 0 the distribution is even
 * Source: Bendt, Collares-Pereira and Rabl, Solar Energy 27(1), 1981; the root is searched here, not fitted.
 */
export function clearnessGamma(mean: number, least: number, greatest: number): number {
  let low = -60;
  let high = 60;
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (meanOf(middle, least, greatest) < mean) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Mean of the truncated exponential distribution. */
function meanOf(gamma: number, least: number, greatest: number): number {
  const width = greatest - least;
  if (Math.abs(gamma * width) < 1e-6) return (least + greatest) / 2;
  return greatest - 1 / gamma + width / Math.expm1(gamma * width);
}

/** The clearness below which a share `u` of the days lies. */
export function clearnessQuantile(u: number, gamma: number, least: number, greatest: number): number {
  const width = greatest - least;
  if (Math.abs(gamma * width) < 1e-6) return least + u * width;
  return least + Math.log1p(u * Math.expm1(gamma * width)) / gamma;
}

/** Share of the days with a clearness of at most `k`. */
export function clearnessShare(k: number, gamma: number, least: number, greatest: number): number {
  const width = greatest - least;
  if (Math.abs(gamma * width) < 1e-6) return (k - least) / width;
  return Math.expm1(gamma * (k - least)) / Math.expm1(gamma * width);
}

/**
 * Day-to-day correlation of the clearness index, in its Gaussian form: 0.29 in every month.
 * Source: Graham, Hollands and Brunger, Solar Energy 40(2), 1988 (from memory).
 */
export const DAY_TO_DAY = 0.29;

/**
 * Ratio of an hour's to the day's global irradiation, on the long-term mean.
 * @param hourAngle  of the middle of the hour, 0 at noon [rad]
 * @param sunsetAngle hour angle of the sunset [rad]
 * Source: Collares-Pereira and Rabl, Solar Energy 22(2), 1979.
 */
export function hourOfDayRatio(hourAngle: number, sunsetAngle: number): number {
  const shape = Math.cos(hourAngle) - Math.cos(sunsetAngle);
  if (shape <= 0) return 0;
  const a = 0.409 + 0.5016 * Math.sin(sunsetAngle - Math.PI / 3);
  const b = 0.6609 - 0.4767 * Math.sin(sunsetAngle - Math.PI / 3);
  const whole = Math.sin(sunsetAngle) - sunsetAngle * Math.cos(sunsetAngle);
  return ((Math.PI / 24) * (a + b * Math.cos(hourAngle)) * shape) / whole;
}

/** Correlation from hour to hour within a day. Source: Graham and Hollands, Solar Energy 44(6), 1990 (from memory). */
export const HOUR_TO_HOUR = 0.54;

/**
 * Standard deviation of the hourly about the day's clearness index: 0.1557·sin(π·K/0.933).
 * Source: Graham and Hollands, Solar Energy 44(6), 1990 (from memory).
 */
export function hourlySpread(clearness: number): number {
  return Math.max(0, 0.1557 * Math.sin((Math.PI * clearness) / 0.933));
}
