import { describe, expect, it } from 'vitest';
import { horizonOf } from '../../src/sim/sky/horizon.ts';
import { skyLeftFrac } from '../../src/sim/sky/sky-left.ts';

const RAD = Math.PI / 180;
const even = (elevation: number) => horizonOf([[0, elevation]]);

/** View factor of the open sky: Liu and Jordan, Solar Energy 7(2), 1963. */
const openSky = (tiltDeg: number) => (1 + Math.cos(tiltDeg * RAD)) / 2;

describe('the even sky that a horizon leaves', () => {
  it.each([0, 5, 20, 45, 80])('all round at %d°, a flat plane keeps cos² of it (closed form)', (elevation) =>
    expect(skyLeftFrac(even(elevation), 0, 0)).toBeCloseTo(Math.cos(elevation * RAD) ** 2, 9),
  );

  it.each([0, 20, 45, 90])('level all round, nothing is lost at a tilt of %d°', (tilt) =>
    expect(skyLeftFrac(even(0), tilt, 77)).toBe(1),
  );

  it('below level hides nothing', () => expect(skyLeftFrac(even(-10), 40, 0)).toBe(1));

  it.each([10, 30, 60])('an upright plane before a ridge all round at %d° (closed form)', (elevation) => {
    // ∫ cos² e de from the ridge up, over that from level: 1 − (2 e + sin 2 e)/π
    const e = elevation * RAD;
    expect(skyLeftFrac(even(elevation), 90, 123)).toBeCloseTo(1 - (2 * e + Math.sin(2 * e)) / Math.PI, 6);
  });

  it('loses by a hill before it and not by one behind', () => {
    const south = horizonOf([
      [90, 0],
      [100, 25],
      [260, 25],
      [270, 0],
    ]);
    expect(skyLeftFrac(south, 90, 180)).toBeLessThan(0.6);
    expect(skyLeftFrac(south, 90, 0)).toBeCloseTo(1, 9);
  });

  it('agrees with a plain sum over the sky', () => {
    const hills = horizonOf([
      [10, 4],
      [80, 22],
      [200, 9],
      [300, 0],
    ]);
    const elevationAt = (azimuth: number) => {
      const points = [
        [-60, 0],
        [10, 4],
        [80, 22],
        [200, 9],
        [300, 0],
        [370, 4],
      ];
      const k = points.findIndex(([at]) => at >= azimuth);
      const [[a, low], [b, high]] = [points[k - 1], points[k]];
      return low + ((azimuth - a) / (b - a)) * (high - low);
    };
    const [tilt, facing] = [35, 150];
    let all = 0;
    let left = 0;
    for (let azimuth = 0.25; azimuth < 360; azimuth += 0.5)
      for (let e = 0.25; e < 90; e += 0.5) {
        const cosine =
          Math.cos(tilt * RAD) * Math.sin(e * RAD) +
          Math.sin(tilt * RAD) * Math.cos(e * RAD) * Math.cos((azimuth - facing) * RAD);
        const part = Math.max(0, cosine) * Math.cos(e * RAD);
        all += part;
        if (e > elevationAt(azimuth)) left += part;
      }
    expect(all * (0.5 * RAD) ** 2).toBeCloseTo(Math.PI * openSky(tilt), 3);
    expect(skyLeftFrac(hills, tilt, facing)).toBeCloseTo(left / all, 3);
  });
});
