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
  const cosine = -Math.tan(phi) * Math.tan(declination);
  const sunsetAngle = Math.acos(Math.min(1, Math.max(-1, cosine)));
  const horizontalMj =
    ((24 * 60) / Math.PI) *
    0.082 *
    distance *
    (sunsetAngle * Math.sin(phi) * Math.sin(declination) +
      Math.cos(phi) * Math.cos(declination) * Math.sin(sunsetAngle));
  return { distance, declination, sunsetAngle, horizontalMj, daylightH: (24 / Math.PI) * sunsetAngle };
}
