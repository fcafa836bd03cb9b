import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PeakSpread, spreadPeaks } from '../../src/scenarios/minute-peaks.ts';

const SPREAD: PeakSpread = {
  peakedness: 2,
  pulseMin: 4,
  baseFrac: 0.4,
  ceilingKw: Number.POSITIVE_INFINITY,
  seed: 'a',
};

function means(minutes: Float64Array, perInterval: number): number[] {
  return Array.from({ length: minutes.length / perInterval }, (_, i) => {
    const part = minutes.subarray(i * perInterval, (i + 1) * perInterval);
    return part.reduce((sum, kw) => sum + kw, 0) / perInterval;
  });
}

describe('spreadPeaks', () => {
  it('keeps the energy of every interval, the ceiling and the base', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 40, noNaN: true }), { minLength: 1, maxLength: 40 }),
        fc.constantFrom(5, 15, 30, 60),
        fc.double({ min: 1, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 1, max: 20 }),
        (kw, intervalMin, peakedness, baseFrac, pulseMin) => {
          const spread = { ...SPREAD, peakedness, baseFrac, pulseMin, ceilingKw: 30 };
          const meanKw = Float64Array.from(kw);
          const minutes = spreadPeaks(meanKw, intervalMin, 1, spread);
          expect(minutes.length).toBe(kw.length * intervalMin);
          for (const [i, mean] of means(minutes, intervalMin).entries()) {
            expect(Math.abs(mean - kw[i])).toBeLessThan(1e-10 * Math.max(1, kw[i]));
            const part = minutes.subarray(i * intervalMin, (i + 1) * intervalMin);
            expect(Math.max(...part)).toBeLessThanOrEqual(Math.max(kw[i], 30) * (1 + 1e-12));
            expect(Math.max(...part)).toBeLessThanOrEqual(kw[i] * peakedness * (1 + 1e-12));
            expect(Math.min(...part)).toBeGreaterThanOrEqual(kw[i] * baseFrac * (1 - 1e-12));
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  it('reaches the stated peakedness where an interval has the energy for it', () => {
    const minutes = spreadPeaks(Float64Array.of(1, 5, 10), 30, 1, SPREAD);
    for (const [i, mean] of [1, 5, 10].entries())
      expect(Math.max(...minutes.subarray(i * 30, i * 30 + 30)) / mean).toBeCloseTo(2, 10);
  });

  it('keeps load classes in order: a higher interval has a higher peak', () => {
    const kw = Float64Array.from({ length: 200 }, (_, i) => 0.1 * (i + 1));
    const minutes = spreadPeaks(kw, 15, 1, SPREAD);
    const peaks = Array.from(kw, (_, i) => Math.max(...minutes.subarray(i * 15, i * 15 + 15)));
    for (let i = 1; i < peaks.length; i++) expect(peaks[i]).toBeGreaterThan(peaks[i - 1]);
  });

  it('gives the same bits for the same seed and others for another', () => {
    const kw = Float64Array.from({ length: 48 }, (_, i) => 1 + (i % 7));
    expect(spreadPeaks(kw, 30, 1, SPREAD)).toEqual(spreadPeaks(kw, 30, 1, SPREAD));
    expect(spreadPeaks(kw, 30, 1, SPREAD)).not.toEqual(spreadPeaks(kw, 30, 1, { ...SPREAD, seed: 'b' }));
  });
});
