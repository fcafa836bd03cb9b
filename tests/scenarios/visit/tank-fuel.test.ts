import { describe, expect, it } from 'vitest';
import { burnedByTank } from '../../../src/scenarios/visit/compare/tank-fuel.ts';

/** Steps of 5 min: an hour of standing, then half an hour of running, so many times; 3 L a run. */
function runsOf(
  count: number,
  change: (level: number, run: number, running: boolean) => number = (level) => level,
) {
  const level: number[] = [];
  const on: number[] = [];
  let now = 500;
  for (let run = 0; run < count; run++) {
    for (let i = 0; i < 12; i++) {
      if (i === 6) now = change(now, run, false);
      level.push(now);
      on.push(0);
    }
    for (let i = 0; i < 6; i++) {
      now -= 0.5;
      if (i === 0) now = change(now, run, true);
      level.push(now);
      on.push(1);
    }
  }
  for (let i = 0; i < 12; i++) {
    level.push(now);
    on.push(0);
  }
  const known = new Uint8Array(on.length).fill(1);
  return { level: Float64Array.from(level), on: Float64Array.from(on), known };
}

describe('fuel burned, by the tank', () => {
  it('is what each run takes from it', () => {
    const { level, on, known } = runsOf(10);
    expect(burnedByTank(level, on, known, 5)).toBeCloseTo(30, 9);
  });

  it('is not what it loses while the engine stands', () => {
    const { level, on, known } = runsOf(10, (now, run, running) => (!running && run === 4 ? now - 25 : now));
    expect(burnedByTank(level, on, known, 5)).toBeCloseTo(30, 9);
  });

  it('bears a delivery while it stands, and one over a run at the rate of the others', () => {
    const standing = runsOf(10, (now, run, running) => (!running && run === 4 ? now + 300 : now));
    expect(burnedByTank(standing.level, standing.on, standing.known, 5)).toBeCloseTo(30, 9);
    const running = runsOf(10, (now, run, isOn) => (isOn && run === 4 ? now + 300 : now));
    expect(burnedByTank(running.level, running.on, running.known, 5)).toBeCloseTo(30, 9);
  });

  it('counts known steps only, a run that is half known at the rate of the others', () => {
    const { level, on, known } = runsOf(10);
    for (let i = 12; i < 15; i++) {
      level[i] = Number.NaN;
      on[i] = Number.NaN;
      known[i] = 0;
    }
    expect(burnedByTank(level, on, known, 5)).toBeCloseTo(28.5, 9);
  });

  it('bears single readings that are far off', () => {
    const { level, on, known } = runsOf(10);
    for (let run = 0; run < 10; run++) level[18 * run + 5] = 0;
    expect(burnedByTank(level, on, known, 5)).toBeCloseTo(30, 9);
  });

  it('is not told from four runs, and is nothing without any', () => {
    const { level, on, known } = runsOf(4);
    expect(burnedByTank(level, on, known, 5)).toBeNull();
    expect(burnedByTank(level, on.fill(0), known, 5)).toBe(0);
  });
});
