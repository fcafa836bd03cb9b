import { medianOf } from '../../middle-values.ts';
import { chargingSteps } from './charging-steps.ts';
import { type Detector, fault, unmet } from './detector.ts';
import { FAULT_TERMS } from './fault-terms.ts';
import { stepHours, timeOf, wholeArrays, wholeLoad } from './log-days.ts';

/** A run tells something with so much charging to look at [h]. */
const LEAST_H = 0.3;
/** Share of the runs, from the first weak one on, that must be weak. */
const MOST_RUNS = 0.8;

/** The generator charges with less than chargers, AC input, rating and target let it, from some run on. */
export const weakCharging: Detector = {
  kind: 'weak-charging',
  lacks: (ground) =>
    unmet([
      [ground.site.generator, 'part: generator'],
      [!ground.site.secondGenerator, 'a single generator'],
      [ground.site.battery, 'part: battery'],
      [ground.record.columns.generatorKw, 'generatorKw'],
      [ground.record.columns.socFrac, 'socFrac'],
      [wholeLoad(ground), 'loadKw'],
      [!ground.site.cabinet || ground.record.columns.cellC, 'cellC'],
      [!ground.site.cabinet || ground.record.columns.cabinetC, 'cabinetC'],
      [
        ground.site.arrays.length === 0 || ground.record.columns.batteryKw || wholeArrays(ground),
        'batteryKw',
      ],
    ]),
  find(ground) {
    const { leastSize, duration } = FAULT_TERMS['weak-charging'];
    const runs = chargingSteps(ground)
      .filter(({ steps }) => steps.length * stepHours(ground) >= LEAST_H)
      .map(({ from, to, steps }) => {
        const missing = medianOf(steps.map(({ expectedKw, seenKw }) => 1 - seenKw / expectedKw));
        return { from, to, steps, missing, isWeak: missing >= leastSize };
      });
    if (runs.length < duration) return 'enough runs';
    for (const [first, run] of runs.entries()) {
      const since = runs.slice(first);
      const weak = since.filter(({ isWeak }) => isWeak);
      if (!run.isWeak || weak.length < duration || weak.length < MOST_RUNS * since.length) continue;
      const steps = weak.flatMap((each) => each.steps);
      const expectedKw = medianOf(steps.map((step) => step.expectedKw));
      const seenKw = medianOf(steps.map((step) => step.seenKw));
      return [
        fault({
          ...{ kind: 'weak-charging', part: null, size: medianOf(weak.map(({ missing }) => missing)) },
          ...{ fromS: timeOf(ground, run.from), toS: timeOf(ground, since[since.length - 1].to) },
          evidence: { expectedKw, seenKw, weakRuns: weak.length, runs: since.length, steps: steps.length },
        }),
      ];
    }
    return [];
  },
};
