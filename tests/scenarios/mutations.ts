import { expect } from 'vitest';
import type { ReadResult } from '../../src/scenarios/series.ts';

/**
 * Reads seeded mutations of a sample: byte flips, cut ends, lost stretches, huge numbers, swapped pieces, wrong
 * encodings. Each must give an issue list, or finite series whose total is that of its data sheet.
 * @returns how many were refused and how many read
 */
export function readMutations(clean: Uint8Array, times: number, read: (bytes: Uint8Array) => ReadResult) {
  let state = 20_251;
  const draw = (n: number) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * n);
  };
  const counts = { refused: 0, read: 0 };
  for (let k = 0; k < times; k++) {
    const result = read(mutate(clean, k % 6, draw));
    if (result.series.length === 0) {
      counts.refused++;
      expect(result.issues.some(({ severity }) => severity === 'error')).toBe(true);
      continue;
    }
    counts.read++;
    for (const { values, quantity, axis, name } of result.series) {
      expect(values.every(Number.isFinite)).toBe(true);
      const row = result.sheet?.series.find((one) => one.name === name && one.quantity === quantity);
      if (quantity !== 'loadKw' && quantity !== 'generationKw') continue;
      const total = values.reduce((sum, kw) => sum + kw, 0) * (axis.stepMin / 60);
      expect(Math.abs((row?.total ?? Number.NaN) - total)).toBeLessThanOrEqual(
        1e-9 * Math.max(1, Math.abs(total)),
      );
    }
  }
  return counts;
}

export function mutate(clean: Uint8Array, kind: number, draw: (n: number) => number): Uint8Array {
  const at = draw(clean.length);
  const bytes = Uint8Array.from(clean);
  if (kind === 0) bytes[at] ^= 1 << draw(8);
  else if (kind === 1) return clean.slice(0, at);
  else if (kind === 2) return Uint8Array.from([...clean.subarray(0, at), ...clean.subarray(at + draw(80))]);
  else if (kind === 3)
    bytes.set(new TextEncoder().encode('999999999999999999999'), Math.min(at, clean.length - 21));
  else if (kind === 4) {
    const other = draw(clean.length - 40);
    const piece = bytes.slice(other, other + 40);
    bytes.set(piece, Math.min(at, clean.length - 40));
  } else return Uint8Array.from([...clean].flatMap((byte) => [byte, 0])).subarray(0, 2 * at);
  return bytes;
}
