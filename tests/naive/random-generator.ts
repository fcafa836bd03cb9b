import fc from 'fast-check';
import type { Generator, SecondGenerator, Tank } from '../../src/sim/plant.ts';
import { between, minutes, type Scale, sometimes } from './random-draws.ts';

/** Fuel points rise in power and in litres, with slopes of 0.2 to 0.4 L/kWh; the first may be at no load. */
export function randomGenerator({ phases, phaseKw }: Scale): fc.Arbitrary<Generator> {
  return fc
    .record({
      loads: between(0.8, 5),
      firstKwFrac: sometimes(0.5, between(0.05, 0.3), 0),
      firstLPerKwh: between(0.03, 0.12),
      stretches: fc.array(fc.record({ width: between(0.2, 1), slope: between(0.2, 0.4) }), {
        minLength: 1,
        maxLength: 3,
      }),
      startDelayH: sometimes(0.7, minutes(1, 12), 0),
      warmUpH: sometimes(0.7, minutes(1, 15), 0),
      coolDownH: sometimes(0.7, minutes(1, 15), 0),
      minLoadFrac: between(0, 0.45),
      blackStart: sometimes(0.85, fc.constant(true), false),
    })
    .map((draw) => {
      const ratedKw = phases * phaseKw * draw.loads;
      const fuelKw = [ratedKw * draw.firstKwFrac];
      const fuelLPerH = [ratedKw * (draw.firstLPerKwh + 0.25 * draw.firstKwFrac)];
      for (const { width, slope } of draw.stretches) {
        const wideKw = (ratedKw * width) / draw.stretches.length;
        fuelKw.push(fuelKw.at(-1)! + wideKw);
        fuelLPerH.push(fuelLPerH.at(-1)! + wideKw * slope);
      }
      const { startDelayH, warmUpH, coolDownH, minLoadFrac, blackStart } = draw;
      return { ratedKw, fuelKw, fuelLPerH, startDelayH, warmUpH, coolDownH, minLoadFrac, blackStart };
    });
}

/** A portable set that somebody connects after a while. */
export function randomSecondSet(scale: Scale): fc.Arbitrary<SecondGenerator> {
  return fc.record({ generator: randomGenerator(scale), connectH: sometimes(0.8, minutes(5, 1500), 0) });
}

/** From a canister of a few hours at full load to a tank of two days. */
export function randomTank(generatorKw: number): fc.Arbitrary<Tank> {
  return fc
    .record({
      fullLoadH: between(3, 90),
      initialFrac: between(0.1, 1),
      reserveFrac: between(0, 0.15),
      orderAtFrac: sometimes(0.6, between(0, 0.6), -1),
      leadH: sometimes(0.85, minutes(30, 4320), 0),
    })
    .map((draw) => {
      const capacityL = draw.fullLoadH * generatorKw * 0.3;
      return {
        capacityL,
        initialL: capacityL * draw.initialFrac,
        reserveL: capacityL * draw.reserveFrac,
        orderAtL: draw.orderAtFrac < 0 ? -1 : capacityL * draw.orderAtFrac,
        leadH: draw.leadH,
      };
    });
}
