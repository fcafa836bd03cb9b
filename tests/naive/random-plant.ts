import fc from 'fast-check';
import type { Battery, BatteryCabinet, Cabinet, Inverter, Plant, Shiftable } from '../../src/sim/plant.ts';
import { between, type Scale, sometimes } from './random-draws.ts';
import { randomGenerator, randomTank } from './random-generator.ts';

/** A bank of 3 to 40 hours of the mean load; cells from frost-shy to heat-shy. */
function randomBattery({ phases, phaseKw }: Scale): fc.Arbitrary<Battery> {
  return fc
    .record({
      hours: between(3, 40),
      initialSoc: between(0.2, 1),
      deadSoc: sometimes(0.7, between(0.001, 0.08), -1),
      cutoffAboveDead: between(0.01, 0.12),
      reconnectSoc: between(0, 0.08),
      chargeRate: between(0.08, 0.6),
      dischargeLoads: between(1, 6),
      taperStartSoc: sometimes(0.8, between(0.5, 0.95), 1),
      taperEndFrac: between(0.03, 0.6),
      chargeEff: between(0.85, 1),
      dischargeEff: between(0.85, 1),
      standbyFrac: between(0.001, 0.05),
      chargeNoneC: between(-2.3, 1.7),
      coldWidthC: between(1.1, 11),
      hotFullC: between(33.3, 45),
      hotWidthC: between(2.2, 12),
      thawMarginC: between(0.15, 3),
    })
    .map((draw) => {
      const meanKw = phases * phaseKw;
      const capacityKwh = draw.hours * meanKw;
      return {
        capacityKwh,
        initialSoc: draw.initialSoc,
        cutoffSoc: Math.max(0, draw.deadSoc) + draw.cutoffAboveDead,
        reconnectSoc: draw.reconnectSoc,
        deadSoc: draw.deadSoc,
        maxChargeKw: capacityKwh * draw.chargeRate,
        maxDischargeKw: meanKw * draw.dischargeLoads,
        taperStartSoc: draw.taperStartSoc,
        taperEndFrac: draw.taperStartSoc === 1 ? 1 : draw.taperEndFrac,
        chargeEff: draw.chargeEff,
        dischargeEff: draw.dischargeEff,
        standbyKw: meanKw * draw.standbyFrac,
        chargeNoneC: draw.chargeNoneC,
        chargeFullC: draw.chargeNoneC + draw.coldWidthC,
        chargeHotFullC: draw.hotFullC,
        chargeHotNoneC: draw.hotFullC + draw.hotWidthC,
        thawMarginC: draw.thawMarginC,
      };
    });
}

function randomInverter({ phaseKw }: Scale): fc.Arbitrary<Inverter> {
  return fc
    .record({
      loads: between(1.1, 5),
      idleFrac: between(0, 0.02),
      lossLinear: between(0, 0.08),
      lossAtRated: between(0, 0.06),
      chargerFrac: between(0.2, 1.3),
      chargerEff: between(0.85, 1),
      inputFrac: between(0.6, 3),
      derateKneeC: between(27.7, 42),
      derateWidthC: between(3, 25),
      derateFrac: between(0.2, 0.9),
    })
    .map((draw) => {
      const ratedKw = phaseKw * draw.loads;
      return {
        ratedKw,
        idleKw: ratedKw * draw.idleFrac,
        lossLinear: draw.lossLinear,
        lossQuadraticPerKw: draw.lossAtRated / ratedKw,
        chargerKw: ratedKw * draw.chargerFrac,
        chargerEff: draw.chargerEff,
        acInputLimitKw: ratedKw * draw.inputFrac,
        derateKneeC: draw.derateKneeC,
        derateC: draw.derateKneeC + draw.derateWidthC,
        derateFrac: draw.derateFrac,
      };
    });
}

/** Light to heavy cabinets, time constants of an hour to two days, losses that can warm them by tens of kelvin. */
function randomCabinet({ phases, phaseKw }: Scale): fc.Arbitrary<Cabinet> {
  return fc
    .record({
      airToOutside: between(0.002, 0.03),
      airToBattery: between(0.002, 0.03),
      batteryToOutside: between(0.0005, 0.01),
      airH: between(0.2, 3),
      batteryH: between(4, 40),
      sunApertureM2: sometimes(0.6, between(0.05, 0.8), 0),
      initialC: between(-6.6, 38),
      coolerFrac: sometimes(0.5, between(0.03, 0.3), 0),
      coolerCop: between(1.5, 3.5),
      coolerOnC: between(25.5, 37),
      coolerWidthC: between(1.2, 8),
      heaterFrac: sometimes(0.5, between(0.02, 0.3), 0),
      heaterOnC: between(2.1, 8),
      heaterWidthC: between(0.9, 7),
      heaterMinSoc: between(0, 0.6),
    })
    .map((draw) => {
      const meanKw = phases * phaseKw;
      const airToOutsideKwPerK = meanKw * draw.airToOutside;
      const airToBatteryKwPerK = meanKw * draw.airToBattery;
      const batteryToOutsideKwPerK = meanKw * draw.batteryToOutside;
      return {
        airKwhPerK: (airToOutsideKwPerK + airToBatteryKwPerK) * draw.airH,
        batteryKwhPerK: (batteryToOutsideKwPerK + airToBatteryKwPerK) * draw.batteryH,
        airToOutsideKwPerK,
        airToBatteryKwPerK,
        batteryToOutsideKwPerK,
        sunApertureM2: meanKw * draw.sunApertureM2 * 0.3,
        initialC: draw.initialC,
        coolerKw: meanKw * draw.coolerFrac,
        coolerCop: draw.coolerCop,
        coolerOnC: draw.coolerOnC,
        coolerOffC: draw.coolerOnC - draw.coolerWidthC,
        heaterKw: meanKw * draw.heaterFrac,
        heaterOnC: draw.heaterOnC,
        heaterOffC: draw.heaterOnC + draw.heaterWidthC,
        heaterMinSoc: draw.heaterMinSoc,
      };
    });
}

/** One or two further cabinets; now and then they hold the whole battery. */
export function randomBatteryCabinets(scale: Scale): fc.Arbitrary<BatteryCabinet[]> {
  return fc
    .array(fc.record({ cabinet: randomCabinet(scale), part: between(0.2, 1) }), {
      minLength: 1,
      maxLength: 2,
    })
    .chain((drawn) =>
      sometimes(0.7, between(0.2, 0.9), 1).map((all) => {
        const sum = drawn.reduce((total, { part }) => total + part, 0);
        return drawn.map(({ cabinet, part }) => ({ cabinet, batteryShare: (all * part) / sum }));
      }),
    );
}

export function randomShiftable({ phases, phaseKw }: Scale): fc.Arbitrary<Shiftable[]> {
  return fc.array(
    fc
      .record({
        phase: fc.integer({ min: 0, max: phases - 1 }),
        loads: between(0.2, 1.5),
        hours: between(0.5, 8),
      })
      .map(({ phase, loads, hours }) => ({ phase, kw: phaseKw * loads, kwhPerDay: phaseKw * loads * hours })),
    { minLength: 1, maxLength: 3 },
  );
}

function randomShares(phases: 1 | 3): fc.Arbitrary<number[]> {
  if (phases === 1) return fc.constant([1]);
  return fc.tuple(between(0.1, 1), between(0, 1), between(0, 1)).map(([a, b, c]) => {
    const sum = a + b + c;
    return [a / sum, b / sum, c / sum];
  });
}

/** A whole plant around a load of `scale`. */
export function randomPlant(scale: Scale): fc.Arbitrary<Plant> {
  return sometimes(0.95, randomGenerator(scale), null).chain((generator) =>
    fc.record(
      {
        phases: fc.constant(scale.phases),
        battery: sometimes(0.95, randomBattery(scale), null),
        inverter: randomInverter(scale),
        acArrayShare: randomShares(scale.phases),
        generator: fc.constant(generator),
        tank: generator ? sometimes(0.6, randomTank(generator.ratedKw), null) : fc.constant(null),
        cabinet: sometimes(0.6, randomCabinet(scale), null),
        roomC: fc.oneof(
          { weight: 6, arbitrary: between(12, 26) },
          { weight: 1, arbitrary: between(-7, 11) },
          { weight: 1, arbitrary: between(28, 55) },
        ),
      },
      { noNullPrototype: true },
    ),
  );
}
