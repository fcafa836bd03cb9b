import fc from 'fast-check';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { randomControls } from './random-controls.ts';
import { between, type Scale } from './random-draws.ts';
import { withFeatures } from './random-features.ts';
import { buildInputs, randomWeather, type Weather } from './random-inputs.ts';
import { randomPlant } from './random-plant.ts';

/** A complete run. `weather` and `scale` make its series again: `buildInputs(weather, scale)`. */
export interface RandomSystem {
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
  weather: Weather;
  scale: Scale;
}

const randomScale: fc.Arbitrary<Scale> = fc.record(
  {
    phases: fc.constantFrom<1 | 3>(1, 3),
    phaseKw: between(0.2, 5),
  },
  { noNullPrototype: true },
);

/**
 * Random complete systems of one or three phases, in steps of 1 to 60 minutes, half a day to two weeks long, with
 * every rule in play now and then: invented, at plausible magnitudes. A failing one is printed without its
 * series, which come back from `weather` and `scale`.
 */
export const randomSystem: fc.Arbitrary<RandomSystem> = randomScale
  .chain((scale) => fc.tuple(fc.constant(scale), randomPlant(scale), randomWeather))
  .chain(([scale, plant, weather]) =>
    fc.tuple(fc.constant(scale), fc.constant(plant), fc.constant(weather), randomControls(scale, plant)),
  )
  .map(([scale, plant, weather, controls]) => {
    const inputs = buildInputs(weather, scale);
    const print = () => fc.stringify({ plant, controls, weather, scale });
    return Object.defineProperty({ plant, controls, inputs, weather, scale }, fc.toStringMethod, {
      value: print,
      enumerable: false,
    });
  });

/** The same with every further feature on now and then. */
export const featuredSystem: fc.Arbitrary<RandomSystem> = randomSystem.chain((base) =>
  withFeatures(base.scale, base).map((featured) => ({ ...base, ...featured })),
);
