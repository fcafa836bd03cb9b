/**
 * Points spread evenly over a cube, the same every time: the additive recurrence whose steps are powers of 1/g,
 * g being the root of g^(d+1) = g + 1 (in one dimension the golden ratio).
 * @param dimensions d, >= 1; @param count how many points, >= 0
 * @returns each with d coordinates in [0, 1)
 * Source: Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018 (from memory).
 */
export function spreadPoints(dimensions: number, count: number): number[][] {
  let g = 2;
  for (let i = 0; i < 60; i++) g = (1 + g) ** (1 / (dimensions + 1));
  const steps = Array.from({ length: dimensions }, (_, j) => g ** -(j + 1));
  return Array.from({ length: count }, (_, n) => steps.map((step) => (0.5 + (n + 1) * step) % 1));
}
