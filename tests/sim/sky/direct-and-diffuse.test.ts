import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LEAST_COS_ZENITH, splitGlobal } from '../../../src/sim/sky/diffuse-split.ts';
import { directAndDiffuseInto } from '../../../src/sim/sky/direct-and-diffuse.ts';

const global = fc.double({ min: 0, max: 1500, noNaN: true });
const share = fc.double({ min: 0, max: 1, noNaN: true });
const EXTRA = 1361;

function found(
  ...known: [global: number, direct: number, diffuse: number, cosZenith: number, sunlit: number]
) {
  const out = new Float64Array(2);
  const wasSplit = directAndDiffuseInto(out, ...known, EXTRA);
  return { direct: out[0], diffuse: out[1], wasSplit };
}

describe('direct and diffuse of a step', () => {
  it('close: global = direct·cos z + diffuse, direct at most the extraterrestrial, none negative', () => {
    fc.assert(
      fc.property(global, share, (ghi, cosZenith) => {
        const split = splitGlobal(ghi, cosZenith, EXTRA);
        expect(Math.abs(split.directNormal * cosZenith + split.diffuse - ghi)).toBeLessThan(1e-9);
        expect(split.directNormal).toBeGreaterThanOrEqual(0);
        expect(split.directNormal).toBeLessThanOrEqual(EXTRA);
        expect(split.diffuse).toBeGreaterThanOrEqual(0);
        if (cosZenith < LEAST_COS_ZENITH) expect(split.directNormal).toBe(0);
      }),
      { numRuns: 1000 },
    );
  });

  it('close with none or one of the two known, in steps partly lit too', () => {
    fc.assert(
      fc.property(
        global,
        share,
        share,
        share,
        fc.constantFrom('none', 'direct', 'diffuse'),
        (ghi, part, cosZenith, lit, known) => {
          const direct = known === 'direct' ? part * EXTRA : Number.NaN;
          const diffuse = known === 'diffuse' ? part * ghi : Number.NaN;
          const step = found(ghi, direct, diffuse, cosZenith, lit);
          expect(step.wasSplit).toBe(known === 'none');
          expect(Math.abs(step.direct * cosZenith + step.diffuse - ghi)).toBeLessThan(1e-9);
          expect(Math.min(step.direct, step.diffuse)).toBeGreaterThanOrEqual(0);
          expect(step.direct).toBeLessThanOrEqual(EXTRA * lit);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('takes what is known as it is while the sun is high', () => {
    expect(found(700, 800, 120, 0.7, 1)).toEqual({ direct: 800, diffuse: 120, wasSplit: false });
    expect(found(700, 800, Number.NaN, 0.7, 1).diffuse).toBeCloseTo(140, 9);
    expect(found(700, Number.NaN, 140, 0.7, 1).direct).toBeCloseTo(800, 9);
  });

  it('counts a known beam at low sun as diffuse, so that nothing is lost', () => {
    const low = found(30, 200, 22, 0.04, 1);
    expect(low).toEqual({ direct: 0, diffuse: 30, wasSplit: false });
    expect(found(30, Number.NaN, 22, 0.04, 1)).toEqual({ direct: 0, diffuse: 30, wasSplit: false });
  });

  it('reads the clearness of a half-lit step from its lit half', () => {
    // the same sky for half the time: half the direct, half the diffuse
    const whole = found(200, Number.NaN, Number.NaN, 0.3, 1);
    const half = found(100, Number.NaN, Number.NaN, 0.3, 0.5);
    expect(half.direct).toBeCloseTo(whole.direct / 2, 9);
    expect(half.diffuse).toBeCloseTo(whole.diffuse / 2, 9);
  });
});
