import { describe, expect, it } from 'vitest';
import { diffuseFraction } from '../../src/sim/sky/diffuse-split.ts';
import {
  cooperDeclinationDeg,
  dailyHorizontalMj,
  extraterrestrialNormal,
  hourlyHorizontalMj,
  spencerEquationOfTimeMin,
} from '../../src/sim/sky/extraterrestrial.ts';
import { cosIncidence, incidenceDeg } from '../../src/sim/sky/incidence.ts';
import { sunAtHourAngle } from '../../src/sim/sky/sun-position.ts';
import { groundReflected, isotropicSky } from '../../src/sim/sky/transposition.ts';

const cosDeg = (deg: number) => Math.cos((deg * Math.PI) / 180);

/** Direct irradiance on a tilted plane over that on the horizontal; azimuth of the plane from south, west positive. */
function beamRatio(
  lat: number,
  declination: number,
  hourAngle: number,
  tilt: number,
  fromSouth: number,
): number {
  const sun = sunAtHourAngle(lat, declination, hourAngle);
  return cosIncidence(tilt, 180 + fromSouth, sun.zenithDeg, sun.azimuthDeg) / cosDeg(sun.zenithDeg);
}

// Spencer 1971, 1366.1 W/m², in published test expectations (seen, recomputed)
it('extraterrestrial normal irradiance on day 300', () => {
  expect(Math.abs(extraterrestrialNormal(300) - 1383.636203)).toBeLessThan(1e-3);
});

// Duffie and Beckman, Solar Engineering of Thermal Processes, 4th ed. 2013; how each was seen stands beside it
describe('textbook examples', () => {
  it('1.5.1 solar time (seen): Madison, 3 February 10:30, 0.6° east of its meridian', () => {
    const equation = spencerEquationOfTimeMin(34);
    expect(Math.abs(equation - -13.5)).toBeLessThan(0.1);
    // four minutes a degree between the standard and the local meridian
    expect(Math.abs(4 * (90 - 89.4) + equation - -11)).toBeLessThan(0.15);
  });

  it('1.6.1 incidence (seen): 13 February 10:30, slope 45, facing 15° west of south', () => {
    const sun = sunAtHourAngle(43, -14, -22.5);
    expect(Math.abs(incidenceDeg(45, 195, sun.zenithDeg, sun.azimuthDeg) - 35)).toBeLessThan(0.2);
    expect(cosIncidence(45, 195, sun.zenithDeg, sun.azimuthDeg)).toBeCloseTo(0.817, 3);
  });

  it('1.6.3 declination of 16 March and its sunset (second hand)', () => {
    expect(Math.abs(cooperDeclinationDeg(75) - -2.4)).toBeLessThan(0.1);
    const hours = Math.acos(-Math.tan((43 * Math.PI) / 180) * Math.tan((-2.4 * Math.PI) / 180));
    expect(Math.abs((hours * 180) / Math.PI - 87.74)).toBeLessThan(0.1);
    expect(hourlyHorizontalMj(43, 75, 87.8, 90)).toBe(0);
    expect(hourlyHorizontalMj(43, 75, 87.6, 90)).toBeGreaterThan(0);
  });

  it.each([
    ['1.8.1', beamRatio(43, -14, -22.5, 45, 15), 1.66],
    ['1.8.2', beamRatio(40, cooperDeclinationDeg(47), -37.5, 30, 0), 1.61],
    ['1.8.3', beamRatio(40, cooperDeclinationDeg(47), -37.5, 50, 0), 1.79],
  ])('%s beam ratio (second hand)', (_, found, printed) => {
    expect(Math.abs(found - printed)).toBeLessThan(0.01);
  });

  it('1.10.1, 2.12.1 daily, and an hour from 10 to 11 (second hand; the hour from memory)', () => {
    expect(Math.abs(dailyHorizontalMj(43, 105) - 33.8)).toBeLessThan(0.1);
    expect(Math.abs(dailyHorizontalMj(43, 162) - 41.8)).toBeLessThan(0.1);
    expect(Math.abs(hourlyHorizontalMj(43, 105, -30, -15) - 3.79)).toBeLessThan(0.02);
  });

  it('2.15.1 hour on a slope of 60, isotropic (from memory, recomputed)', () => {
    const outside = hourlyHorizontalMj(40, 51, -45, -30);
    expect(Math.abs(outside - 2.34)).toBeLessThan(0.01);
    const clearness = 1.04 / outside;
    expect(Math.abs(clearness - 0.445)).toBeLessThan(0.005);
    const diffuse = 1.04 * diffuseFraction(clearness);
    expect(Math.abs(diffuse / 1.04 - 0.766)).toBeLessThan(0.005);
    const ratio = beamRatio(40, cooperDeclinationDeg(51), -37.5, 60, 0);
    expect(Math.abs(ratio - 1.71)).toBeLessThan(0.01);
    const beam = (1.04 - diffuse) * ratio;
    const total = beam + isotropicSky(60, diffuse) + groundReflected(60, 1.04, 0.6);
    expect(Math.abs(beam - 0.42)).toBeLessThan(0.01);
    expect(Math.abs(isotropicSky(60, diffuse) - 0.6)).toBeLessThan(0.01);
    expect(Math.abs(groundReflected(60, 1.04, 0.6) - 0.156)).toBeLessThan(0.01);
    expect(Math.abs(total - 1.17)).toBeLessThan(0.01);
  });

  const meanDays = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344];

  it('2.19.1 daily at 43° N on the mean days of the months (second hand, recomputed)', () => {
    const printed = [13.37, 18.81, 26.03, 33.78, 39.42, 41.78, 40.56, 35.92, 28.8, 20.9, 14.62, 11.91];
    for (const [month, mj] of printed.entries())
      expect(Math.abs(dailyHorizontalMj(43, meanDays[month]) - mj)).toBeLessThan(0.02);
  });

  // the book rounds differently at high latitude: 0.3 (second hand). Its February fits the 46th day at every
  // latitude, though the mean day named in table 1.6.1 is the 47th (with which 45° S is out by 0.32).
  const tableDays = meanDays.map((day) => (day === 47 ? 46 : day));

  it.each([
    [45, [12.2, 17.4, 25.1, 33.2, 39.2, 41.7, 40.4, 35.3, 27.8, 19.6, 13.3, 10.7]],
    [30, [21.3, 25.7, 31.5, 36.8, 40.0, 41.1, 40.4, 37.8, 33.2, 27.4, 22.2, 19.9]],
    [0, [36.2, 37.4, 37.8, 36.7, 34.8, 33.5, 34.0, 35.7, 37.2, 37.3, 36.3, 35.7]],
    [-45, [42.8, 37.1, 28.6, 19.6, 12.9, 10.0, 11.3, 16.6, 24.9, 34.0, 41.2, 44.5]],
  ])('table 1.10.1 at latitude %d', (lat, printed) => {
    expect(printed).toHaveLength(12);
    for (const [month, mj] of printed.entries())
      expect(Math.abs(dailyHorizontalMj(lat, tableDays[month]) - mj)).toBeLessThan(0.3);
  });

  it('declination on those days (derived; table 1.6.1 has it within 0.05)', () => {
    const expected = [-20.9, -13.0, -2.4, 9.4, 18.8, 23.1, 21.2, 13.5, 2.2, -9.6, -18.9, -23.0];
    for (const [month, declination] of expected.entries())
      expect(Math.abs(cooperDeclinationDeg(meanDays[month]) - declination)).toBeLessThan(0.051);
  });

  it('hours of a day add up to the day, in polar day and night too', () => {
    for (const lat of [-70, -36, 0, 43, 70])
      for (const day of [15, 105, 172, 355]) {
        let sum = 0;
        for (let hour = -12; hour < 12; hour++)
          sum += hourlyHorizontalMj(lat, day, hour * 15, (hour + 1) * 15);
        expect(sum).toBeCloseTo(dailyHorizontalMj(lat, day), 9);
      }
  });
});
