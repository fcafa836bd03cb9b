/** Everything that a plant may have or be told beyond the least: each feature on in a share of the cases. */
import fc from 'fast-check';
import type { Controls, ThresholdSet } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { between, minutes, type Scale, sometimes } from './random-draws.ts';
import { randomSecondSet } from './random-generator.ts';
import { randomBatteryCabinets, randomShiftable } from './random-plant.ts';
import { featureSeries, randomSpans } from './random-spans.ts';

/** A system with features: the same parts with more in them. */
export interface Featured {
  plant: Plant;
  controls: Controls;
  inputs: Inputs;
}

const NEVER = Number.POSITIVE_INFINITY;
const OFTEN = 0.35;

/** Parts of the battery and the inverters. */
const randomStore = fc.record({
  kinetic: sometimes(0.15, fc.record({ atHandFrac: between(0.2, 0.8), ratePerH: between(0.1, 2) }), null),
  display: sometimes(
    OFTEN,
    fc.record({
      driftPerH: between(-0.004, 0.004),
      mostFrac: between(0.02, 0.15),
      resetSoc: between(0.9, 0.999),
    }),
    null,
  ),
  units: fc.constantFrom(1, 2, 3),
  overload: sometimes(
    OFTEN,
    fc.record({ frac: between(1.1, 2), hours: minutes(2, 40), recoveryH: minutes(5, 90) }),
    null,
  ),
});

const randomEngine = fc.record({
  retries: fc.integer({ min: 0, max: 3 }),
  retryH: sometimes(0.8, minutes(1, 20), 0),
  mustBleed: fc.boolean(),
  standingFrac: sometimes(OFTEN, between(0.002, 0.03), 0),
  blockFrac: sometimes(OFTEN, between(0.01, 0.1), 0),
  blockHeaterBelowC: between(-4.4, 15),
  single: sometimes(0.15, fc.constantFrom(0, 1, 2), null),
});

function randomRules({ phaseKw, phases }: Scale, plant: Plant) {
  const cutoffSoc = plant.battery?.cutoffSoc ?? 0.1;
  return fc.record({
    hand: sometimes(
      0.3,
      fc.record({
        startSoc: between(cutoffSoc + 0.02, 0.6),
        responseH: minutes(0, 240),
        stopSoc: between(0.65, 0.98),
        absorptionMaxH: sometimes(0.5, minutes(10, 240), NEVER),
      }),
      null,
    ),
    full: sometimes(
      0.3,
      fc.record({
        everyH: between(10, 120),
        stopSoc: between(0.9, 0.999),
        absorptionMaxH: sometimes(0.6, minutes(10, 240), NEVER),
      }),
      null,
    ),
    exercise: sometimes(
      0.3,
      fc.record({ runH: minutes(5, 90), unlessWithinH: sometimes(0.5, between(3, 60), 0) }),
      null,
    ),
    shed: sometimes(
      OFTEN,
      fc
        .record({ above: between(0.02, 0.3), band: between(0.03, 0.3), overloadH: minutes(2, 90) })
        .map(({ above, band, overloadH }) => ({
          belowSoc: cutoffSoc + above,
          aboveSoc: cutoffSoc + above + band,
          overloadH,
        })),
      null,
    ),
    lock: sometimes(
      0.3,
      fc.record({ trips: fc.integer({ min: 1, max: 5 }), withinH: minutes(10, 240) }),
      null,
    ),
    chargeTarget: sometimes(0.3, between(0.2, 1), NEVER).map(
      (share) => share * (plant.generator?.ratedKw ?? 1),
    ),
    sets: sometimes(
      OFTEN,
      fc.array(
        fc
          .record({
            startSoc: between(cutoffSoc + 0.02, 0.6),
            stopSoc: between(0.62, 0.98),
            urgentPart: between(-0.2, 0.9),
            peakStartKw: between(0.9 * phaseKw, 4 * phaseKw),
            peakStopPart: between(0.3, 1),
          })
          .map(
            ({ urgentPart, peakStopPart, ...set }): ThresholdSet => ({
              ...set,
              urgentSoc: urgentPart * set.startSoc,
              peakStopKw: set.peakStartKw * peakStopPart,
            }),
          ),
        { minLength: 1, maxLength: 3 },
      ),
      [] as ThresholdSet[],
    ),
    phases: fc.constant(phases),
  });
}

/** Adds features to a system; `seed` makes its flags. */
export function withFeatures(scale: Scale, base: Featured): fc.Arbitrary<Featured> {
  const { plant, controls, inputs } = base;
  return fc
    .record({
      store: randomStore,
      engine: randomEngine,
      rules: randomRules(scale, plant),
      spans: randomSpans,
      more: sometimes(0.3, randomBatteryCabinets(scale), []),
      shiftable: sometimes(OFTEN, randomShiftable(scale), []),
      second: sometimes(0.25, randomSecondSet(scale), null),
      automatic: sometimes(0.85, fc.constant(true), false),
    })
    .map(({ store, engine, rules, spans, more, shiftable, second, automatic }) => {
      const meanKw = scale.phases * scale.phaseKw;
      const { hand, full, exercise, shed, lock, chargeTarget, sets } = rules;
      const byHandOnly = hand !== null && !automatic;
      const phase = engine.single === null || scale.phases === 1 ? undefined : engine.single;
      return {
        plant: {
          ...plant,
          battery: plant.battery && { ...plant.battery, kinetic: store.kinetic, display: store.display },
          inverter: { ...plant.inverter, units: store.units, overload: store.overload },
          generator: plant.generator && {
            ...plant.generator,
            ...{ retries: engine.retries, retryH: engine.retryH, mustBleed: engine.mustBleed },
            ...(phase === undefined ? {} : { phase }),
            standingKw: meanKw * engine.standingFrac,
            blockHeaterKw: meanKw * engine.blockFrac,
            blockHeaterBelowC: engine.blockHeaterBelowC,
          },
          batteryCabinets: plant.battery ? more : [],
          shiftable,
          secondGenerator: second,
        },
        controls: {
          ...controls,
          ...{ hand, full, exercise, shed, lock, sets, chargeTargetKw: chargeTarget },
          charge: byHandOnly ? null : controls.charge,
          peak: byHandOnly ? null : controls.peak,
        },
        inputs: {
          ...inputs,
          ...featureSeries(spans, inputs, {
            units: store.units,
            sets: sets.length,
            shiftable: shiftable.length,
          }),
        },
      };
    });
}
