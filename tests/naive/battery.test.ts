/** Charging of the naive simulator against a fine numerical integration of its own differential equation. */
import { expect, it } from 'vitest';
import type { Battery } from '../../src/sim/plant.ts';
import { plainBattery } from '../references/plain-site.ts';
import { chargedKwh } from './battery.ts';

/** dE/dt = chargeEff·min(U, accept(E)), by classical Runge-Kutta steps. */
function integrated(battery: Battery, startKwh: number, limitKw: number, offeredKw: number, hours: number) {
  const taperKwh = battery.taperStartSoc * battery.capacityKwh;
  const slope = (1 - battery.taperEndFrac) / (battery.capacityKwh - taperKwh);
  const rate = (kwh: number) =>
    kwh >= battery.capacityKwh
      ? 0
      : battery.chargeEff * Math.min(offeredKw, limitKw * (1 - slope * Math.max(0, kwh - taperKwh)));
  const steps = 40_000;
  const dt = hours / steps;
  let kwh = startKwh;
  for (let step = 0; step < steps; step++) {
    const k1 = rate(kwh);
    const k2 = rate(kwh + (dt / 2) * k1);
    const k3 = rate(kwh + (dt / 2) * k2);
    const k4 = rate(kwh + dt * k3);
    kwh += (dt / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  return Math.min(battery.capacityKwh, kwh) - startKwh;
}

const battery = plainBattery(10, 0.95, { taperStartSoc: 0.8, taperEndFrac: 0.1 });

it.each([
  { startKwh: 2, offeredKw: 9, hours: 0.5, what: 'below the taper, at the limit' },
  { startKwh: 2, offeredKw: 1, hours: 0.5, what: 'below the taper, all that is offered' },
  { startKwh: 7, offeredKw: 9, hours: 1, what: 'into the taper' },
  { startKwh: 7, offeredKw: 2, hours: 2, what: 'into the taper, where the offer is above acceptance' },
  { startKwh: 9, offeredKw: 9, hours: 0.3, what: 'from within the taper' },
  { startKwh: 9, offeredKw: 1, hours: 0.1, what: 'within the taper, all that is offered' },
  { startKwh: 7, offeredKw: 9, hours: 4, what: 'until full' },
])('charges as its differential equation says: $what', ({ startKwh, offeredKw, hours }) => {
  const exact = integrated(battery, startKwh, 4, offeredKw, hours);
  expect(chargedKwh(battery, startKwh, 4, offeredKw, hours)).toBeCloseTo(exact, 7);
  expect(exact).toBeGreaterThan(0);
});

it('a full or frozen battery takes nothing', () => {
  expect(chargedKwh(battery, 10, 4, 9, 1)).toBe(0);
  expect(chargedKwh(battery, 5, 0, 9, 1)).toBe(0);
});
