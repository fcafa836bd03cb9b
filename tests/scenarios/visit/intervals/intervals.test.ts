/** Logs with known truth, estimated blind: intervals of 90 % hold the truth about nine times of ten. */
import { expect, it } from 'vitest';
import { estimateAll } from '../../../../src/scenarios/visit/estimates/all.ts';
import { ESTIMATED, type Estimated } from '../../../../src/scenarios/visit/visit.ts';
import { makeCase, makeWorlds } from './case.ts';

const CASES = Number(process.env.COVERAGE_CASES ?? 200);
const SEED = process.env.COVERAGE_SEED ?? 'coverage';
/** With so many cases an estimate is held to its interval. */
const ENOUGH = 40;

interface Tally {
  held: number;
  made: number;
  refused: Record<string, number>;
  /** half the interval, and how far off, as shares of the truth */
  halves: number[];
  errors: number[];
}

it(`holds the truth in 80 to 97 % of ${CASES} logs, for each estimate`, () => {
  const worlds = makeWorlds();
  const tallies = new Map<Estimated, Tally>(
    ESTIMATED.map((key) => [key, { held: 0, made: 0, refused: {}, halves: [], errors: [] }]),
  );
  for (let n = 0; n < CASES; n++) {
    const { ground, truth, name } = makeCase(worlds, n, SEED);
    for (const estimate of estimateAll(ground)) {
      const tally = tallies.get(estimate.key) as Tally;
      const true_ = truth[estimate.key];
      if (estimate.value === null) {
        tally.refused[estimate.why] = (tally.refused[estimate.why] ?? 0) + 1;
        continue;
      }
      if (true_ === undefined) throw new Error(`${estimate.key} of ${name} has no truth`);
      tally.made++;
      const isHeld = estimate.low <= true_ && true_ <= estimate.high;
      if (isHeld) tally.held++;
      else if (process.env.COVERAGE_MISSES)
        console.log(
          `${name}: ${estimate.key} ${estimate.low} ${estimate.value} ${estimate.high}, true ${true_}`,
        );
      tally.halves.push((estimate.high - estimate.low) / 2 / true_);
      tally.errors.push((estimate.value - true_) / true_);
    }
  }
  console.log(table(tallies));
  for (const [key, { held, made }] of tallies) {
    if (made < ENOUGH) continue;
    expect(held / made, key).toBeGreaterThanOrEqual(0.8);
    expect(held / made, key).toBeLessThanOrEqual(0.97);
  }
  // an estimator that refuses everything is never wrong
  expect([...tallies.values()].filter(({ made }) => made >= ENOUGH).length).toBeGreaterThanOrEqual(11);
}, 1_800_000);

function table(tallies: ReadonlyMap<Estimated, Tally>): string {
  const head = 'estimate          made  held  half-width  bias    |error|  refused';
  const percent = (value: number, width: number) => `${(100 * value).toFixed(2)} %`.padStart(width);
  const rows = [...tallies].map(([key, { held, made, refused, halves, errors }]) => {
    const numbers = [median(halves), median(errors), median(errors.map(Math.abs))].map((v) => percent(v, 9));
    const share = made > 0 ? percent(held / made, 8) : ''.padStart(8);
    return `${key.padEnd(17)} ${String(made).padStart(4)} ${share} ${numbers.join(' ')}  ${JSON.stringify(refused)}`;
  });
  return [head, ...rows].join('\n');
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.length > 0 ? sorted[Math.floor(sorted.length / 2)] : Number.NaN;
}
