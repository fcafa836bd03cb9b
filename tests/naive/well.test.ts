/** The two wells against values worked out from Manwell and McGowan's equations (Solar Energy 50:399, 1993). */
import { expect, it } from 'vitest';
import { plainBattery } from '../references/plain-site.ts';
import type { Site } from './site.ts';
import { mostIntoWellKw, mostOutOfWellKw, wellAfterKwh } from './well.ts';

/** 100 kWh with 0.6 of it at hand at rest, evening out at 0.5 an hour. */
function siteWith(wellKwh: number, energyKwh: number): Site {
  const battery = plainBattery(100, 1, { kinetic: { atHandFrac: 0.6, ratePerH: 0.5 } });
  return { plant: { battery }, state: { wellKwh, energyKwh } } as Site;
}

it('empties and recovers as the closed form says', () => {
  const drawnKwh = wellAfterKwh(siteWith(60, 100), 80, 1);
  expect(drawnKwh).toBeCloseTo(41.704491, 6);
  expect(wellAfterKwh(siteWith(drawnKwh, 80), 80, 2)).toBeCloseTo(45.684012, 6);
});

it('gives at most what empties the well at hand, and takes at most what fills it', () => {
  const mostKw = mostOutOfWellKw(siteWith(60, 100), 1);
  expect(mostKw).toBeCloseTo(65.58987, 5);
  expect(wellAfterKwh(siteWith(60, 100), 100 - mostKw, 1)).toBeCloseTo(0, 9);
  const intoKw = mostIntoWellKw(siteWith(30, 50), 0.5);
  expect(intoKw).toBeGreaterThan(30);
  expect(wellAfterKwh(siteWith(30, 50), 50 + 0.5 * intoKw, 0.5)).toBeCloseTo(60, 9);
});
