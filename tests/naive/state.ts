import type { Cabinet, Plant } from '../../src/sim/plant.ts';
import type { NaiveOutage, NaiveRun } from './result.ts';

/** A cabinet, or the room, with its part of the battery. */
export interface Place {
  /** null: a room at constant temperature */
  cabinet: Cabinet | null;
  batteryShare: number;
  airC: number;
  batteryC: number;
  heaterOn: boolean;
  coolerOn: boolean;
  /** electricity wanted in this step [kW] */
  heaterKw: number;
  coolerKw: number;
}

/** All that changes during a run. Times are what is left of a countdown unless said otherwise [h]. */
export interface SiteState {
  site: 'on' | 'cut off' | 'dead';
  visited: boolean;
  /** until the person comes who was called; null: nobody was */
  callH: number | null;
  energyKwh: number;
  /** lead-acid: what of the stored energy is at hand */
  wellKwh: number;
  /** shown less true energy */
  meterErrorKwh: number;
  levelL: number;
  /** null: nothing on order */
  orderH: number | null;
  /** first the one with the electronics */
  places: Place[];
  /** heat of the last step's losses, electronics and whole battery [kW] */
  airLossKw: number;
  batteryLossKw: number;
  frozen: boolean;

  engine: 'stopped' | 'starting' | 'warming' | 'on load' | 'cooling';
  /** of starting, warming or cooling */
  engineH: number;
  restH: number;
  cause: number;
  duty: number;
  /** since going on load */
  timeOnLoadH: number;
  endedByLongestRun: boolean;
  secondInUse: boolean;
  /** start attempts of the run, all of them so far, and whether they have ended in a lock-out */
  attemptsLeft: number;
  attemptsMade: number;
  startLockedOut: boolean;
  toBeBled: boolean;

  /** grown so far */
  tailH: number;
  absorptionH: number;
  heldHandH: number;
  heldChargeH: number;
  heldPeakH: number;
  heldCalmH: number;
  heldOutH: number;
  sinceFullH: number;
  sinceOnLoadH: number;
  exerciseDue: boolean;
  /** the raw condition `hand` at the start of the step */
  handHolds: boolean;

  arrayWaitH: number;
  tripH: number[];
  tripsInRow: number;
  lastTripH: number;
  invertersLockedOut: boolean;
  /** short-overload budget per phase, 0 to 1, and whether it has been used up and is not yet back */
  budget: number[];
  spent: boolean[];

  shedLatch: boolean;
  shedH: number;
  /** what is left of the day of each shiftable load */
  shiftLeftKwh: number[];

  run: NaiveRun | null;
  outage: NaiveOutage | null;
}

const place = (cabinet: Cabinet | null, batteryShare: number, roomC: number): Place => ({
  cabinet,
  batteryShare,
  airC: cabinet?.initialC ?? roomC,
  batteryC: cabinet?.initialC ?? roomC,
  heaterOn: false,
  coolerOn: false,
  heaterKw: 0,
  coolerKw: 0,
});

export function startState(plant: Plant): SiteState {
  const { battery, phases, roomC } = plant;
  const energyKwh = battery ? battery.initialSoc * battery.capacityKwh : 0;
  const further = plant.batteryCabinets ?? [];
  const firstShare = further.reduce((share, { batteryShare }) => share - batteryShare, 1);
  return {
    site: 'on',
    visited: false,
    callH: null,
    energyKwh,
    wellKwh: energyKwh * (battery?.kinetic?.atHandFrac ?? 1),
    meterErrorKwh: 0,
    levelL: plant.tank?.initialL ?? 0,
    orderH: null,
    places: [
      place(plant.cabinet, firstShare, roomC),
      ...further.map(({ cabinet, batteryShare }) => place(cabinet, batteryShare, roomC)),
    ],
    airLossKw: 0,
    batteryLossKw: 0,
    frozen: false,
    engine: 'stopped',
    engineH: 0,
    restH: 0,
    cause: -1,
    duty: -1,
    timeOnLoadH: 0,
    endedByLongestRun: false,
    secondInUse: false,
    attemptsLeft: 0,
    attemptsMade: 0,
    startLockedOut: false,
    toBeBled: false,
    tailH: 0,
    absorptionH: 0,
    heldHandH: 0,
    heldChargeH: 0,
    heldPeakH: 0,
    heldCalmH: 0,
    heldOutH: 0,
    sinceFullH: 0,
    sinceOnLoadH: Number.POSITIVE_INFINITY,
    exerciseDue: false,
    handHolds: false,
    arrayWaitH: 0,
    tripH: new Array(phases).fill(0),
    tripsInRow: 0,
    lastTripH: Number.NEGATIVE_INFINITY,
    invertersLockedOut: false,
    budget: new Array(phases).fill(1),
    spent: new Array(phases).fill(false),
    shedLatch: false,
    shedH: 0,
    shiftLeftKwh: (plant.shiftable ?? []).map(({ kwhPerDay }) => kwhPerDay),
    run: null,
    outage: null,
  };
}
