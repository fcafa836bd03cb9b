import type { Generator } from '../../src/sim/plant.ts';
import type { RandomSystem } from './random-system.ts';

/**
 * The system without what the rules page and the engine are known to read differently; the plain simulator
 * follows the page in each. An entry goes when page and engine agree.
 *
 * - Shedding without a battery: by the page the latch is set, since the shown charge of 0 is not above any share
 *   of no capacity; the engine never sheds there. Compared without the shed rule.
 * - A set that goes on load in the step in which it was connected: by the page it gives its own rating, the engine
 *   still goes by the cap of the other set in that step. Compared with sets that take a step to start.
 * - A first set that breaks down while it runs: by the page nothing starts in the step in which an engine comes to
 *   a standstill, in the engine the second set may. Compared with second sets that take a step to connect.
 */
export function withoutOpenPoints(system: RandomSystem): RandomSystem {
  const { plant, controls, inputs } = system;
  const { generator, secondGenerator: second } = plant;
  const stepH = inputs.stepMin / 60;
  const slower = (set: Generator) => ({ ...set, startDelayH: Math.max(set.startDelayH, stepH) });
  return {
    ...system,
    plant: {
      ...plant,
      generator: generator && second ? slower(generator) : generator,
      secondGenerator: second && {
        generator: slower(second.generator),
        connectH: Math.max(second.connectH, stepH),
      },
    },
    controls: { ...controls, shed: plant.battery ? controls.shed : null },
  };
}

/**
 * Whether a featured system is compared without generator power step by step; its totals and runs are compared all the same. The engine's
 * cabinet temperatures are off by up to some parts in 10^12 a step (the plain ones agree to 16 digits with a power
 * series worked out in 50), which a cabinet at its charging or derating limit makes grow.
 */
export const generatorStepsOpen = ({ plant }: RandomSystem): boolean => plant.cabinet !== null;
