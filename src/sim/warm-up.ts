import type { LoopArrays, LoopInputs } from './advance.ts';
import { compileParameters, compileSets, initialState } from './compile.ts';
import type { Controls } from './controls.ts';
import { fillInputs } from './fill-inputs.ts';
import type { Beside } from './loop-arrays.ts';
import { compileCabinets } from './more-cabinets.ts';
import type { Plant } from './plant.ts';

type Advance = (arrays: LoopArrays, inputs: LoopInputs, from: number, to: number) => void;

let warm = false;

/**
 * Shows the step loop most of its branches once, on a small site with every feature, before a long run:
 * otherwise the optimiser specialises the loop on the first quiet days and has to start again.
 * @param advance      the loop
 * @param makeArrays   makes its arrays for parameters and state
 */
export function warmUp(
  advance: Advance,
  makeArrays: (p: Float64Array, s: Float64Array, steps: number, rest: Beside) => LoopArrays,
): void {
  if (warm) return;
  warm = true;
  const inputs = fixtureInputs();
  for (const controls of [FIXTURE_CONTROLS, { ...FIXTURE_CONTROLS, shortfall: 'partial' as const }]) {
    const p = compileParameters(FIXTURE_PLANT, controls, 1 / 12);
    const arrays = makeArrays(p, initialState(FIXTURE_PLANT), STEPS, {
      more: compileCabinets(FIXTURE_PLANT.batteryCabinets ?? [], 1 / 12, 20),
      sets: compileSets(p, controls.sets ?? []),
      startFails: Uint8Array.of(0, 0, 1),
    });
    for (let from = 0; from < STEPS; from += CHUNK) advance(arrays, inputs, from, from + CHUNK);
  }
}

const STEPS = 2880;
const CHUNK = 288;

/** Ten days of five-minute steps: two of sun, the rest dull, cold nights, an overload now and then. */
function fixtureInputs(): LoopInputs {
  const series = (value: (hour: number, day: number, i: number) => number) =>
    Float64Array.from({ length: STEPS }, (_, i) => value((i / 12) % 24, Math.floor(i / 288), i));
  const flags = (value: (hour: number) => boolean) =>
    Uint8Array.from({ length: STEPS }, (_, i) => Number(value((i / 12) % 24)));
  const sun = series((hour, day) => Math.max(0, 36 - (hour - 12) ** 2) * (day < 3 ? 0.4 : 0.08));
  const load = (phase: number) =>
    series((hour, _, i) => 0.5 + (hour > 6 && hour < 8 ? 2 : 0.3) + ((i + 31 * phase) % 97 === 0 ? 4 : 0));
  return fillInputs({
    stepMin: 5,
    count: STEPS,
    loadKw: [load(0), load(1), load(2)],
    dcArrayKw: sun,
    acArrayKw: sun.map((kw) => kw / 2),
    airC: series((hour) => 4 - 10 * (1 - Math.abs(hour - 14) / 12)),
    cabinetSunWPerM2: sun.map((kw) => kw * 50),
    restricted: flags((hour) => hour > 22),
    night: flags((hour) => hour < 6),
  });
}

const FIXTURE_PLANT: Plant = {
  phases: 3,
  battery: {
    capacityKwh: 20,
    initialSoc: 0.9,
    cutoffSoc: 0.1,
    reconnectSoc: 0.05,
    deadSoc: 0.02,
    maxChargeKw: 10,
    maxDischargeKw: 10,
    taperStartSoc: 0.8,
    taperEndFrac: 0.1,
    chargeEff: 0.97,
    dischargeEff: 0.97,
    standbyKw: 0.05,
    chargeNoneC: 0,
    chargeFullC: 10,
    chargeHotFullC: 45,
    chargeHotNoneC: 55,
    thawMarginC: 1,
  },
  inverter: {
    ratedKw: 4,
    idleKw: 0.03,
    lossLinear: 0.02,
    lossQuadraticPerKw: 0.004,
    chargerKw: 3,
    chargerEff: 0.94,
    acInputLimitKw: 6,
    derateKneeC: 2,
    derateC: 60,
    derateFrac: 0.5,
  },
  acArrayShare: [0.5, 0.25, 0.25],
  generator: {
    ratedKw: 12,
    fuelKw: [3, 6, 9, 12],
    fuelLPerH: [1.4, 2.3, 3.2, 4.2],
    startDelayH: 0.01,
    warmUpH: 0.02,
    coolDownH: 0.05,
    minLoadFrac: 0.3,
    blackStart: true,
  },
  tank: { capacityL: 60, initialL: 30, reserveL: 2, orderAtL: 5, leadH: 20 },
  cabinet: {
    airKwhPerK: 0.02,
    batteryKwhPerK: 0.1,
    airToOutsideKwPerK: 0.012,
    airToBatteryKwPerK: 0.02,
    batteryToOutsideKwPerK: 0.006,
    sunApertureM2: 0.3,
    initialC: 2,
    coolerKw: 0.3,
    coolerCop: 2.5,
    coolerOnC: 8,
    coolerOffC: 5,
    heaterKw: 0.3,
    heaterOnC: 1,
    heaterOffC: 3,
    heaterMinSoc: 0.3,
  },
  roomC: 20,
};

const FIXTURE_CONTROLS: Controls = {
  shortfall: 'trip',
  tripAllPhases: false,
  restartDelayH: 1 / 30,
  deadVisitH: 12,
  charge: { startSoc: 0.3, delayH: 0.02, stopSoc: 0.9, tailKw: 2, tailH: 0.5, absorptionMaxH: 1 },
  peak: { startKw: 3.5, delayH: 0.02, stopKw: 2, holdH: 0.2, charges: true },
  continuous: false,
  minRunH: 0.5,
  maxRunH: 3,
  leastRestH: 0.1,
  restrictedEndsRun: true,
  urgentSoc: 0.15,
  peakAssist: true,
  acArrayOnLoad: 'held',
  acReconnectH: 0.1,
  dcToAcOnLoad: true,
};
