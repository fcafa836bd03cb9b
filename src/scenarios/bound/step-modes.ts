import { dcDrawKw } from '../../sim/inverter.ts';
import type { FuelPoint } from './fuel-hull.ts';
import { fuelOnHull } from './fuel-hull.ts';
import type { Engine, Limits } from './limits.ts';
import { type Mode, type Trade, tradeAmong } from './trade.ts';

/** What a step is given, all of it constant through the step. Powers in kW, by phase where so said. */
export interface StepGiven {
  /** to be served, by phase */
  wantKw: number[];
  /** most that may be served beside it, by phase: its energy is taken off elsewhere */
  besideKw: number[];
  /** inverter units in service, by phase, 0 to 1 */
  inService: number[];
  bypassed: boolean;
  dcArrayKw: number;
  /** AC-coupled array, by phase */
  acArrayKw: number[];
  /** idle and standby draw, DC side */
  standingKw: number;
}

/** Kilowatts that limits are taken wider by than the engine's own margins, so that no way of running is lost. */
const MARGIN_KW = 1e-6;

/**
 * What a step can store against what it burns when everything that is wanted is served: with the inverters alone
 * where they can carry it, and with the generator on load at any output.
 * @param engine null: the generator cannot run in this step
 * @returns kWh and litres in an hour; null where nothing can serve it
 */
export function stepTrade(limits: Limits, engine: Engine | null, given: StepGiven): Trade | null {
  const modes: Mode[] = [];
  const most = limits.chargeKw + limits.chargerEff * sumOf(given.besideKw);
  const netKw = netAloneKw(limits, given);
  if (inverterCanServe(limits, given, netKw)) modes.push(storeMode(limits, 0, 0, Math.min(netKw, most)));
  if (engine) addGeneratorModes(modes, limits, engine, given, netKw, most);
  return modes.length === 0 ? null : tradeAmong(modes);
}

/** DC power into the battery (out of it: negative) with the generator off, whatever the limits. */
export function netAloneKw(limits: Limits, given: StepGiven): number {
  let netKw = given.dcArrayKw - given.standingKw;
  for (let k = 0; k < given.wantKw.length; k++) netKw += phaseNetKw(limits, given, k, 0);
  return netKw;
}

/** DC power that a phase adds with `generatedKw` on it: through the charger, or (negative) through the inverter. */
function phaseNetKw(limits: Limits, given: StepGiven, k: number, generatedKw: number): number {
  const overKw = given.acArrayKw[k] + generatedKw - given.wantKw[k];
  if (overKw < 0) return -dcDrawKw(-overKw, limits.lossLinear, limits.lossQuadraticPerKw);
  return limits.chargerEff * Math.min(overKw, chargerKw(limits, given, k));
}

function chargerKw(limits: Limits, given: StepGiven, k: number): number {
  return limits.chargerKw * given.inService[k] + given.besideKw[k];
}

/** What a phase needs beyond its array. */
function needKw(given: StepGiven, k: number): number {
  return Math.max(0, given.wantKw[k] - given.acArrayKw[k]);
}

function inverterCanServe(limits: Limits, given: StepGiven, netKw: number): boolean {
  const hasBattery = limits.capacityKwh > 0;
  for (let k = 0; k < given.wantKw.length; k++) {
    if (!hasBattery && given.wantKw[k] > MARGIN_KW) return false;
    if (needKw(given, k) > limits.inverterKw * given.inService[k] + MARGIN_KW) return false;
  }
  return !hasBattery || netKw >= -limits.dischargeKw - MARGIN_KW;
}

/** The generator on load, from the least output that serves everything to the most that load and chargers take. */
function addGeneratorModes(
  modes: Mode[],
  limits: Limits,
  engine: Engine,
  given: StepGiven,
  netKw: number,
  mostKw: number,
): void {
  let leastKw = 0;
  let directKw = 0;
  let directNetKw = given.dcArrayKw - given.standingKw;
  let chargingKw = 0;
  let worstNeedKw = 0;
  for (let k = 0; k < given.wantKw.length; k++) {
    const cap = given.bypassed
      ? engine.phaseKw[k]
      : Math.min(engine.phaseKw[k], limits.acInputKw * given.inService[k]);
    const need = needKw(given, k);
    const direct = Math.min(cap, need);
    const surplus = Math.max(0, given.acArrayKw[k] - given.wantKw[k]);
    leastKw += Math.min(direct, Math.max(0, need - limits.inverterKw * given.inService[k] - MARGIN_KW));
    directKw += direct;
    directNetKw += phaseNetKw(limits, given, k, direct);
    if (direct > 0 && need > worstNeedKw) worstNeedKw = need;
    chargingKw += Math.max(0, Math.min(cap - direct, chargerKw(limits, given, k) - surplus));
  }
  // in place of inverters each kW saves at most their draw at the highest need, and at least the linear part of it
  const first = 1 + limits.lossLinear + 2 * limits.lossQuadraticPerKw * worstNeedKw;
  const last = 1 + limits.lossLinear;
  const netAt = (kw: number) =>
    kw >= directKw
      ? directNetKw + limits.chargerEff * (kw - directKw)
      : Math.min(netKw + first * kw, directNetKw - last * (directKw - kw));
  const bend = first > last ? (directNetKw - netKw - last * directKw) / (first - last) : 0;
  // two sets on different phases never run at once
  const highestKw = Math.min(directKw + chargingKw, engine.hull[engine.hull.length - 1].kw);
  const outputs = [leastKw, bend, directKw, highestKw, ...engine.hull.map(({ kw }) => kw)]
    .filter((kw) => kw >= leastKw && kw <= highestKw)
    .sort((a, b) => a - b);
  addWithinBattery(modes, limits, engine.hull, outputs, netAt, mostKw);
}

/** Outputs with what they put into the battery, cut at the battery's limits; its losses bend the line at nothing. */
function addWithinBattery(
  modes: Mode[],
  limits: Limits,
  hull: readonly FuelPoint[],
  outputs: readonly number[],
  netAt: (kw: number) => number,
  mostKw: number,
): void {
  const floorKw = -limits.dischargeKw - MARGIN_KW;
  const add = (kw: number, netKw: number) =>
    modes.push(storeMode(limits, fuelOnHull(hull, kw), kw, Math.min(netKw, mostKw)));
  for (let i = 0; i < outputs.length; i++) {
    const net = netAt(outputs[i]);
    if (i > 0) {
      const before = netAt(outputs[i - 1]);
      for (const level of [floorKw, 0, mostKw])
        if (before < level && net > level) {
          const part = (level - before) / (net - before);
          add(outputs[i - 1] + part * (outputs[i] - outputs[i - 1]), level);
        }
    }
    if (net >= floorKw) add(outputs[i], net);
    // beyond what the battery takes more output only costs more
    if (net >= mostKw) return;
  }
}

/** An hour of a way of running, with what it puts into the store for its DC power into the battery. */
function storeMode(limits: Limits, fuelL: number, generatedKwh: number, netKw: number): Mode {
  return { fuelL, generatedKwh, storedKwh: storedKw(limits, netKw) };
}

/** Into the store for DC power into the battery, after its losses; negative: out of it. */
export function storedKw({ chargeEff, dischargeEff }: Limits, netKw: number): number {
  return netKw > 0 ? netKw * chargeEff : netKw / dischargeEff;
}

function sumOf(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}
