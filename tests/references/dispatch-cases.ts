import type { DispatchCase } from './dispatch-case.ts';
import { constantLoad, dryTankCases } from './dispatch-constant-load.ts';
import { arrayCases, peakCases } from './dispatch-peak-and-array.ts';
import { squareWaveCases } from './dispatch-square-wave.ts';

/** All closed-form dispatch cases, for any simulator: see dispatch-case.ts. */
export const DISPATCH_CASES: readonly DispatchCase[] = [
  ...constantLoad,
  ...squareWaveCases,
  ...dryTankCases,
  ...peakCases,
  ...arrayCases,
];
