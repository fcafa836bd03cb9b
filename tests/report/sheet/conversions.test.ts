/** Volts and amperes of the commissioning sheet against values worked by hand. */
import { describe, expect, it } from 'vitest';
import {
  busAmps,
  chargerAmps,
  emptyVoltages,
  phaseAmps,
  wholeAmpsBelow,
} from '../../../src/report/sheet/conversions.ts';

describe('amperes per phase', () => {
  // derived: S = √3 · U · I; 100 kVA at power factor 0.8 and 400 V is 80 kW and 144.3376 A
  it('of a set of 100 kVA, power factor 0.8, 400 V: 144.3376 A', () => {
    expect(phaseAmps(80 / 3, 400 / Math.sqrt(3), 0.8)).toBeCloseTo(144.3376, 4);
  });
  // derived: a motor of 7.5 kW at the shaft, efficiency 0.87, power factor 0.85: 10.142 kVA, 14.64 A at 400 V
  it('of a 7.5 kW motor, efficiency 0.87, power factor 0.85: 14.64 A', () => {
    expect(phaseAmps(7.5 / 0.87 / 3, 400 / Math.sqrt(3), 0.85)).toBeCloseTo(14.64, 2);
  });
  // by hand: 5800 W / (230 V · 0.9) = 5800 / 207 = 28.019 A; 4200 / 207 = 20.290 A
  it("of the farm's peak thresholds: 28.02 and 20.29 A", () => {
    expect(phaseAmps(5.8, 230, 0.9)).toBeCloseTo(28.019, 3);
    expect(phaseAmps(4.2, 230, 0.9)).toBeCloseTo(20.29, 3);
  });
  // by hand: 20 kW over three phases, 6666.7 W / 230 V = 28.986 A: 28 A is entered, never 29
  it('of a third of 20 kW at power factor 1: 28.99 A, entered as 28', () => {
    expect(phaseAmps(20 / 3, 230, 1)).toBeCloseTo(28.986, 3);
    expect(wholeAmpsBelow(phaseAmps(20 / 3, 230, 1))).toBe(28);
    expect(wholeAmpsBelow(phaseAmps(6.9, 230, 1))).toBe(30);
  });
});

describe('amperes at the battery', () => {
  // by hand: 6 kW · 0.94 = 5.64 kW; 5640 W / 51.2 V = 110.156 A; three phases 330.469 A
  it('of a 6 kW charger with efficiency 0.94 at 51.2 V: 110.16 A', () => {
    expect(chargerAmps(6, 0.94, 51.2)).toBeCloseTo(110.156, 3);
    expect(3 * chargerAmps(6, 0.94, 51.2)).toBeCloseTo(330.469, 3);
  });
  // by hand: 12 modules · 2.5 kW = 30 kW; 30,000 / 51.2 = 585.94 A
  it('of twelve modules of 2.5 kW at 51.2 V: 585.94 A', () => {
    expect(busAmps(30, 51.2)).toBeCloseTo(585.9375, 6);
  });
});

describe('voltages near empty', () => {
  // common practice, from memory: 3.2 V nominal a cell of lithium iron phosphate, 3.0 V under load is nearly empty
  it('of 51.2 V lithium iron phosphate: 16 cells, 48.0 and 44.8 V', () => {
    const { cells, startV, cutoffV } = emptyVoltages(51.2, false);
    expect(cells).toBe(16);
    expect(startV).toBeCloseTo(48, 9);
    expect(cutoffV).toBeCloseTo(44.8, 9);
  });
  // common practice, from memory: 2 V nominal, 1.95 and 1.85 V under load
  it('of 48 V lead-acid: 24 cells, 46.8 and 44.4 V', () => {
    const { cells, startV, cutoffV } = emptyVoltages(48, true);
    expect(cells).toBe(24);
    expect(startV).toBeCloseTo(46.8, 9);
    expect(cutoffV).toBeCloseTo(44.4, 9);
  });
  it('lies below the flat part: a fallback is no threshold for 30 %', () => {
    for (const busV of [12.8, 25.6, 51.2, 102.4]) {
      const { cells, startV, cutoffV } = emptyVoltages(busV, false);
      // nearly flat between 30 and 80 % at about 3.25 to 3.33 V a cell at rest (common practice, from memory)
      expect(startV / cells).toBeLessThan(3.2);
      expect(cutoffV).toBeLessThan(startV);
    }
  });
});
