import fc from 'fast-check';
import type { ChargeRule, Controls, PeakRule } from '../../src/sim/controls.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { between, minutes, type Scale, sometimes } from './random-draws.ts';

const NEVER = Number.POSITIVE_INFINITY;

function randomCharge(plant: Plant): fc.Arbitrary<ChargeRule> {
  const cutoffSoc = plant.battery?.cutoffSoc ?? 0.1;
  return fc
    .record({
      startAboveCutoff: between(0.02, 0.4),
      delayH: sometimes(0.7, minutes(1, 90), 0),
      stopPart: sometimes(0.8, between(0.15, 0.98), 1),
      tailFrac: sometimes(0.4, between(0.05, 0.9), 0),
      tailH: minutes(5, 90),
      absorptionMaxH: sometimes(0.5, minutes(10, 240), NEVER),
    })
    .map((draw) => {
      const startSoc = cutoffSoc + draw.startAboveCutoff;
      return {
        startSoc,
        delayH: draw.delayH,
        stopSoc: draw.stopPart === 1 ? 1 : startSoc + (1 - startSoc) * draw.stopPart,
        tailKw: (plant.battery?.maxChargeKw ?? 1) * draw.tailFrac,
        tailH: draw.tailH,
        absorptionMaxH: draw.absorptionMaxH,
      };
    });
}

function randomPeak({ phaseKw }: Scale): fc.Arbitrary<PeakRule> {
  return fc
    .record({
      startLoads: sometimes(0.8, between(0.9, 4), NEVER),
      delayH: sometimes(0.6, minutes(1, 45), 0),
      stopPart: between(0.3, 1),
      holdH: sometimes(0.7, minutes(1, 60), 0),
      charges: fc.boolean(),
    })
    .map((draw) => ({
      startKw: phaseKw * draw.startLoads,
      delayH: draw.delayH,
      stopKw: phaseKw * Math.min(draw.startLoads, 3) * draw.stopPart,
      holdH: draw.holdH,
      charges: draw.charges,
    }));
}

/** Controls that fit the plant: thresholds above its cut-off, peaks around its load. */
export function randomControls(scale: Scale, plant: Plant): fc.Arbitrary<Controls> {
  return fc
    .record({
      shortfall: fc.constantFrom<'trip' | 'partial'>('trip', 'partial'),
      tripAllPhases: fc.boolean(),
      restartDelayH: minutes(1, 90),
      deadVisitH: minutes(30, 1200),
      charge: sometimes(0.95, randomCharge(plant), null),
      peak: sometimes(0.6, randomPeak(scale), null),
      continuous: sometimes(0.1, fc.constant(true), false),
      minRunH: sometimes(0.7, minutes(1, 180), 0),
      maxAfterMinH: sometimes(0.4, minutes(10, 360), NEVER),
      leastRestH: sometimes(0.6, minutes(1, 120), 0),
      restrictedEndsRun: fc.boolean(),
      urgentPart: sometimes(0.6, between(0.1, 0.95), -1),
      peakAssist: fc.boolean(),
      acArrayOnLoad: fc.constantFrom<'off' | 'held'>('off', 'held'),
      acReconnectH: sometimes(0.7, minutes(1, 25), 0),
      dcToAcOnLoad: fc.boolean(),
    })
    .map(({ maxAfterMinH, urgentPart, ...draw }) => ({
      ...draw,
      maxRunH: draw.minRunH + maxAfterMinH,
      urgentSoc: urgentPart < 0 ? -1 : urgentPart * (draw.charge?.startSoc ?? 0.3),
    }));
}
