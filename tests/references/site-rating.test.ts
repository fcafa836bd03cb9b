import { describe, expect, it } from 'vitest';
import {
  type EngineAir,
  powerAdjustment,
  saturationKPa,
  siteRatingFrac,
  standardPressureKPa,
} from '../../src/sim/site-rating.ts';

const airAt = (pressureKPa: number, airC: number, humidity = 0.3, coolantC = 24.85): EngineAir => ({
  pressureKPa,
  kelvin: airC + 273.15,
  humidity,
  coolantKelvin: coolantC + 273.15,
});

describe('site power by ISO 3046-1', () => {
  // exercises of a university course on engines (Liège), seen in public text and recomputed
  it('naturally aspirated engine at 400 m, 45 °C and 80 % humidity: 444.6 kW for 372 kW on site', () => {
    const alpha = powerAdjustment('naturalAirLimited', airAt(96.602, 45, 0.8), 0.85);
    expect(alpha).toBeCloseTo(0.8368, 4);
    expect(372 / alpha).toBeCloseTo(444.6, 1);
  });

  it('turbocharged and cooled engine from 200 m to 3000 m: 821.4 of 1000 kW', () => {
    const at200 = airAt(98.9065, 27, 0.3, 45);
    const at3000 = airAt(70.0843, 15, 0.3, 40);
    expect(1000 * powerAdjustment('turboCooled', at3000, 0.87, at200)).toBeCloseTo(821.4, 1);
  });

  // derived from the formula for this project with whole kelvins (40 °C as 313 K), coolant at the reference
  it.each([
    [500, 313, 0.89731, 0.89291],
    [1000, 313, 0.85299, 0.83042],
    [1500, 313, 0.81002, 0.77092],
    [2000, 308, 0.78678, 0.72874],
  ])('at %d m and %d K', (altitudeM, kelvin, cooled, natural) => {
    const air = { pressureKPa: standardPressureKPa(altitudeM), kelvin, humidity: 0.3, coolantKelvin: 298 };
    expect(powerAdjustment('turboCooled', air, 0.8)).toBeCloseTo(cooled, 5);
    expect(powerAdjustment('natural', air, 0.8)).toBeCloseTo(natural, 5);
    const site = { altitudeM, airC: kelvin - 273.15, humidity: 0.3, coolantC: 24.85, mechanicalEff: 0.8 };
    expect(siteRatingFrac({ ...site, kind: 'natural' })).toBeCloseTo(natural, 5);
  });

  it('is the whole rating at the reference, and never more', () => {
    expect(powerAdjustment('turbo', airAt(100, 24.85), 0.8)).toBeCloseTo(1, 12);
    const cold = {
      kind: 'natural',
      altitudeM: 0,
      airC: -10,
      humidity: 0.3,
      coolantC: 20,
      mechanicalEff: 0.8,
    } as const;
    expect(powerAdjustment('natural', airAt(101.3, -10), 0.8)).toBeGreaterThan(1);
    expect(siteRatingFrac(cold)).toBe(1);
  });

  // IAPWS-IF97, table 35: check value at 300 K (from memory); a steam table's 9.59 kPa at 45 °C
  it('saturated vapour', () => {
    expect(saturationKPa(300)).toBeCloseTo(3.53658941, 7);
    expect(saturationKPa(318.15)).toBeCloseTo(9.59, 1);
  });

  // ICAO standard atmosphere, to the last digit that is printed
  it.each([
    [500, 95.461],
    [1000, 89.875],
    [1500, 84.556],
    [2000, 79.495],
  ])('standard pressure at %d m is %d kPa', (altitudeM, kPa) => {
    expect(standardPressureKPa(altitudeM)).toBeCloseTo(kPa, 2);
  });
});
