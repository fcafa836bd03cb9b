import { describe, expect, it } from 'vitest';
import { cosIncidence, incidenceDeg } from '../../src/sim/sky/incidence.ts';
import { groundModifier, incidenceModifier, skyModifier } from '../../src/sim/sky/incidence-loss.ts';

const cosDeg = (deg: number) => Math.cos((deg * Math.PI) / 180);

describe('angle of incidence', () => {
  // unit cases in published test expectations (seen)
  it.each([
    [0, 0, 0, 0, 0, 1],
    [30, 180, 30, 180, 0, 1],
    [30, 180, 150, 0, 180, -1],
    [90, 0, 30, 60, 75.5224878, 0.25],
    [90, 0, 30, 170, 119.4987042, -0.4924038],
  ])('tilt %d azimuth %d, sun %d %d', (tilt, azimuth, zenith, sun, angle, cosine) => {
    expect(Math.abs(cosIncidence(tilt, azimuth, zenith, sun) - cosine)).toBeLessThan(1e-5);
    expect(Math.abs(incidenceDeg(tilt, azimuth, zenith, sun) - angle)).toBeLessThan(1e-5);
  });

  // Reda and Andreas, NREL/TP-560-34302, rev. 2008, A.5: slope 30, azimuth rotation -10 from south (seen)
  it('on the plane of the SPA worked example: 25.187°', () => {
    expect(Math.abs(incidenceDeg(30, 170, 50.111622, 194.340241) - 25.187)).toBeLessThan(1e-5);
  });
});

describe('incidence loss', () => {
  // 1 - b0 (1/cos - 1) by hand (derived); b0 0.05 is common practice
  it.each([
    [0, 1],
    [60, 0.95],
    [Math.acos(0.25) * (180 / Math.PI), 0.85],
    [88, 0],
    [120, 0],
  ])('%d° from the normal', (angle, share) => {
    expect(incidenceModifier(cosDeg(angle))).toBeCloseTo(share, 12);
  });

  it('is none with a coefficient of 0, up to the edge', () => {
    expect(incidenceModifier(1e-9, 0)).toBe(1);
  });

  // Brandemuehl and Beckman 1980 (from memory): 59.7° for the sky of a flat plane, 56.1° at 60° tilt; for the ground
  // 65° at 60° tilt and nothing for a flat plane
  it('stands for the sky and the ground by one angle', () => {
    expect(skyModifier(0)).toBeCloseTo(incidenceModifier(cosDeg(59.7)), 12);
    expect(skyModifier(60)).toBeCloseTo(incidenceModifier(cosDeg(56.7612)), 4);
    expect(groundModifier(60)).toBeCloseTo(incidenceModifier(cosDeg(64.9668)), 4);
    expect(groundModifier(0)).toBe(0);
  });

  // the sky's share worked out by summing over an evenly bright half of the sky, flat plane; the one angle is an
  // approximation
  it('is near the sum over the sky on a flat plane', () => {
    let passed = 0;
    let all = 0;
    for (let angle = 0.05; angle < 90; angle += 0.1) {
      const weight = cosDeg(angle) * Math.sin((angle * Math.PI) / 180);
      passed += weight * incidenceModifier(cosDeg(angle));
      all += weight;
    }
    expect(Math.abs(skyModifier(0) - passed / all)).toBeLessThan(0.01);
  });
});
