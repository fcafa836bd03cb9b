const RAD = Math.PI / 180;

/** Days from 1970-01-01T00:00Z to the epoch J2000.0. */
const J2000_DAYS = 10957.5;

/** Dynamical less universal time [s]: that of the 2020s; ten seconds more move the sun by 0.0001°. */
const DELTA_T_S = 69;

/**
 * Apparent geocentric place of the sun.
 * @param out written: [0] declination [rad], [1] equation of time as an angle [rad]: by how much the hour angle of
 *   the true sun is ahead of that of the mean sun
 * @param unixS seconds since 1970-01-01T00:00Z
 * Accuracy: 0.004° from 2000 to 2050 against an ephemeris (tests/references).
 * Errors: none.
 * Source: J. Meeus, Astronomical Algorithms, 2nd ed. 1998, ch. 25 (low accuracy) and ch. 12 (sidereal time); the
 * perturbations by Venus, Jupiter and the Moon from his Astronomical Formulae for Calculators, 1982, ch. 18
 * (both from memory).
 */
export function sunCoordinatesInto(out: Float64Array, unixS: number): void {
  const days = unixS / 86400 - J2000_DAYS;
  const t = (days + DELTA_T_S / 86400) / 36525;
  const node = (125.04 - 1934.136 * t) * RAD;
  const nutationDeg = -0.00478 * Math.sin(node);
  const aberrationDeg = -0.00569;
  const longitude = (trueLongitudeDeg(t) + aberrationDeg + nutationDeg) * RAD;
  const obliquity = (23.4392911 - 0.0130042 * t + 0.00256 * Math.cos(node)) * RAD;
  const rightAscension = Math.atan2(Math.cos(obliquity) * Math.sin(longitude), Math.cos(longitude));
  // Greenwich sidereal time without the turn a day that the mean sun makes too, plus the equation of equinoxes
  const siderealDeg = 280.46061837 + 0.98564736629 * days + nutationDeg * Math.cos(obliquity);
  out[0] = Math.asin(Math.sin(obliquity) * Math.sin(longitude));
  out[1] = wrapped(siderealDeg * RAD - rightAscension);
}

/** Longitude of the sun from the mean equinox [°], t in centuries of dynamical time since J2000.0. */
function trueLongitudeDeg(t: number): number {
  const meanLongitude = 280.46646 + t * (36000.76983 + t * 0.0003032);
  const anomaly = (357.52911 + t * (35999.05029 - t * 0.0001537)) * RAD;
  const centre =
    (1.914602 - t * (0.004817 + t * 0.000014)) * Math.sin(anomaly) +
    (0.019993 - 0.000101 * t) * Math.sin(2 * anomaly) +
    0.000289 * Math.sin(3 * anomaly);
  return meanLongitude + centre + perturbationDeg(t + 1);
}

/** What Venus (twice), Jupiter, the Moon and a slow term add to the longitude [°]; centuries since 1900. */
function perturbationDeg(t: number): number {
  return (
    0.00134 * Math.cos((153.23 + 22518.7541 * t) * RAD) +
    0.00154 * Math.cos((216.57 + 45037.5082 * t) * RAD) +
    0.002 * Math.cos((312.69 + 32964.3577 * t) * RAD) +
    0.00179 * Math.sin((350.74 + t * (445267.1142 - 0.00144 * t)) * RAD) +
    0.00178 * Math.sin((231.19 + 20.2 * t) * RAD)
  );
}

/** An angle brought to −π to π [rad]. */
export function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}

/**
 * Hour angle of the mean sun at Greenwich, −π to π, 0 at 12:00 universal time [rad].
 * @param unixS seconds since 1970-01-01T00:00Z
 */
export function meanHourAngle(unixS: number): number {
  const dayFrac = unixS / 86400 - Math.floor(unixS / 86400);
  return 2 * Math.PI * (dayFrac - 0.5);
}
