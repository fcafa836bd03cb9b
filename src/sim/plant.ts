/**
 * The plant: what is built. Plain numbers in one unit per quantity; every range is checked where the site
 * file is read, not here. Powers in kW, energies in kWh, times in hours, temperatures in °C, fuel in litres.
 */
export interface Plant {
  /** one or three phases: as many inverter/charger groups, one a phase */
  phases: 1 | 3;
  /** null: no battery, so only a generator on load can form the grid */
  battery: Battery | null;
  inverter: Inverter;
  /** share of the AC-coupled array on each phase, adding to 1 */
  acArrayShare: readonly number[];
  generator: Generator | null;
  /** null: fuel never runs out */
  tank: Tank | null;
  /** null: battery and electronics stand in a room at `roomC` */
  cabinet: Cabinet | null;
  /** temperature of battery and electronics without a cabinet model [°C] */
  roomC: number;
  /** further cabinets with a share of the battery each; the first holds the electronics and the rest of it */
  batteryCabinets?: readonly BatteryCabinet[];
  /** a set that takes the first one's place while that cannot run; null or absent: none */
  secondGenerator?: SecondGenerator | null;
  /** loads that may wait for surplus, each on one phase; at most `MOST_SHIFTABLE` */
  shiftable?: readonly Shiftable[];
}

/** As many shiftable loads a site may have; a three-phase one is three of a third each. */
export const MOST_SHIFTABLE = 8;

/** The whole bank: modules in parallel are already added up. */
export interface Battery {
  /** present capacity; state of charge is a fraction of it [kWh], > 0 */
  capacityKwh: number;
  /** state of charge at the start, 0 to 1 */
  initialSoc: number;
  /** low cut-off: the inverters stop here, 0 to 1 */
  cutoffSoc: number;
  /** a cut-off site comes back at cut-off plus this, >= 0 */
  reconnectSoc: number;
  /** the battery's own protection opens here, <= cutoffSoc; below 0: never */
  deadSoc: number;
  /** largest charge power on the DC side when warm and below the taper [kW] */
  maxChargeKw: number;
  /** largest discharge power on the DC side [kW] */
  maxDischargeKw: number;
  /** charge acceptance falls linearly from here to `taperEndFrac` at full, 0 to 1 (1: no taper) */
  taperStartSoc: number;
  taperEndFrac: number;
  /** one-way efficiencies, DC bus to store and store to DC bus, 0 to 1 */
  chargeEff: number;
  dischargeEff: number;
  /** drawn from the DC bus whenever the battery is connected (battery management, controller) [kW] */
  standbyKw: number;
  /** charge acceptance by cell temperature: none up to the first, rising to full at the second */
  chargeNoneC: number;
  chargeFullC: number;
  /** full up to the third, falling to none at the fourth */
  chargeHotFullC: number;
  chargeHotNoneC: number;
  /** generator charging is allowed again this far above chargeNoneC after a frost [K] */
  thawMarginC: number;
  /** lead-acid: two wells that even out; null or absent: all of the store is at hand (lithium) */
  kinetic?: { atHandFrac: number; ratePerH: number } | null;
  /** the state of charge that is shown, and that thresholds act on, drifts; null or absent: it is true */
  display?: Display | null;
}

/** A meter of charge that adds up its own error until the battery is full. */
interface Display {
  /** drift of the shown state of charge, either sign [1/h] */
  driftPerH: number;
  /** it never errs by more than this, >= 0 */
  mostFrac: number;
  /** at this true state of charge it is right again, 0 to 1 */
  resetSoc: number;
}

/** One inverter/charger group a phase; all numbers are per phase. */
export interface Inverter {
  /** power it can carry when cool: kVA times power factor [kW] */
  ratedKw: number;
  /** loss curve between DC bus and AC: idle + linear·P + quadratic·P² [kW, -, 1/kW] */
  idleKw: number;
  lossLinear: number;
  lossQuadraticPerKw: number;
  /** largest AC power into the charger [kW] */
  chargerKw: number;
  /** AC to DC efficiency of the charger, 0 to 1 */
  chargerEff: number;
  /** what it may pass from the generator to the load and charger [kW] */
  acInputLimitKw: number;
  /** full power to the knee, then linearly to `derateFrac` at `derateC` and on along the same line to none */
  derateKneeC: number;
  derateC: number;
  derateFrac: number;
  /** units in parallel that make up the group, >= 1; absent: 1 */
  units?: number;
  /** short overloads; null or absent: none, a load above the rating trips at once */
  overload?: Overload | null;
}

/** What an inverter carries above its rating for a while. */
export interface Overload {
  /** highest load as a share of the (derated) rating, > 1 */
  frac: number;
  /** how long it carries that from rest [h], > 0; lesser overloads last longer in proportion */
  hours: number;
  /** from exhausted to fresh again [h], > 0 */
  recoveryH: number;
}

export interface Generator {
  ratedKw: number;
  /** points of the fuel curve: power [kW], rising, and litres an hour; two to four. Straight between them, the
   *  outer stretches run on to no load and to full load */
  fuelKw: readonly number[];
  fuelLPerH: readonly number[];
  /** request to engine running [h] */
  startDelayH: number;
  /** engine running without load before and after [h] */
  warmUpH: number;
  coolDownH: number;
  /** arrays may not push the generator below this share of its rating */
  minLoadFrac: number;
  /** it can start with the site dead: own starting battery and controller */
  blackStart: boolean;
  /** a single-phase set on this phase, 0 to 2; absent: as many phases as the site */
  phase?: number;
  /** further attempts after a failed start, and the pause before each [h]; absent: none */
  retries?: number;
  retryH?: number;
  /** after running dry a person must bleed it; absent: no */
  mustBleed?: boolean;
  /** AC drawn by its battery charger and controller, always, and by its block heater while the engine stands and
   *  the outside air is below a temperature [kW, kW, °C]; absent: none */
  standingKw?: number;
  blockHeaterKw?: number;
  blockHeaterBelowC?: number;
}

/** A portable or tractor-driven set, with fuel of its own that does not run out. */
export interface SecondGenerator {
  generator: Generator;
  /** the first set must have been unable to run for so long before a person has this one connected [h] */
  connectH: number;
}

/** A cabinet with batteries only. */
export interface BatteryCabinet {
  cabinet: Cabinet;
  /** of the bank's capacity, 0 to 1 */
  batteryShare: number;
}

/** A load that may wait within a day: it runs on surplus, and must run before its deadline. */
export interface Shiftable {
  /** 0 to 2 */
  phase: number;
  kw: number;
  kwhPerDay: number;
}

export interface Tank {
  capacityL: number;
  initialL: number;
  /** unusable: at this level the tank is dry */
  reserveL: number;
  /** order a delivery at or below this level; below 0: never */
  orderAtL: number;
  /** order to delivery [h] */
  leadH: number;
}

/** Two thermal nodes: air with the electronics, and the battery's mass. */
export interface Cabinet {
  airKwhPerK: number;
  batteryKwhPerK: number;
  /** heat paths [kW/K]: air to outside, air to battery, battery to outside */
  airToOutsideKwPerK: number;
  airToBatteryKwPerK: number;
  batteryToOutsideKwPerK: number;
  /** sunlit area times absorptance that ends inside, times irradiance gives the solar heat [m²] */
  sunApertureM2: number;
  /** starting temperature of both nodes [°C] */
  initialC: number;
  /** electricity of the cooler [kW] and heat moved per electricity; 0 kW: none */
  coolerKw: number;
  coolerCop: number;
  coolerOnC: number;
  coolerOffC: number;
  /** heater [kW], warming the battery node, switched by it; 0 kW: none */
  heaterKw: number;
  heaterOnC: number;
  heaterOffC: number;
  /** the heater is blocked below this state of charge unless the generator is on load */
  heaterMinSoc: number;
}
