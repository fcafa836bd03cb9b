/** The matrix exponential against its power series and against cases with a closed form. */
import { expect, it } from 'vitest';
import { type Matrix, propagate, times } from './two-by-two.ts';

const multiply = ([a, b, c, d]: Matrix, [e, f, g, h]: Matrix): Matrix => [
  a * e + b * g,
  a * f + b * h,
  c * e + d * g,
  c * f + d * h,
];

/** Σ Mⁿtⁿ/n! and Σ Mⁿtⁿ⁺¹/(n+1)!, for small M·t */
function powerSeries(m: Matrix, t: number): { stay: Matrix; gain: Matrix } {
  let power: Matrix = [1, 0, 0, 1];
  const stay = [0, 0, 0, 0];
  const gain = [0, 0, 0, 0];
  for (let n = 0; n < 40; n++) {
    for (let i = 0; i < 4; i++) {
      stay[i] += power[i];
      gain[i] += (power[i] * t) / (n + 1);
    }
    power = multiply(power, m).map((value) => (value * t) / (n + 1)) as unknown as Matrix;
  }
  return { stay: stay as unknown as Matrix, gain: gain as unknown as Matrix };
}

it.each<{ m: Matrix; t: number }>([
  { m: [-1.3, 0.7, 0.2, -0.5], t: 1 },
  { m: [-3, 2.9, 0.01, -0.02], t: 0.5 },
  { m: [-0.6, 0.6, 0.1, -0.1], t: 0.25 },
  { m: [-2, 0, 0, -2], t: 0.5 },
])('agrees with the power series: $m over $t', ({ m, t }) => {
  const exact = powerSeries(m, t);
  const { stay, gain } = propagate(m, t);
  for (let i = 0; i < 4; i++) {
    expect(stay[i]).toBeCloseTo(exact.stay[i], 13);
    expect(gain[i]).toBeCloseTo(exact.gain[i], 13);
  }
});

it('two short steps are one long one', () => {
  const m: Matrix = [-1.3, 0.7, 0.2, -0.5];
  const whole = times(propagate(m, 2).stay, 30, -4);
  const half = propagate(m, 1).stay;
  const twice = times(half, ...times(half, 30, -4));
  expect(twice[0]).toBeCloseTo(whole[0], 12);
  expect(twice[1]).toBeCloseTo(whole[1], 12);
});

it('without any heat path the heat all stays', () => {
  expect(times(propagate([0, 0, 0, 0], 3).gain, 2, 5)).toEqual([6, 15]);
});
