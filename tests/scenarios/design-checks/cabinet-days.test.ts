/** Cells on a design day where batteries stand in several cabinets: the coldest and the hottest of them count. */
import { describe, expect, it } from 'vitest';
import { type Changes, runFarm } from '../cold-farm.ts';

const FARM = {
  ...{ seed: 'two cabinets', modules: 4, kWp: 2, startSoc: 0.35, peakKw: null },
  ...{ airC: -4, heater: true, cooler: false },
};
/** A further cabinet, with no heater. */
const BESIDE = {
  ...{ name: 'beside', modules: 2, airKjPerK: 10, batteryKjPerK: 60 },
  ...{ airToOutsideWPerK: 20, airToBatteryWPerK: 20 },
};

const LOSSLESS = { 'battery.chargeEfficiency': 1, 'battery.dischargeEfficiency': 1 };

/**
 * By hand: the air swings by 4 K about -4 °C; 10 W/K to the cells and 60 kJ/K lag by 6000 s, which leaves the sine
 * 1/√(1 + (2π/86400·6000)²) = 0.917 of its height; of the 30 W of standby its share warms them by 3 K at most.
 * The battery loses nothing by charge and discharge.
 */
const coldestBeside = (share: number) => -4 - 4 * 0.917 + 3 * share;

function checkOf(key: string, changes: Changes) {
  const { study } = runFarm(FARM, [{ name: 'changed', changes: { ...LOSSLESS, ...changes } }]);
  return study?.alternatives[1].checks.find((check) => check.key === key);
}

describe('cells on a design day', () => {
  it('are those of the coldest cabinet, not the mean of all', () => {
    expect(checkOf('cabinet.coldCells', {})?.value).toBeGreaterThan(0);
    const both = checkOf('cabinet.coldCells', { batteryCabinets: [BESIDE] })?.value ?? Number.NaN;
    expect(Math.abs(both - coldestBeside(0.5))).toBeLessThan(0.15);
  });

  it('are those of the hottest cabinet', () => {
    const hot: Changes = { 'design.hottestC': 50, 'design.dailySwingK': 20 };
    const sunny = checkOf('cabinet.hotCells', { ...hot, batteryCabinets: [{ ...BESIDE, sunM2: 2 }] });
    const shaded = checkOf('cabinet.hotCells', { ...hot, batteryCabinets: [BESIDE] });
    // two square metres of sun, through 20 W/K to the outside: some tens of kelvins above the shaded one
    expect((sunny?.value ?? 0) - (shaded?.value ?? 0)).toBeGreaterThan(15);
    expect(sunny?.verdict).toBe('not acceptable');
  });

  it('are those of the further cabinet where all stand in it', () => {
    const all = checkOf('cabinet.coldCells', { batteryCabinets: [{ ...BESIDE, modules: 4 }] });
    expect(Math.abs((all?.value ?? Number.NaN) - coldestBeside(1))).toBeLessThan(0.15);
  });
});
