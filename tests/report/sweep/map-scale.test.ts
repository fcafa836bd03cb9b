import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { classOf, mapScale } from '../../../src/report/charts/map-scale.ts';

/** Relative luminance and contrast by WCAG 2.2, sections 'relative luminance' and 'contrast ratio' (from memory). */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

describe('mapScale', () => {
  it('has round bounds and few classes', () => {
    const { classes } = mapScale([161.8, 163, 170, 174, 180, 183, 188, 190, 195, 212]);
    expect(classes.map(({ from }) => from)).toEqual([null, 170, 180, 190]);
    expect(classOf(mapScale([0, 10]), 5).from).not.toBeNull();
    expect(mapScale([3]).classes).toHaveLength(1);
  });

  it('keeps one far value from making all others alike', () => {
    const values = [...Array.from({ length: 30 }, (_, i) => 100 + i), 5000];
    const used = new Set(values.slice(0, -1).map((value) => classOf(mapScale(values), value).fill));
    expect(used.size).toBeGreaterThanOrEqual(5);
  });

  it('puts every value into the class whose bounds hold it, darker the higher, with readable text', () => {
    const numbers = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), {
      minLength: 1,
      maxLength: 40,
    });
    fc.assert(
      fc.property(numbers, (values) => {
        const scale = mapScale(values);
        expect(scale.classes.length).toBeLessThanOrEqual(7);
        for (const value of values) {
          const { from, to } = classOf(scale, value);
          expect((from === null || value >= from) && (to === null || value < to)).toBe(true);
        }
        const lights = scale.classes.map(({ fill }) => luminance(fill));
        for (const [i, light] of lights.entries()) if (i > 0) expect(light).toBeLessThan(lights[i - 1]);
        for (const { fill, ink } of scale.classes) {
          const [a, b] = [luminance(fill), luminance(ink)].sort((x, y) => y - x);
          expect((a + 0.05) / (b + 0.05)).toBeGreaterThanOrEqual(4.5);
        }
        const [low, high] = [Math.min(...values), Math.max(...values)];
        const differ = high - low > 1e-6 * Math.max(1, -low, high);
        if (differ)
          expect(new Set(values.map((value) => classOf(scale, value).fill)).size).toBeGreaterThan(1);
      }),
      { numRuns: 500 },
    );
  });
});
