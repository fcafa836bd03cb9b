import { describe, expect, it } from 'vitest';
import { lockedRotorKva, runningKva, startKva, voltageDip } from '../../src/sim/electrical/motor-start.ts';
import { lineCurrentA } from '../../src/sim/electrical/three-phase.ts';

// a motor of 7.5 kW, efficiency 0.87, power factor 0.85: derived from the definitions for this project
const running = runningKva(7.5, 0.87, 0.85);

describe('a motor of 7.5 kW', () => {
  it('takes 10.142 kVA running, 14.64 A at 400 V', () => {
    expect(running).toBeCloseTo(10.142, 3);
    expect(lineCurrentA(running, 400 / Math.sqrt(3), 3)).toBeCloseTo(14.64, 2);
  });

  // six to eight times direct on line: from memory; star-delta a third and the autotransformer's taps of 65 and
  // 80 %: seen second hand
  it('starts with 60.85 to 81.14 kVA direct on line, 20.28 by star-delta, less by autotransformer', () => {
    expect(startKva(running, 6 * running, 'direct')).toBeCloseTo(60.85, 2);
    expect(startKva(running, 8 * running, 'direct')).toBeCloseTo(81.14, 2);
    expect(startKva(running, 6 * running, 'starDelta')).toBeCloseTo(20.28, 2);
    expect(startKva(running, 6 * running, 'autotransformer65') / (6 * running)).toBeCloseTo(0.42, 9);
    expect(startKva(running, 6 * running, 'autotransformer80') / (6 * running)).toBeCloseTo(0.64, 9);
  });

  // common practice: no source
  it('starts softly with half, and by a drive with little more than it runs with', () => {
    expect(startKva(running, 6 * running, 'soft')).toBeCloseTo(3 * running, 9);
    expect(startKva(running, 6 * running, 'variableSpeed')).toBeCloseTo(1.2 * running, 9);
  });

  // the divider of start and transient reactance: derived
  it.each([
    [100, 0.15, 8.364],
    [100, 0.2, 10.85],
    [60, 0.2, 16.863],
  ])('pulls a generator of %d kVA with X’d %d down by %d %%', (kva, reactance, percent) => {
    expect(100 * voltageDip(60.852, kva, reactance)).toBeCloseTo(percent, 3);
  });
});

describe('code letters of NEC table 430.7(B), after NEMA MG 1 (seen second hand)', () => {
  const TEN_HP_KW = 7.45699872;

  it('10 hp with letter G: 62.9 kVA at most', () => {
    expect(lockedRotorKva(TEN_HP_KW, 'G')).toBeCloseTo(62.9, 9);
  });

  it.each([
    ['A', 31.4],
    ['B', 35.4],
    ['C', 39.9],
    ['D', 44.9],
    ['E', 49.9],
    ['F', 55.9],
    ['H', 70.9],
    ['J', 79.9],
    ['K', 89.9],
    ['L', 99.9],
    ['M', 111.9],
    ['N', 124.9],
    ['P', 139.9],
    ['R', 159.9],
    ['S', 179.9],
    ['T', 199.9],
    ['U', 223.9],
  ])('10 hp with letter %s: %d kVA', (letter, kva) => {
    expect(lockedRotorKva(TEN_HP_KW, letter)).toBeCloseTo(kva, 9);
  });

  it.each(['I', 'O', 'Q', 'V', 'constructor'])('there is no upper end for %s', (letter) => {
    expect(lockedRotorKva(7.5, letter)).toBeNull();
  });
});
