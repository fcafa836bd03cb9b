import { describe, expect, it } from 'vitest';
import { atCellC } from '../../src/sim/electrical/string-voltage.ts';

// IEC 62548 and IEC 60364-7-712 want the highest voltage at the lowest expected temperature, by the module's own
// coefficient (from memory); the figures are worked by hand
describe('the voltage of a module', () => {
  it('rises in the cold and falls in heat, by its coefficient about 25 °C', () => {
    expect(atCellC(40, -0.003, 25)).toBe(40);
    expect(atCellC(40, -0.003, -10)).toBeCloseTo(40 * 1.105, 12);
    expect(atCellC(33, -0.004, 70)).toBeCloseTo(33 * 0.82, 12);
  });
});
