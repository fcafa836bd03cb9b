import { describe, expect, it } from 'vitest';
import { makeClock } from '../../src/scenarios/clock.ts';
import { findRun } from '../../src/scenarios/find-run.ts';
import type { GeneratorRun } from '../../src/sim/ledger.ts';

const startS = Date.UTC(2025, 2, 29, 23) / 1000; // 30 March 2025, 00:00 in Berlin; clocks go forward at 02:00
const clock = makeClock('Europe/Berlin', startS, startS + 10 * 86_400);
if (clock === null) throw new Error('no clock');
const runs = [
  { startH: 5, endH: 8 },
  { startH: 20, endH: 22 },
] as GeneratorRun[];
const find = (asked: { run?: number; at?: string }) => findRun(runs, clock, startS, asked);

describe('the run asked for', () => {
  it('is none where nothing was asked', () => expect(find({})).toBeNull());

  it('goes by number from 1', () => {
    expect(find({ run: 2 })).toBe(1);
    expect(find({ run: 3 })).toBe('--run 3: expected a run from 1 to 2');
    expect(findRun([], clock, startS, { run: 1 })).toBe('--run 1: the generator never runs');
  });

  it('goes by local time: the one going on, or the nearest start within a day', () => {
    // the hour left out makes 08:00 summer time seven hours from midnight
    expect(find({ at: '2025-03-30T08:00' })).toBe(0);
    expect(find({ at: '2025-03-30T09:00' })).toBe(0);
    expect(find({ at: '2025-03-30T15:00' })).toBe(1);
    expect(find({ at: '2025-03-31T20:30' })).toBe(1);
    expect(find({ at: '2025-04-02T20:30' })).toBe(
      '--at 2025-04-02T20:30: no run starts within a day of that time',
    );
    expect(find({ at: '2025-03-30T02:30' })).toBe(
      '--at 2025-03-30T02:30: the clock of Europe/Berlin leaves that time out',
    );
  });
});
