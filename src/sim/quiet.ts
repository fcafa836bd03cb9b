/**
 * Quiet steps: the inverters carry everything, nothing is switched, nothing is short. Nine steps in ten are
 * such, and this is the same arithmetic as the general step (advance.ts) with state and totals in locals, which
 * is about ten times faster. It says no rule of its own: a step that might need one is left to the general
 * step, and a test holds that runs with and without this file give the same bits.
 */
import type { LoopArrays, LoopInputs } from './advance.ts';
import { chargeFactor, storedAfterCharge } from './battery.ts';
import { dutyTowards } from './cabinet.ts';
import type { StepColumns } from './columns.ts';
import { dcDrawKw, deratingFactor } from './inverter.ts';
import * as slot from './slots.ts';

/** Whether the state at the start of a step allows quiet steps at all. */
function canBeQuiet(p: Float64Array, s: Float64Array): boolean {
  const timers =
    s[slot.S_AC_WAIT] + s[slot.S_TRIP] + s[slot.S_TRIP + 1] + s[slot.S_TRIP + 2] + s[slot.S_VISIT];
  const still = s[slot.S_GEN] === slot.GEN_STOPPED && s[slot.S_SITE] === slot.SITE_ON;
  const idle = p[slot.P_CAPACITY] > 0 && p[slot.P_CONTINUOUS] * p[slot.P_GENERATOR] === 0;
  const fuelStays =
    p[slot.P_TANK] === 0 || s[slot.S_ORDERED] === 1 || s[slot.S_TANK] > p[slot.P_ORDER_AT] + slot.EPS;
  return timers === 0 && still && idle && fuelStays && s[slot.S_OUTAGE_OPEN] === 0 && p[slot.P_CHECK] === 0;
}

/**
 * Advances over quiet steps from `from`, and stops before the first that is not.
 * @returns the first step that is not done
 */
export function advanceQuietly(
  arrays: LoopArrays,
  inputs: LoopInputs,
  columns: StepColumns | null,
  from: number,
  to: number,
): number {
  const { p, s, f, t, x } = arrays;
  if (!canBeQuiet(p, s)) return from;
  const { dcArrayKw, acArrayKw, airC: outsideC, sunWPerM2, refill } = inputs;
  const phases = p[slot.P_PHASES];
  const load0 = inputs.loadKw[0];
  const load1 = inputs.loadKw[phases === 3 ? 1 : 0];
  const load2 = inputs.loadKw[phases === 3 ? 2 : 0];
  const three = phases === 3;
  const share0 = p[slot.P_SHARE];
  const share1 = p[slot.P_SHARE + 1];
  const share2 = p[slot.P_SHARE + 2];
  const h = p[slot.P_STEP_H];
  const perStep = 1 / h;
  const capacity = p[slot.P_CAPACITY];
  const cutoffE = p[slot.P_E_CUTOFF];
  const taperE = p[slot.P_E_TAPER];
  const slope = p[slot.P_TAPER_SLOPE];
  const chargeEff = p[slot.P_CHARGE_EFF];
  const dischargeEff = p[slot.P_DISCHARGE_EFF];
  const chargeKw = p[slot.P_CHARGE_KW];
  const dischargeKw = p[slot.P_DISCHARGE_KW];
  const perStored = 1 / (chargeEff * h);
  const coldNone = p[slot.P_COLD_NONE];
  const coldFull = p[slot.P_COLD_FULL];
  const hotFull = p[slot.P_HOT_FULL];
  const hotNone = p[slot.P_HOT_NONE];
  const thaw = p[slot.P_THAW];
  const standby = p[slot.P_STANDBY];
  const idle = p[slot.P_IDLE];
  const linear = p[slot.P_LOSS_LINEAR];
  const quadratic = p[slot.P_LOSS_QUADRATIC];
  const ratedKw = p[slot.P_INV_RATED];
  const chargerKw = p[slot.P_CHARGER];
  const chargerEff = p[slot.P_CHARGER_EFF];
  const knee = p[slot.P_KNEE];
  const derate = p[slot.P_DERATE_SLOPE];
  // thresholds at which something might be asked; without the rule they are never reached
  const generator = p[slot.P_GENERATOR] === 1;
  const lowE = generator && p[slot.P_CHARGE_RULE] === 1 ? p[slot.P_START_E] + slot.EPS : -1;
  const peakRule = generator && p[slot.P_PEAK_RULE] === 1;
  const peakKw = peakRule ? p[slot.P_PEAK_START] : Number.POSITIVE_INFINITY;
  const cabinet = p[slot.P_CABINET] === 1;
  const heater = p[slot.P_HEATER];
  const heaterMinE = p[slot.P_HEATER_MIN_E] - slot.EPS;
  const cooler = p[slot.P_COOLER];
  const phiAA = p[slot.P_PHI];
  const phiAB = p[slot.P_PHI + 1];
  const phiBA = p[slot.P_PHI + 2];
  const phiBB = p[slot.P_PHI + 3];
  const gammaAO = p[slot.P_GAMMA];
  const gammaAA = p[slot.P_GAMMA + 1];
  const gammaAB = p[slot.P_GAMMA + 2];
  const gammaBO = p[slot.P_GAMMA + 3];
  const gammaBA = p[slot.P_GAMMA + 4];
  const gammaBB = p[slot.P_GAMMA + 5];

  let e = s[slot.S_E];
  let airNode = s[slot.S_AIR_C];
  let cells = s[slot.S_BATTERY_C];
  let heatAir = s[slot.S_HEAT_AIR];
  let heatBattery = s[slot.S_HEAT_BATTERY];
  let heaterOn = s[slot.S_HEATER_ON];
  let coolerOn = s[slot.S_COOLER_ON];
  let frozen = s[slot.S_FROZEN];
  let rest = s[slot.S_REST];
  let lead = s[slot.S_LEAD];
  const ordered = s[slot.S_ORDERED] === 1;
  let sumLoad = t[slot.T_LOAD];
  let sumClimate = t[slot.T_CLIMATE];
  let sumHeater = t[slot.T_HEATER];
  let sumCooler = t[slot.T_COOLER];
  let sumDcPotential = t[slot.T_DC_POTENTIAL];
  let sumDc = t[slot.T_DC_USED];
  let sumAcPotential = t[slot.T_AC_POTENTIAL];
  let sumAc = t[slot.T_AC_USED];
  let sumCharge = t[slot.T_CHARGE];
  let sumDischarge = t[slot.T_DISCHARGE];
  let sumStandby = t[slot.T_STANDBY];
  let sumIdle = t[slot.T_IDLE];
  let sumLoss = t[slot.T_INV_LOSS];
  let sumCharger = t[slot.T_CHARGER_AC];
  let sumFrost = t[slot.T_FROST];
  let sumFloor = t[slot.T_FLOOR_H];
  let minSoc = x[slot.X_MIN_SOC];
  let coldest = x[slot.X_COLDEST_CELL];
  let hottest = x[slot.X_HOTTEST_CELL];
  let hottestAir = x[slot.X_HOTTEST_AIR];

  let i = from;
  for (; i < to; i++) {
    if (e <= lowE || refill[i] === 1 || (ordered && lead <= slot.EPS)) break;
    // what can be done now
    const factor = chargeFactor(cells, coldNone, coldFull, hotFull, hotNone);
    const derating = deratingFactor(airNode, knee, derate);
    const limit = ratedKw * derating;
    const mostKw = Math.min(limit, peakKw);
    // thermostats
    let heaterKw = 0;
    let coolerKw = 0;
    let nextHeaterOn = 0;
    let nextCoolerOn = coolerOn;
    const solar = cabinet ? p[slot.P_SUN_APERTURE] * sunWPerM2[i] : 0;
    const outside = outsideC[i];
    if (cabinet) {
      const guess = heatAir + solar;
      if (heater > 0 && e >= heaterMinE) {
        const ends =
          phiBA * airNode + phiBB * cells + gammaBO * outside + gammaBA * guess + gammaBB * heatBattery;
        const rise = gammaBB * heater;
        const on = heaterOn === 1;
        const goal = on ? p[slot.P_HEATER_OFF] : p[slot.P_HEATER_ON];
        heaterKw = heater * dutyTowards(goal - ends, rise, on);
        nextHeaterOn = Number(on ? ends + rise <= goal : ends < goal);
      }
      if (cooler > 0) {
        const ends =
          phiAA * airNode + phiAB * cells + gammaAO * outside + gammaAA * guess + gammaAB * heatBattery;
        const fall = gammaAA * p[slot.P_COOLER_COP] * cooler;
        const on = coolerOn === 1;
        const goal = on ? p[slot.P_COOLER_OFF] : p[slot.P_COOLER_ON];
        coolerKw = cooler * dutyTowards(ends - goal, fall, on);
        nextCoolerOn = Number(on ? ends - fall >= goal : ends > goal);
      }
    }
    // needs of the inverters
    const climate = heaterKw + coolerKw;
    const climatePerPhase = climate / phases;
    const arrayAc = acArrayKw[i];
    const want0 = load0[i] + climatePerPhase;
    const array0 = arrayAc * share0;
    const need0 = Math.max(0, want0 - array0);
    if (need0 > mostKw) break;
    let draw = dcDrawKw(need0, linear, quadratic);
    let carried = need0;
    let surplus = Math.min(Math.max(0, array0 - want0), chargerKw * derating);
    let direct = Math.min(want0, array0);
    let climateServed = want0 > 0 ? climatePerPhase : 0;
    if (three) {
      const want1 = load1[i] + climatePerPhase;
      const want2 = load2[i] + climatePerPhase;
      const array1 = arrayAc * share1;
      const array2 = arrayAc * share2;
      const need1 = Math.max(0, want1 - array1);
      const need2 = Math.max(0, want2 - array2);
      if (need1 > mostKw || need2 > mostKw) break;
      draw += dcDrawKw(need1, linear, quadratic);
      draw += dcDrawKw(need2, linear, quadratic);
      carried = need0 + need1 + need2;
      surplus += Math.min(Math.max(0, array1 - want1), chargerKw * derating);
      surplus += Math.min(Math.max(0, array2 - want2), chargerKw * derating);
      direct += Math.min(want1, array1);
      direct += Math.min(want2, array2);
      if (want1 > 0) climateServed += climatePerPhase;
      if (want2 > 0) climateServed += climatePerPhase;
    }
    const arrayDc = dcArrayKw[i];
    const needed = idle + standby + draw;
    if (peakRule && needed > dischargeKw + arrayDc) break;
    // battery
    const supply = arrayDc + chargerEff * surplus;
    let next = e;
    let charge = 0;
    let discharge = 0;
    let frost = 0;
    let dcUsed = arrayDc;
    let chargerAc = surplus;
    if (supply >= needed) {
      const offered = supply - needed;
      next = storedAfterCharge(e, offered, factor * chargeKw, h, chargeEff, taperE, slope, capacity);
      charge = next === e ? 0 : Math.min(offered, (next - e) * perStored);
      if (factor < 1 && offered > 0) {
        const warm = storedAfterCharge(e, offered, chargeKw, h, chargeEff, taperE, slope, capacity);
        frost = (warm - e) * perStored - charge;
      }
      dcUsed = Math.min(arrayDc, needed + charge);
      chargerAc = (needed + charge - dcUsed) / chargerEff;
    } else {
      const gap = needed - supply;
      if (gap > Math.min(dischargeKw, (Math.max(0, e - cutoffE) * dischargeEff) / h)) break;
      discharge = gap;
      next = e - (gap * h) / dischargeEff;
    }
    // the step is quiet: book it
    e = next;
    if (cells <= coldNone) frozen = 1;
    else if (cells >= thaw) frozen = 0;
    heaterOn = nextHeaterOn;
    coolerOn = nextCoolerOn;
    sumLoad += load0[i] * h;
    if (three) {
      sumLoad += load1[i] * h;
      sumLoad += load2[i] * h;
    }
    const acUsed = direct + chargerAc;
    const invLoss = draw - carried;
    sumDcPotential += arrayDc * h;
    sumAcPotential += arrayAc * h;
    sumDc += dcUsed * h;
    sumAc += acUsed * h;
    sumCharge += charge * h;
    sumDischarge += discharge * h;
    sumStandby += standby * h;
    sumIdle += idle * h;
    sumLoss += invLoss * h;
    sumCharger += chargerAc * h;
    sumFrost += frost * h;
    rest = Math.max(0, rest - h);
    if (ordered) lead -= h;
    if (cabinet) {
      let heaterKwh = 0;
      let coolerKwh = 0;
      if (climate > 0) {
        const hours = (climateServed / climate) * h;
        heaterKwh = heaterKw * hours;
        coolerKwh = coolerKw * hours;
        sumClimate += climateServed * h;
        sumHeater += heaterKwh;
        sumCooler += coolerKwh;
      }
      const batteryLoss = charge * (1 - chargeEff) + discharge * (1 / dischargeEff - 1);
      heatAir = (invLoss + idle + chargerAc * (1 - chargerEff)) * h * perStep;
      heatBattery = (batteryLoss + standby) * h * perStep;
      const toAir = heatAir + solar - coolerKwh * perStep * p[slot.P_COOLER_COP];
      const toBattery = heatBattery + heaterKwh * perStep;
      const nextAir =
        phiAA * airNode + phiAB * cells + gammaAO * outside + gammaAA * toAir + gammaAB * toBattery;
      cells = phiBA * airNode + phiBB * cells + gammaBO * outside + gammaBA * toAir + gammaBB * toBattery;
      airNode = nextAir;
      coldest = Math.min(coldest, cells);
      hottest = Math.max(hottest, cells);
      hottestAir = Math.max(hottestAir, airNode);
    }
    minSoc = Math.min(minSoc, e / capacity);
    if (e <= cutoffE + slot.EPS) sumFloor += h;
    if (columns !== null) {
      columns.socFrac[i] = e / capacity;
      columns.generatorKw[i] = 0;
      columns.unservedKw[i] = 0;
      columns.dcUsedKw[i] = dcUsed * h * perStep;
      columns.acUsedKw[i] = acUsed * h * perStep;
      columns.batteryKw[i] = (charge - discharge) * h * perStep;
      columns.curtailedKw[i] = arrayDc + arrayAc - columns.dcUsedKw[i] - columns.acUsedKw[i];
      columns.cabinetC[i] = airNode;
      columns.cellC[i] = cells;
      columns.cause[i] = 0;
    }
  }
  if (i === from) return i;

  s[slot.S_E] = e;
  s[slot.S_AIR_C] = airNode;
  s[slot.S_BATTERY_C] = cells;
  s[slot.S_HEAT_AIR] = heatAir;
  s[slot.S_HEAT_BATTERY] = heatBattery;
  s[slot.S_HEATER_ON] = heaterOn;
  s[slot.S_COOLER_ON] = coolerOn;
  s[slot.S_FROZEN] = frozen;
  s[slot.S_REST] = rest;
  s[slot.S_LEAD] = lead;
  s[slot.S_HELD_CHARGE] = 0;
  s[slot.S_HELD_PEAK] = 0;
  s[slot.S_HELD_CALM] = 0;
  f[slot.F_CLIMATE] = 0;
  t[slot.T_LOAD] = sumLoad;
  t[slot.T_CLIMATE] = sumClimate;
  t[slot.T_HEATER] = sumHeater;
  t[slot.T_COOLER] = sumCooler;
  t[slot.T_DC_POTENTIAL] = sumDcPotential;
  t[slot.T_DC_USED] = sumDc;
  t[slot.T_AC_POTENTIAL] = sumAcPotential;
  t[slot.T_AC_USED] = sumAc;
  t[slot.T_CHARGE] = sumCharge;
  t[slot.T_DISCHARGE] = sumDischarge;
  t[slot.T_STANDBY] = sumStandby;
  t[slot.T_IDLE] = sumIdle;
  t[slot.T_INV_LOSS] = sumLoss;
  t[slot.T_CHARGER_AC] = sumCharger;
  t[slot.T_FROST] = sumFrost;
  t[slot.T_FLOOR_H] = sumFloor;
  x[slot.X_MIN_SOC] = minSoc;
  x[slot.X_COLDEST_CELL] = coldest;
  x[slot.X_HOTTEST_CELL] = hottest;
  x[slot.X_HOTTEST_AIR] = hottestAir;
  return i;
}
