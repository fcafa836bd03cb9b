import { describe, expect, it } from 'vitest';
import { dayOfYearUtc } from '../../../src/sim/sky/day-of-year.ts';
import { extraterrestrialNormal } from '../../../src/sim/sky/extraterrestrial.ts';
import { sunPath, sunPathInto } from '../../../src/sim/sky/sun-path.ts';
import { PARALLAX, sunPosition, sunPositionInto } from '../../../src/sim/sky/sun-position.ts';
import { sunTimes } from '../../../src/sim/sky/sun-times.ts';

const RAD = Math.PI / 180;
const startS = Date.UTC(2024, 0, 1) / 1000;

describe('sun path', () => {
  it.each([
    [1, -36, 150],
    [60, 40, -105],
    [60, 0, 110],
  ])('steps of %d min at %d, %d: the position at the middle of steps in full sun', (stepMin, lat, lon) => {
    const count = (400 * 24 * 60) / stepMin;
    const path = sunPath(startS, stepMin, count, lat, lon);
    let compared = 0;
    for (let i = 0; i < count; i += stepMin === 1 ? 37 : 1) {
      if (path.sunlit[i] !== 1) continue;
      const sun = sunPosition(startS + (i + 0.5) * stepMin * 60, lat, lon);
      expect(Math.abs(path.cosZenith[i] - Math.cos(sun.zenithDeg * RAD))).toBeLessThan(1e-6);
      const turn = Math.abs(((path.azimuthDeg[i] - sun.azimuthDeg + 540) % 360) - 180);
      expect(turn * Math.sin(sun.zenithDeg * RAD)).toBeLessThan(1e-4);
      compared++;
    }
    expect(compared).toBeGreaterThan(3000);
  });

  it('takes the middle of the sunlit part where the sun rises or sets, and says how long it is', () => {
    const path = sunPath(startS, 60, 24 * 366, -36, 150);
    let partly = 0;
    for (let i = 0; i < 24 * 366; i++) {
      if (path.sunlit[i] === 0 || path.sunlit[i] === 1) continue;
      partly++;
      const fromS = startS + i * 3600;
      const { riseS, setS } = sunTimes(fromS, -36, 150, PARALLAX / RAD);
      const [litFrom, litTo] = [Math.max(fromS, riseS!), Math.min(fromS + 3600, setS!)];
      expect(Math.abs(path.sunlit[i] - (litTo - litFrom) / 3600)).toBeLessThan(0.001);
      const sun = sunPosition((litFrom + litTo) / 2, -36, 150);
      expect(Math.abs(path.cosZenith[i] - Math.cos(sun.zenithDeg * RAD))).toBeLessThan(1e-4);
    }
    expect(partly).toBeGreaterThan(2 * 366 - 10);
  });

  it('has the same sunlit time in steps of a minute, an hour, and between rising and setting', () => {
    const hours = sunPath(startS, 60, 24 * 366, 47, 10);
    const minutes = sunPath(startS, 1, 1440 * 366, 47, 10);
    let daylight = 0;
    for (let day = 0; day < 366; day++)
      daylight += sunTimes(startS + day * 86400 + 43200, 47, 10, PARALLAX / RAD).daylightH;
    const sum = (values: Float64Array) => values.reduce((total, value) => total + value, 0);
    expect(sum(hours.sunlit)).toBeCloseTo(daylight, 1);
    expect(sum(minutes.sunlit) / 60).toBeCloseTo(daylight, 1);
  });

  it('is dark all through a polar night, lit all through a polar day, and right in days shorter than a step', () => {
    const winter = sunPath(Date.UTC(2025, 11, 15) / 1000, 60, 24 * 10, 75, 0);
    expect(Math.max(...winter.sunlit)).toBe(0);
    expect(Math.max(...winter.cosZenith)).toBe(0);
    const summer = sunPath(Date.UTC(2025, 5, 15) / 1000, 60, 24 * 10, 75, 0);
    expect(Math.min(...summer.sunlit)).toBe(1);
    const hours = sunPath(Date.UTC(2025, 10, 25) / 1000, 60, 24 * 60, 66.52, 7.5);
    const minutes = sunPath(Date.UTC(2025, 10, 25) / 1000, 1, 1440 * 60, 66.52, 7.5);
    let short = 0;
    for (let i = 0; i < 24 * 60; i++) {
      const lit = minutes.sunlit.subarray(i * 60, i * 60 + 60).reduce((sum, value) => sum + value, 0) / 60;
      // a step holds its declination: 18 s where the sun skims the horizon
      expect(Math.abs(hours.sunlit[i] - lit)).toBeLessThan(0.005);
      if (lit > 0 && lit < 1 && hours.sunlit[i - 1] === 0 && hours.sunlit[i + 1] === 0) short++;
    }
    expect(short).toBeGreaterThan(0);
  });

  it('holds extraterrestrial irradiance of the day and leaves nothing of what stood in the arrays', () => {
    const path = sunPath(startS, 60, 48, -36, 150);
    const fresh = structuredClone(path);
    for (const values of Object.values(path) as Float64Array[]) values.fill(7);
    sunPathInto(path, startS, 60, -36, 150);
    expect(path).toEqual(fresh);
    expect(path.extraNormal[0]).toBe(extraterrestrialNormal(1));
    expect(path.extraNormal[24]).toBe(extraterrestrialNormal(2));
  });

  it('of the form without allocation is the same position', () => {
    const out = new Float64Array(2);
    sunPositionInto(out, startS, -36, 150);
    expect({ zenithDeg: out[0], azimuthDeg: out[1] }).toEqual(sunPosition(startS, -36, 150));
  });
});

// the calendar of the host is the second opinion
it('counts the day of the year through leap years', () => {
  for (const year of [1900, 1969, 1970, 1999, 2000, 2023, 2024, 2025, 2100]) {
    const first = Date.UTC(year, 0, 1) / 1000;
    const days = (Date.UTC(year + 1, 0, 1) / 1000 - first) / 86400;
    for (let day = 0; day < days; day++) expect(dayOfYearUtc(first + day * 86400 + 3600)).toBe(day + 1);
  }
});
