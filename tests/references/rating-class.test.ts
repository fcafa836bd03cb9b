import { describe, expect, it } from 'vitest';
import { highestDayAverages } from '../../src/sim/electrical/day-average.ts';

// ISO 8528-1: 70 % on average over 24 h for prime and standby ratings (seen second hand); that standstill does not
// count and that less than 30 % counts as 30 % is from memory. The days below are worked out by hand.
const RATED_KW = 100;

/** Three days of hours; a profile of [hours, load in kW] from an hour on. */
function days(fromHour: number, ...profile: [number, number][]) {
  const kw = new Float64Array(72);
  const runH = new Float64Array(72);
  let at = fromHour;
  for (const [hours, load] of profile)
    for (let i = 0; i < hours; i++, at++) {
      kw[at] = load;
      runH[at] = 1;
    }
  return { kw, runH };
}

const averageOf = ({ kw, runH }: ReturnType<typeof days>, leastRunH = 0) =>
  highestDayAverages(kw, runH, 1, RATED_KW, [leastRunH])[0];

describe('the average of a generating set over 24 h', () => {
  it('leaves standstill out', () => {
    // 6 h at 90 % and 6 h at 50 % with 12 h of rest: 70 %
    expect(averageOf(days(24, [6, 90], [6, 50]))).toEqual({ shareOfRating: 0.7, runH: 12 });
  });

  it('counts less than 30 % as 30 %', () => {
    // 12 h at 100 % and 12 h at 10 %, which counts as 30 %: 65 %, not 55 %
    const average = averageOf(days(0, [12, 100], [12, 10]));
    expect(average?.shareOfRating).toBeCloseTo(0.65, 12);
  });

  it('looks at the worst 24 h of a longer run, but not at the end of a run alone', () => {
    // 24 h at 50 %, then 24 h at 80 %
    expect(averageOf(days(0, [24, 50], [24, 80]))?.shareOfRating).toBeCloseTo(0.8, 12);
    // one run of 8 h at 40 % and 1 h at 100 %: 46.7 %, never 100 %
    expect(averageOf(days(30, [8, 40], [1, 100]))?.shareOfRating).toBeCloseTo((8 * 40 + 100) / 900, 12);
  });

  it('counts the part of a step in which the engine runs', () => {
    const { kw, runH } = days(0);
    kw[5] = 45;
    runH[5] = 0.5;
    expect(averageOf({ kw, runH })).toEqual({ shareOfRating: 0.9, runH: 0.5 });
  });

  it('knows no average of an engine that stands, or of days shorter than asked for', () => {
    expect(averageOf(days(0))).toBeNull();
    expect(averageOf(days(24, [6, 90]), 12)).toBeNull();
    expect(averageOf(days(24, [12, 90]), 12)?.shareOfRating).toBeCloseTo(0.9, 12);
  });
});
