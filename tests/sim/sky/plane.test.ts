import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearSkyGlobal } from '../../../src/sim/sky/clear-sky.ts';
import { horizonOf } from '../../../src/sim/sky/horizon.ts';
import { groundModifier, skyModifier } from '../../../src/sim/sky/incidence-loss.ts';
import { type Irradiance, type Plane, planeOfArrayInto, type SkyModel } from '../../../src/sim/sky/plane.ts';
import { sunPath } from '../../../src/sim/sky/sun-path.ts';

const MODELS: SkyModel[] = ['isotropic', 'hay-davies', 'perez'];
const HOURS = 8760;
const startS = Date.UTC(2025, 0, 1) / 1000;
const path = sunPath(startS, 60, HOURS, -36, 150);
const clear = Float64Array.from(path.cosZenith, (cosZenith, i) => clearSkyGlobal(cosZenith) * path.sunlit[i]);

const globalOnly = (globalWPerM2: Float64Array): Irradiance => ({
  globalWPerM2,
  directWPerM2: null,
  diffuseWPerM2: null,
});

function onPlane(sky: Irradiance, plane: Partial<Plane>): Float64Array {
  const out = new Float64Array(sky.globalWPerM2.length);
  planeOfArrayInto(out, path, sky, { tiltDeg: 30, azimuthDeg: 0, albedo: 0.2, ...plane });
  return out;
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}

function withAt(values: Float64Array, index: number, value: number): Float64Array {
  const copy = values.slice();
  copy[index] = value;
  return copy;
}

const level = fc.double({ min: 0, max: 1500, noNaN: true });
const orientation = fc.record({
  tiltDeg: fc.double({ min: 0, max: 90, noNaN: true }),
  azimuthDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  model: fc.constantFrom(...MODELS),
});

describe('plane of array', () => {
  it('is never negative, NaN or above what comes from outside, whatever the sky', () => {
    fc.assert(
      fc.property(level, level, level, orientation, fc.boolean(), (ghi, dni, dhi, plane, isSplit) => {
        // an absurd sky: the same irradiance at every hour, night too
        const fill = (value: number) => new Float64Array(HOURS).fill(value);
        const sky = {
          globalWPerM2: fill(ghi),
          directWPerM2: isSplit ? null : fill(dni),
          diffuseWPerM2: isSplit ? null : fill(dhi),
        };
        const poa = onPlane(sky, plane);
        expect(poa.every(Number.isFinite)).toBe(true);
        expect(Math.min(...poa)).toBeGreaterThanOrEqual(0);
        expect(Math.max(...poa)).toBeLessThanOrEqual(Math.max(1415, ghi) + 0.1 * ghi + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it.each(MODELS)('lying flat is the global irradiance, with %s and no incidence loss', (model) => {
    const poa = onPlane(globalOnly(clear), { tiltDeg: 0, model, incidenceB0: 0 });
    let lit = 0;
    for (let i = 0; i < HOURS; i++) {
      // the divisors of the circumsolar part are held at 3° and 5° from the horizon
      if (path.cosZenith[i] < 0.0872) continue;
      lit++;
      expect(Math.abs(poa[i] - clear[i])).toBeLessThan(1e-9 * clear[i]);
    }
    expect(lit).toBeGreaterThan(3500);
  });

  it('loses 2 to 5 % of a year to the glass, no step less than nothing', () => {
    const bare = onPlane(globalOnly(clear), { incidenceB0: 0 });
    const glass = onPlane(globalOnly(clear), {});
    expect(sum(glass) / sum(bare)).toBeGreaterThan(0.95);
    expect(sum(glass) / sum(bare)).toBeLessThan(0.98);
    expect(glass.every((value, i) => value <= bare[i])).toBe(true);
  });

  it('is the isotropic sky in every model where there is no direct sun', () => {
    fc.assert(
      fc.property(level, orientation, (dhi, plane) => {
        const flat = new Float64Array(HOURS).fill(dhi);
        const sky = { globalWPerM2: flat, directWPerM2: new Float64Array(HOURS), diffuseWPerM2: flat };
        const even = onPlane(sky, { ...plane, model: 'isotropic' });
        expect(onPlane(sky, plane)).toEqual(even);
      }),
      { numRuns: 40 },
    );
  });

  it('faces north in the southern winter: more than flat; south: less', () => {
    const june = (values: Float64Array) => sum(values.subarray(3624, 4344));
    for (const model of MODELS) {
      expect(june(onPlane(globalOnly(clear), { tiltDeg: 40, model }))).toBeGreaterThan(1.4 * june(clear));
      expect(june(onPlane(globalOnly(clear), { tiltDeg: 40, azimuthDeg: 180, model }))).toBeLessThan(
        0.6 * june(clear),
      );
    }
  });

  it('stands upright under an even sky: half of it and half of the ground, each less its incidence loss', () => {
    const flat = new Float64Array(HOURS).fill(100);
    const sky = { globalWPerM2: flat, directWPerM2: new Float64Array(HOURS), diffuseWPerM2: flat };
    const poa = onPlane(sky, { tiltDeg: 90, albedo: 0.4 });
    expect(poa[12]).toBeCloseTo(50 * skyModifier(90) + 20 * groundModifier(90), 9);
  });

  it('turns with the azimuth: 10° and 370° are one, east and west of a symmetric day alike', () => {
    const a = onPlane(globalOnly(clear), { azimuthDeg: 10 });
    const b = onPlane(globalOnly(clear), { azimuthDeg: 370 });
    expect(a.every((value, i) => Math.abs(value - b[i]) < 1e-9)).toBe(true);
    const [east, west] = [90, 270].map((azimuthDeg) => sum(onPlane(globalOnly(clear), { azimuthDeg })));
    expect(Math.abs(east / west - 1)).toBeLessThan(0.01);
  });

  it('agrees between steps of a minute and of an hour within a half percent on a clear year', () => {
    const minutes = sunPath(startS, 1, HOURS * 60, -36, 150);
    const fine = Float64Array.from(minutes.cosZenith, clearSkyGlobal);
    const hourly = new Float64Array(HOURS);
    for (let i = 0; i < fine.length; i++) hourly[Math.floor(i / 60)] += fine[i] / 60;
    const plane = { tiltDeg: 30, azimuthDeg: 60, albedo: 0.2 };
    const poa = new Float64Array(fine.length);
    planeOfArrayInto(poa, minutes, globalOnly(fine), plane);
    expect(Math.abs(sum(onPlane(globalOnly(hourly), plane)) / (sum(poa) / 60) - 1)).toBeLessThan(0.005);
  });

  it('behind a wall all round gets the even sky and the ground only; a low horizon takes the beam at its times', () => {
    const open = onPlane(globalOnly(clear), {});
    const walled = onPlane(globalOnly(clear), { horizon: horizonOf([[0, 89]]) });
    const low = onPlane(globalOnly(clear), {
      horizon: horizonOf([
        [0, 0],
        [80, 0],
        [90, 15],
        [180, 15],
        [190, 0],
      ]),
    });
    for (const model of MODELS)
      expect(sum(onPlane(globalOnly(clear), { model, horizon: horizonOf([[0, 89]]) }))).toBeLessThan(
        0.35 * sum(open),
      );
    expect(sum(low)).toBeLessThan(sum(open));
    for (let i = 0; i < HOURS; i++) {
      const isLow = path.cosZenith[i] < Math.sin((15 * Math.PI) / 180);
      const isThere = path.azimuthDeg[i] >= 90 && path.azimuthDeg[i] <= 180;
      if (isLow && isThere) expect(low[i]).toBe(walled[i]);
      if (!isLow) expect(low[i]).toBe(open[i]);
    }
  });

  it('cuts the even sky to the share that is left of it, and neither beam nor ground', () => {
    const flat = new Float64Array(HOURS).fill(100);
    const sky = { globalWPerM2: flat, directWPerM2: new Float64Array(HOURS), diffuseWPerM2: flat };
    const ground = 20 * groundModifier(90);
    const poa = onPlane(sky, { tiltDeg: 90, albedo: 0.4, skyFrac: 0.7 });
    expect(poa[12]).toBeCloseTo(0.7 * 50 * skyModifier(90) + ground, 9);
    const whole = onPlane(globalOnly(clear), {});
    expect([...onPlane(globalOnly(clear), { skyFrac: 1 })]).toEqual([...whole]);
    const none = onPlane(globalOnly(clear), { skyFrac: 0 });
    const half = onPlane(globalOnly(clear), { skyFrac: 0.5 });
    for (let i = 0; i < HOURS; i++) expect(half[i]).toBeCloseTo((whole[i] + none[i]) / 2, 9);
  });

  it('counts the steps that were split, and fills single gaps of direct and diffuse from the global', () => {
    const some = clear.map((value) => 0.4 * value);
    const out = new Float64Array(HOURS);
    const plane = { tiltDeg: 30, azimuthDeg: 0, albedo: 0.2 };
    const lit = clear.filter((value) => value > 0).length;
    expect(planeOfArrayInto(out, path, globalOnly(clear), plane)).toBe(lit);
    const sky = { globalWPerM2: clear, directWPerM2: some, diffuseWPerM2: some };
    expect(planeOfArrayInto(out, path, sky, plane)).toBe(0);
    const noon = clear.indexOf(Math.max(...clear));
    const holed = {
      ...sky,
      directWPerM2: withAt(some, noon, Number.NaN),
      diffuseWPerM2: withAt(some, noon, Number.NaN),
    };
    const filled = new Float64Array(HOURS);
    expect(planeOfArrayInto(filled, path, holed, plane)).toBe(1);
    expect(filled[noon]).toBe(onPlane(globalOnly(clear), plane)[noon]);
    expect(withAt(filled, noon, 0)).toEqual(withAt(out, noon, 0));
  });

  it('takes nights measured a little below zero as dark, and refuses a hole in the global', () => {
    const night = path.sunlit.indexOf(0);
    expect(onPlane(globalOnly(withAt(clear, night, -2)), {})[night]).toBe(0);
    expect(() => onPlane(globalOnly(withAt(clear, night, Number.NaN)), {})).toThrow(`step ${night}`);
  });
});
