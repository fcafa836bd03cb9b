import { describe, expect, it } from 'vitest';
import { sum, winter, winterSaid } from './winter-site.ts';

const HILL =
  '[{ azimuthDeg: 100, elevationDeg: 0 }, { azimuthDeg: 130, elevationDeg: 25 }, { azimuthDeg: 230, elevationDeg: 25 }, { azimuthDeg: 260, elevationDeg: 0 }]';
const offered = (wanted: Parameters<typeof winter>[0]) =>
  winter(wanted).result.inputs.dcArrayKw as Float64Array;
const plain = offered({});

describe('the horizon of a site', () => {
  it('takes the winter sun behind a hill of 25° in the south, and tells how much', () => {
    const { result } = winter({ sky: `horizon: ${HILL}` });
    const kw = result.inputs.dcArrayKw as Float64Array;
    // at 47° north the sun stands at most 20° high on 1 January
    expect(kw[11]).toBeLessThan(0.6 * plain[11]);
    expect(kw[11]).toBeGreaterThan(0);
    expect(sum(result.yields[0].lostKwh.horizon)).toBeCloseTo(sum(plain) - sum(kw), 9);
    expect(result.yields[0].lostKwh.horizon.every((kwh) => kwh > 0)).toBe(true);
  });

  it('where the sun never stands takes its part of the sky all the same', () => {
    const north =
      '[{ azimuthDeg: 290, elevationDeg: 0 }, { azimuthDeg: 300, elevationDeg: 60 }, { azimuthDeg: 60, elevationDeg: 60 }, { azimuthDeg: 70, elevationDeg: 0 }]';
    const kw = offered({ sky: `horizon: ${north}` });
    expect(kw[11]).toBeLessThan(plain[11]);
    expect(kw[11]).toBeGreaterThan(0.9 * plain[11]);
  });

  it('of an array counts before that of the site', () => {
    const own = offered({ sky: `horizon: ${HILL}`, array: 'horizon: []' });
    expect([...own]).toEqual([...plain]);
    expect([...offered({ array: `horizon: ${HILL}` })]).toEqual([...offered({ sky: `horizon: ${HILL}` })]);
  });

  it('that is level all round gives the same bits as none', () => {
    expect([...offered({ sky: 'horizon: [{ azimuthDeg: 0, elevationDeg: 0 }]' })]).toEqual([...plain]);
  });

  it('with two points in a direction is refused, and behind a measured plane it is doubted', () => {
    expect(
      winterSaid({
        sky: 'horizon: [{ azimuthDeg: 0, elevationDeg: 3 }, { azimuthDeg: 360, elevationDeg: 4 }]',
      }),
    ).toMatchSnapshot();
    expect(
      winterSaid({
        sky: `horizon: ${HILL}`,
        weather: 'planeOfArray: { column: snow, tiltDeg: 35, azimuthDeg: 180 }',
      }),
    ).toMatchSnapshot();
  });
});

describe('models of sky and cells', () => {
  it('the site file chooses among them; left out is Hay and Davies, and Ross', () => {
    const models = ['isotropic', 'hayDavies', 'perez'].map((name) =>
      sum(offered({ sky: `transposition: ${name}` })),
    );
    expect(new Set(models.map((kw) => kw.toFixed(6))).size).toBe(3);
    expect(models[1]).toBe(sum(plain));
    expect([...offered({ array: 'cellTemperature: noct' })]).toEqual([...plain]);
  });

  it('wind cools: more than in still air, and it must be known', () => {
    const windy = sum(offered({ array: 'cellTemperature: faiman' }));
    const still = sum(offered({ array: 'cellTemperature: faiman, faimanU1: 0' }));
    expect(windy).toBeGreaterThan(still);
    expect(
      winterSaid({ array: 'cellTemperature: faiman', instead: [[', wind: wind', '']] }),
    ).toMatchSnapshot();
  });

  it('soiling goes by the month', () => {
    const months = (first: number, second: number) =>
      `soilingByMonth: [${[first, second, ...new Array<number>(10).fill(1)].join(', ')}]`;
    expect([...offered({ array: months(0.03, 0.03) })]).toEqual([...plain]);
    const kw = offered({ array: months(0.03, 0.5) });
    expect([...kw.subarray(0, 744)]).toEqual([...plain.subarray(0, 744)]);
    expect(sum(kw.subarray(744))).toBeLessThan(0.6 * sum(plain.subarray(744)));
    expect(winterSaid({ array: 'soilingByMonth: [0.1, 30]' })).toMatchSnapshot();
  });
});
