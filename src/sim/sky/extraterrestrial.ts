const RAD = Math.PI / 180;

/**
 * Irradiance normal to the sun's rays outside the atmosphere.
 * @param dayOfYear 1 to 366
 * @param solarConstant [W/m²]
 * @returns [W/m²]
 * Source: Spencer, Search 2(5), 1971; solar constant 1366.1 W/m² (ASTM E490, from memory).
 */
export function extraterrestrialNormal(dayOfYear: number, solarConstant = 1366.1): number {
  const b = ((dayOfYear - 1) * 2 * Math.PI) / 365;
  const ratio =
    1.00011 +
    0.034221 * Math.cos(b) +
    0.00128 * Math.sin(b) +
    0.000719 * Math.cos(2 * b) +
    0.000077 * Math.sin(2 * b);
  return solarConstant * ratio;
}

/** A day's sun by the equations 21 to 25 and 34 of FAO Irrigation and Drainage Paper 56. */
export interface DailySun {
  /** inverse relative distance, declination [rad], sunset hour angle [rad] */
  distance: number;
  declination: number;
  sunsetAngle: number;
  /** irradiation on a horizontal plane outside the atmosphere [MJ/m² a day] */
  horizontalMj: number;
  daylightH: number;
}

/**
 * Daily extraterrestrial irradiation and day length.
 * @param latDeg latitude, north positive [°]
 * @param dayOfYear 1 to 366
 * Source: Allen, Pereira, Raes, Smith, FAO Irrigation and Drainage Paper 56, 1998, equations 21 to 25 and 34.
 */
export function dailySun(latDeg: number, dayOfYear: number): DailySun {
  const phi = latDeg * RAD;
  const distance = 1 + 0.033 * Math.cos((2 * Math.PI * dayOfYear) / 365);
  const declination = 0.409 * Math.sin((2 * Math.PI * dayOfYear) / 365 - 1.39);
  const sunsetAngle = sunsetHourAngle(phi, declination);
  const horizontalMj =
    ((24 * 60) / Math.PI) *
    0.082 *
    distance *
    (sunsetAngle * Math.sin(phi) * Math.sin(declination) +
      Math.cos(phi) * Math.cos(declination) * Math.sin(sunsetAngle));
  return { distance, declination, sunsetAngle, horizontalMj, daylightH: (24 / Math.PI) * sunsetAngle };
}

/** Hour angle of sunset, 0 in a polar night, π in a polar day [rad]. */
function sunsetHourAngle(lat: number, declination: number): number {
  const cosine = -Math.tan(lat) * Math.tan(declination);
  return Math.acos(Math.min(1, Math.max(-1, cosine)));
}

/** Solar constant of Duffie and Beckman's tables [W/m²]. */
const TEXTBOOK_CONSTANT = 1367;

/**
 * Declination by day of the year [°], within 0.5° of the true one.
 * Source: Cooper, Solar Energy 12(3), 1969: 23.45 sin(360 (284 + n)/365).
 */
export function cooperDeclinationDeg(dayOfYear: number): number {
  return 23.45 * Math.sin((2 * Math.PI * (284 + dayOfYear)) / 365);
}

/**
 * Equation of time by day of the year [min], within a minute of the true one.
 * Source: Spencer, Search 2(5), 1971, as in Duffie and Beckman, 4th ed. 2013, eq. 1.5.3.
 */
export function spencerEquationOfTimeMin(dayOfYear: number): number {
  const b = ((dayOfYear - 1) * 2 * Math.PI) / 365;
  return (
    229.2 *
    (0.000075 +
      0.001868 * Math.cos(b) -
      0.032077 * Math.sin(b) -
      0.014615 * Math.cos(2 * b) -
      0.04089 * Math.sin(2 * b))
  );
}

/**
 * Extraterrestrial irradiation on a horizontal plane over a day [MJ/m²].
 * @param declinationDeg by default Cooper's
 * Source: Duffie and Beckman, Solar Engineering of Thermal Processes, 4th ed. 2013, eq. 1.10.3; 1367 W/m².
 */
export function dailyHorizontalMj(
  latDeg: number,
  dayOfYear: number,
  declinationDeg = cooperDeclinationDeg(dayOfYear),
): number {
  const sunset = sunsetHourAngle(latDeg * RAD, declinationDeg * RAD) / RAD;
  return sunlitHorizontalMj(latDeg, dayOfYear, -sunset, sunset, declinationDeg);
}

/**
 * Extraterrestrial irradiation on a horizontal plane between two hour angles [MJ/m²], >= 0; only the time with the
 * sun up counts.
 * @param fromDeg, toDeg hour angles within one day, −180 to 180, 0 at noon, 15° an hour [°]; from <= to
 * @param declinationDeg by default Cooper's
 * Source: Duffie and Beckman, 4th ed. 2013, eq. 1.10.4; 1367 W/m².
 */
export function hourlyHorizontalMj(
  latDeg: number,
  dayOfYear: number,
  fromDeg: number,
  toDeg: number,
  declinationDeg = cooperDeclinationDeg(dayOfYear),
): number {
  const sunset = sunsetHourAngle(latDeg * RAD, declinationDeg * RAD) / RAD;
  const from = Math.max(fromDeg, -sunset);
  const to = Math.min(toDeg, sunset);
  return to <= from ? 0 : sunlitHorizontalMj(latDeg, dayOfYear, from, to, declinationDeg);
}

function sunlitHorizontalMj(
  latDeg: number,
  dayOfYear: number,
  fromDeg: number,
  toDeg: number,
  declinationDeg: number,
): number {
  const phi = latDeg * RAD;
  const delta = declinationDeg * RAD;
  const distance = 1 + 0.033 * Math.cos((2 * Math.PI * dayOfYear) / 365);
  const geometry =
    Math.cos(phi) * Math.cos(delta) * (Math.sin(toDeg * RAD) - Math.sin(fromDeg * RAD)) +
    (toDeg - fromDeg) * RAD * Math.sin(phi) * Math.sin(delta);
  return ((12 * 3600) / Math.PI) * TEXTBOOK_CONSTANT * distance * geometry * 1e-6;
}
