import { describe, expect, it } from 'vitest';
import { clearDayMj, dayFromSunshineMj } from '../../src/sim/sky/clear-sky.ts';
import { dailySun } from '../../src/sim/sky/extraterrestrial.ts';

// FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes, Smith 1998); values from a transcription (second hand)
describe('daily extraterrestrial radiation', () => {
  it('example 8 and 9: 3 September at 20° S', () => {
    const day = dailySun(-20, 246);
    expect(day.distance).toBeCloseTo(0.985, 3);
    expect(day.declination).toBeCloseTo(0.12, 3);
    expect(day.sunsetAngle).toBeCloseTo(1.527, 3);
    expect(Math.abs(day.horizontalMj - 32.2)).toBeLessThan(0.05);
    expect(Math.abs(day.daylightH - 11.7)).toBeLessThan(0.05);
  });

  it('example 10: Rio, 15 May, 7.1 h of sunshine', () => {
    const day = dailySun(-22.9, 135);
    expect(Math.abs(day.horizontalMj - 25.1)).toBeLessThan(0.05);
    expect(Math.abs(day.daylightH - 10.9)).toBeLessThan(0.05);
    expect(Math.abs(dayFromSunshineMj(day.horizontalMj, 7.1, day.daylightH) - 14.45)).toBeLessThan(0.05);
    // clear sky of the same day: public documentation of another implementation (seen)
    expect(Math.abs(clearDayMj(day.horizontalMj, 0) - 18.83327)).toBeLessThan(0.05);
  });

  it('example 18: 50.80° N, 6 July, 100 m', () => {
    const { horizontalMj } = dailySun(50.8, 187);
    expect(Math.abs(horizontalMj - 41.09)).toBeLessThan(0.02);
    expect(Math.abs(clearDayMj(horizontalMj, 100) - 30.9)).toBeLessThan(0.02);
  });

  const fifteenth = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349];
  // annex 2, tables 2.6 and 2.7, for the 15th of each month
  it.each([
    [-36, [43.4, 38.9, 32.4, 24.3, 18.1, 15.1, 16.2, 21.2, 28.8, 36.3, 42.0, 44.4]],
    [-20, [41.9, 40.0, 36.6, 31.3, 26.6, 24.1, 25.0, 28.9, 34.2, 38.6, 41.2, 42.1]],
    [0, [36.2, 37.5, 37.9, 36.8, 34.8, 33.4, 33.9, 35.7, 37.2, 37.4, 36.3, 35.6]],
    [40, [15.0, 20.4, 27.2, 34.7, 39.7, 41.9, 40.8, 36.7, 30.0, 22.5, 16.3, 13.6]],
  ])('table 2.6 at latitude %d', (lat, printed) => {
    expect(printed).toHaveLength(12);
    for (const [month, mj] of printed.entries())
      expect(Math.abs(dailySun(lat, fifteenth[month]).horizontalMj - mj)).toBeLessThan(0.15);
  });

  it.each([
    [-36, [14.2, 13.3, 12.3, 11.1, 10.1, 9.6, 9.8, 10.6, 11.8, 12.9, 13.9, 14.4]],
    [-20, [13.1, 12.7, 12.1, 11.5, 11.1, 10.8, 10.9, 11.3, 11.9, 12.5, 13.0, 13.2]],
    [0, [12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12]],
    [40, [9.5, 10.5, 11.7, 13.1, 14.2, 14.8, 14.6, 13.6, 12.2, 10.9, 9.7, 9.2]],
  ])('table 2.7 at latitude %d', (lat, printed) => {
    expect(printed).toHaveLength(12);
    for (const [month, hours] of printed.entries())
      expect(Math.abs(dailySun(lat, fifteenth[month]).daylightH - hours)).toBeLessThan(0.1);
  });

  // means over 365 days of equation 21 (derived)
  it.each([
    [-36, 30.066],
    [-20, 34.189],
    [0, 36.031],
    [40, 28.228],
  ])('annual mean at latitude %d', (lat, mj) => {
    let sum = 0;
    for (let day = 1; day <= 365; day++) sum += dailySun(lat, day).horizontalMj;
    expect(sum / 365).toBeCloseTo(mj, 3);
  });
});
