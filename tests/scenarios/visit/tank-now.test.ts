import { describe, expect, it } from 'vitest';
import { tankNow } from '../../../src/scenarios/visit/tank-now.ts';

/** Half-hourly levels, evenly falling. */
function tank(
  days: number,
  litresADay: number,
  change: (level: number, step: number) => number = (level) => level,
) {
  const count = 48 * days;
  const fuelL = Float64Array.from({ length: count }, (_, i) => change(900 - (litresADay * (i + 1)) / 48, i));
  const dayNumber = Int32Array.from({ length: count }, (_, i) => Math.floor(i / 48));
  const record = { axis: { startS: 0, stepMin: 30, count }, columns: { fuelL }, arraysKw: {} };
  return { record, calendar: { dayNumber }, site: { tank: { reserveL: 40 } } } as unknown as Parameters<
    typeof tankNow
  >[0];
}

describe('the tank at the end of a log', () => {
  it('has what is left, and lasts until the reserve', () => {
    const now = tankNow(tank(20, 10));
    expect(now?.levelL).toBeCloseTo(700, 0);
    expect(now?.litresADay).toBeCloseTo(10, 6);
    expect(now?.daysLeft).toBeCloseTo(66, 0);
  });

  it('goes by the last four weeks, deliveries apart', () => {
    // 5 L a day for forty days, then 10
    const two = tankNow(tank(80, 5, (level, i) => level - Math.max(0, (5 * (i - 48 * 40)) / 48)));
    expect(two?.litresADay).toBeCloseTo(10, 6);
    const filled = tankNow(tank(20, 10, (level, i) => level + (i >= 48 * 12 + 10 ? 500 : 0)));
    // a day with a delivery early in it has its median a little later
    expect(filled?.litresADay).toBeCloseTo(10, 0);
    expect(filled?.levelL).toBeCloseTo(1200, 0);
  });

  it('bears gaps and readings that are far off', () => {
    const now = tankNow(
      tank(20, 10, (level, i) => (i % 48 === 7 ? 0 : i > 300 && i < 420 ? Number.NaN : level)),
    );
    expect(now?.litresADay).toBeCloseTo(10, 1);
  });

  it('lasts for ever where nothing is used, and is not known without a level', () => {
    expect(tankNow(tank(20, 0))).toMatchObject({ litresADay: 0, daysLeft: null });
    const none = tank(20, 10);
    expect(tankNow({ ...none, record: { ...none.record, columns: {} } })).toBeNull();
  });
});
