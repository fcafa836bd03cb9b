import { describe, expect, it } from 'vitest';
import { dutyTowards, thermalStep } from '../../src/sim/cabinet.ts';
import type { Cabinet } from '../../src/sim/plant.ts';

/** A cabinet whose battery node hardly takes part, so that closed one-node forms hold. */
function oneNode(capacityKjPerK: number, uaWPerK: number): Cabinet {
  return {
    airKwhPerK: capacityKjPerK / 3600,
    batteryKwhPerK: 1,
    airToOutsideKwPerK: uaWPerK / 1000,
    airToBatteryKwPerK: 0,
    batteryToOutsideKwPerK: 0,
    sunApertureM2: 0,
    initialC: 0,
    coolerKw: 0,
    coolerCop: 1,
    coolerOnC: 90,
    coolerOffC: 80,
    heaterKw: 0,
    heaterOnC: -50,
    heaterOffC: -40,
    heaterMinSoc: 0,
  };
}

/** Air temperature step by step under an outside temperature and heat that may change each step. */
function airAfter(
  cabinet: Cabinet,
  stepH: number,
  steps: number,
  start: number,
  at: (i: number) => [number, number],
) {
  const { phi, gamma } = thermalStep(cabinet, stepH);
  let air = start;
  const trace: number[] = [];
  for (let i = 0; i < steps; i++) {
    const [outsideC, heatKw] = at(i);
    air = phi[0] * air + gamma[0] * outsideC + gamma[1] * heatKw;
    trace.push(air);
  }
  return trace;
}

// Closed forms of a first-order node (derived; any heat-transfer text): UA = 5.5 W/m²K · 4.0 m² = 22 W/K.
describe('cabinet temperatures', () => {
  it('settle at P/(UA): 500 W on 22 W/K is 22.7273 K', () => {
    const trace = airAfter(oneNode(20, 22), 1, 200, 0, () => [0, 0.5]);
    expect(trace[199]).toBeCloseTo(22.7273, 4);
  });

  it('rise as 1 − e^(−t/τ), τ = 909.09 s, whatever the step', () => {
    for (const minutes of [1, 2, 5, 10]) {
      const trace = airAfter(oneNode(20, 22), minutes / 60, 10 / minutes, 0, () => [0, 0.5]);
      expect(trace[trace.length - 1]).toBeCloseTo(10.98065, 5);
    }
    const tau = 20000 / 22 / 3600;
    expect(airAfter(oneNode(20, 22), tau, 1, 35, () => [35, 0.5])[0]).toBeCloseTo(49.36638, 5);
  });

  it('cool by e^(−t/τ): 30 min after 22.7273 K, 3.13794 K are left', () => {
    expect(airAfter(oneNode(20, 22), 0.5, 1, 500 / 22, () => [0, 0])[0]).toBeCloseTo(3.13794, 5);
  });

  it('swing between 0.23312 and 12.72817 K for 1 h on, 4 h off, τ 1 h, 20 K', () => {
    const cabinet = oneNode(3600, 1000);
    const trace = airAfter(cabinet, 0.25, 20 * 40, 0, (i) => [0, i % 20 < 4 ? 20 : 0]);
    const last = trace.slice(-20);
    expect(Math.max(...last)).toBeCloseTo(12.72817, 5);
    expect(Math.min(...last)).toBeCloseTo(0.23312, 5);
  });

  it('follow a 24 h sine through τ 2 h with factor 0.885908 and a lag of 110.546 min', () => {
    const cabinet = oneNode(7200, 1000);
    const stepH = 1 / 60;
    const mid = (i: number) => Math.sin((2 * Math.PI * (i + 0.5) * stepH) / 24);
    const trace = airAfter(cabinet, stepH, 1440 * 5, 0, (i) => [mid(i), 0]).slice(-1440);
    const peak = trace.indexOf(Math.max(...trace));
    expect(trace[peak]).toBeCloseTo(0.885908, 5);
    // value i is at the end of minute i; the sine peaks at minute 360
    expect(Math.abs(peak + 1 - 360 - 110.546)).toBeLessThan(1);
  });

  it('with two nodes keep heat: what goes in ends in the nodes or outside', () => {
    const cabinet = { ...oneNode(40, 0), airToBatteryKwPerK: 0.03, batteryKwhPerK: 0.2 };
    const { phi, gamma } = thermalStep(cabinet, 0.5);
    const air = phi[0] * 10 + phi[1] * 20 + gamma[1] * 0.3 + gamma[2] * 0.1;
    const battery = phi[2] * 10 + phi[3] * 20 + gamma[4] * 0.3 + gamma[5] * 0.1;
    const before = 10 * cabinet.airKwhPerK + 20 * cabinet.batteryKwhPerK;
    const after = air * cabinet.airKwhPerK + battery * cabinet.batteryKwhPerK;
    expect(after - before).toBeCloseTo(0.5 * 0.4, 10);
  });
});

describe('dutyTowards', () => {
  it('runs all through the step, or the share that ends at the switching temperature', () => {
    expect(dutyTowards(5, 3, true)).toBe(1);
    expect(dutyTowards(2, 4, true)).toBe(0.5);
    expect(dutyTowards(-1, 4, true)).toBe(0);
    expect(dutyTowards(1, 4, false)).toBe(0.25);
    expect(dutyTowards(9, 4, false)).toBe(1);
    expect(dutyTowards(-1, 4, false)).toBe(0);
  });
});
