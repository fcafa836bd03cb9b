/**
 * Quiet steps: nothing is switched and nothing is short, either with the inverters carrying everything or with
 * the generator on load carrying everything and charging. Nearly all steps are such, and this is the same
 * arithmetic as the general step (advance.ts) with state and totals in locals, which is five to ten times
 * faster. It says no rule of its own: a step that might need one is left to the general step, and a test holds
 * that runs with and without this file give the same bits.
 */
import type { LoopArrays, LoopInputs } from './advance.ts';
import { chargeFactor, storedAfterCharge } from './battery.ts';
import { dutyTowards } from './cabinet.ts';
import { CAUSE_CHARGE, CAUSE_EXERCISE, CAUSE_FULL, CAUSE_HAND, CAUSE_PEAK } from './causes.ts';
import type { StepColumns } from './columns.ts';
import { fuelRateLPerH } from './fuel.ts';
import { dcDrawKw, deratingFactor } from './inverter.ts';
import { AT_END, AT_START, extrasOf, ON_SURPLUS } from './quiet-extras.ts';
import { LEAST_SURPLUS_KW, useForced } from './shiftable.ts';
import * as slot from './slots.ts';

/** A surplus too small for any shiftable load, rounding allowed for [kW]. */
const HALF_LEAST_SURPLUS = LEAST_SURPLUS_KW / 2;

/** Just below 1. */
const NEARLY = 1 - 1e-9;

/**
 * Advances over quiet steps from `from`, and stops before the first that is not.
 * @param extras whether the site has what quiet-extras.ts does
 * @returns the first step that is not done
 */
export function advanceQuietly(
  arrays: LoopArrays,
  inputs: LoopInputs,
  columns: StepColumns | null,
  extras: boolean,
  from: number,
  to: number,
): number {
  const { p, s, f, t, x, more } = arrays;
  const { dcArrayKw, acArrayKw, airC: outsideC, sunWPerM2, special, restricted, night } = inputs;
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
  const lossPerDischarge = 1 / dischargeEff - 1;
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
  const onLoad = s[slot.S_GEN] === slot.GEN_ON_LOAD;
  const duty = s[slot.S_DUTY];
  const startE =
    generator && p[slot.P_CHARGE_RULE] === 1 && !(onLoad && duty === CAUSE_CHARGE)
      ? p[slot.P_START_E] + slot.EPS
      : -1;
  const hand = generator && p[slot.P_HAND_RULE] === 1;
  const lowE = Math.max(startE, hand ? p[slot.P_HAND_START_E] + slot.EPS : -1);
  const shiftable = p[slot.P_SHIFTABLE] > 0;
  const many = more.length > 0;
  const mainShare = p[slot.P_MAIN_SHARE];
  const mainCounts = mainShare > slot.EPS;
  const peakRule = generator && p[slot.P_PEAK_RULE] === 1;
  const stopKw = p[slot.P_PEAK_STOP] + slot.EPS;
  const byHand = duty === CAUSE_HAND;
  const toFull = duty === CAUSE_FULL;
  const stopE =
    (byHand ? p[slot.P_HAND_STOP_E] : toFull ? p[slot.P_FULL_STOP_E] : p[slot.P_STOP_E]) - slot.EPS;
  const tailKw = p[slot.P_TAIL_KW];
  const tailH = tailKw > 0 && duty === CAUSE_CHARGE ? p[slot.P_TAIL_H] - slot.EPS : Number.POSITIVE_INFINITY;
  const absorbH =
    (byHand ? p[slot.P_HAND_ABSORB_H] : toFull ? p[slot.P_FULL_ABSORB_H] : p[slot.P_ABSORB_H]) - slot.EPS;
  const mayHoldBack = duty === CAUSE_CHARGE || toFull;
  const exerciseH = duty === CAUSE_EXERCISE ? p[slot.P_EXERCISE_RUN] - slot.EPS : Number.POSITIVE_INFINITY;
  const minRunH = p[slot.P_MIN_RUN] - slot.EPS;
  const maxRunH = p[slot.P_MAX_RUN] - slot.EPS;
  const cap0 = Math.min(p[slot.P_GEN_PHASE_KW], p[slot.P_AC_INPUT]);
  const cap1 = Math.min(p[slot.P_GEN_PHASE_KW + 1], p[slot.P_AC_INPUT]);
  const cap2 = Math.min(p[slot.P_GEN_PHASE_KW + 2], p[slot.P_AC_INPUT]);
  const target = p[slot.P_CHARGE_TARGET];
  const lowLoadKw = 0.3 * p[slot.P_GEN_RATED] - slot.EPS;
  const tank = p[slot.P_TANK] === 1;
  const peakKw = peakRule ? p[slot.P_PEAK_START] : Number.POSITIVE_INFINITY;
  const cabinet = p[slot.P_CABINET] === 1;
  const heater = p[slot.P_HEATER];
  const heaterMinE = p[slot.P_HEATER_MIN_E] - slot.EPS;
  const cooler = p[slot.P_COOLER];
  const coolerCop = p[slot.P_COOLER_COP];
  const sunAperture = p[slot.P_SUN_APERTURE];
  const heaterOnC = p[slot.P_HEATER_ON];
  const heaterOffC = p[slot.P_HEATER_OFF];
  const coolerOnC = p[slot.P_COOLER_ON];
  const coolerOffC = p[slot.P_COOLER_OFF];
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
  let fuel = s[slot.S_TANK];
  let onLoadH = s[slot.S_ON_LOAD_H];
  let tail = s[slot.S_TAIL];
  let absorb = s[slot.S_ABSORB];
  let heldCharge = s[slot.S_HELD_CHARGE];
  let runKwh = s[slot.S_RUN_KWH];
  let runLitres = s[slot.S_RUN_LITRES];
  const ordered = s[slot.S_ORDERED] === 1;
  let sumFuel = t[slot.T_FUEL];
  let sumGen = t[slot.T_GEN];
  let sumRunH = t[slot.T_RUN_H];
  let sumOnLoadH = t[slot.T_ON_LOAD_H];
  let sumLowLoadH = t[slot.T_LOW_LOAD_H];
  let sumNightH = t[slot.T_NIGHT_H];
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
    if (special[i] === 1 || (ordered && lead <= slot.EPS)) break;
    let shown = e;
    let loadA = load0[i];
    let loadB = load1[i];
    let loadC = load2[i];
    let own = 0;
    let heatersMore = 0;
    let coolersMore = 0;
    if (extras) {
      s[slot.S_E] = e;
      if (!extrasOf(arrays, inputs, i, AT_START)) break;
      shown = f[slot.F_SHOWN_E];
      loadA = loadA + f[slot.F_FORCED] - f[slot.F_DROP];
      loadB = loadB + f[slot.F_FORCED + 1] - f[slot.F_DROP + 1];
      loadC = loadC + f[slot.F_FORCED + 2] - f[slot.F_DROP + 2];
      own = f[slot.F_OWN];
      heatersMore = f[slot.F_HEATER_MORE];
      coolersMore = f[slot.F_COOLER_MORE];
    }
    if (shown <= lowE) break;
    if (onLoad) {
      if (onLoadH >= maxRunH) break;
      const mayStop = onLoadH >= minRunH;
      if (mayStop && onLoadH >= exerciseH) break;
      if (mayStop && (mayHoldBack || byHand)) {
        if ((toFull ? e : shown) >= stopE || tail >= tailH || absorb >= absorbH) break;
        if (mayHoldBack && (frozen === 1 || restricted[i] === 1)) break;
        const mainIsCold = cells <= coldNone || !mainCounts;
        if (mayHoldBack && mainIsCold && f[slot.F_WARMEST_MORE] <= coldNone) break;
      }
      if (tank && !ordered && fuel <= p[slot.P_ORDER_AT] + slot.EPS) break;
    }
    // what can be done now
    const main = chargeFactor(cells, coldNone, coldFull, hotFull, hotNone);
    const factor = many ? mainShare * main + f[slot.F_FACTOR_MORE] : main;
    const derating = deratingFactor(airNode, knee, derate);
    const limit = ratedKw * derating;
    const mostKw = Math.min(limit, peakKw);
    // thermostats
    let heaterKw = 0;
    let coolerKw = 0;
    let nextHeaterOn = 0;
    let nextCoolerOn = coolerOn;
    const solar = cabinet ? sunAperture * sunWPerM2[i] : 0;
    const outside = outsideC[i];
    if (cabinet) {
      const guess = heatAir + solar;
      if (heater > 0 && (shown >= heaterMinE || onLoad)) {
        const ends =
          phiBA * airNode + phiBB * cells + gammaBO * outside + gammaBA * guess + gammaBB * heatBattery;
        const rise = gammaBB * heater;
        const on = heaterOn === 1;
        const goal = on ? heaterOffC : heaterOnC;
        heaterKw = heater * dutyTowards(goal - ends, rise, on);
        nextHeaterOn = Number(on ? ends + rise <= goal : ends < goal);
      }
      if (cooler > 0) {
        const ends =
          phiAA * airNode + phiAB * cells + gammaAO * outside + gammaAA * guess + gammaAB * heatBattery;
        const fall = gammaAA * coolerCop * cooler;
        const on = coolerOn === 1;
        const goal = on ? coolerOffC : coolerOnC;
        coolerKw = cooler * dutyTowards(ends - goal, fall, on);
        nextCoolerOn = Number(on ? ends - fall >= goal : ends > goal);
      }
    }
    // needs of the inverters
    let climate = heaterKw + coolerKw;
    if (extras) climate = climate + (heatersMore + coolersMore) + own;
    const climatePerPhase = climate === 0 ? 0 : climate / phases;
    const arrayAc = acArrayKw[i];
    const arrayDc = dcArrayKw[i];
    const chargerLimit = chargerKw * derating;
    const want0 = loadA + climatePerPhase;
    const want1 = three ? loadB + climatePerPhase : 0;
    const want2 = three ? loadC + climatePerPhase : 0;
    let climateServed = want0 > 0 ? climatePerPhase : 0;
    if (want1 > 0) climateServed += climatePerPhase;
    if (want2 > 0) climateServed += climatePerPhase;
    let draw = 0;
    let carried = 0;
    let surplus = 0;
    let direct = 0;
    let room0 = 0;
    let room1 = 0;
    let room2 = 0;
    if (onLoad) {
      if (want0 > cap0 || want1 > cap1 || want2 > cap2 || (arrayAc > 0 && p[slot.P_AC_HELD] === 1)) break;
      // a peak that asks, or calm that would end a peak run, is for the general step
      if (peakRule) {
        const need0 = Math.max(0, want0 - arrayAc * share0);
        const need1 = three ? Math.max(0, want1 - arrayAc * share1) : 0;
        const need2 = three ? Math.max(0, want2 - arrayAc * share2) : 0;
        if (need0 > mostKw || need1 > mostKw || need2 > mostKw) break;
        let needDraw = idle + standby + dcDrawKw(need0, linear, quadratic);
        needDraw += dcDrawKw(need1, linear, quadratic) + dcDrawKw(need2, linear, quadratic);
        if (needDraw > dischargeKw + arrayDc) break;
        if (duty === CAUSE_PEAK && want0 <= stopKw && want1 <= stopKw && want2 <= stopKw) break;
      }
      room0 = Math.max(0, Math.min(chargerLimit, Math.min(cap0, target) - want0));
      if (three) {
        room1 = Math.max(0, Math.min(chargerLimit, Math.min(cap1, target) - want1));
        room2 = Math.max(0, Math.min(chargerLimit, Math.min(cap2, target) - want2));
      }
      surplus = room0 + room1 + room2;
    } else {
      const array0 = arrayAc * share0;
      const need0 = Math.max(0, want0 - array0);
      if (need0 > mostKw) break;
      draw = dcDrawKw(need0, linear, quadratic);
      carried = need0;
      surplus = Math.min(Math.max(0, array0 - want0), chargerLimit);
      direct = Math.min(want0, array0);
      if (three) {
        const array1 = arrayAc * share1;
        const array2 = arrayAc * share2;
        const need1 = Math.max(0, want1 - array1);
        const need2 = Math.max(0, want2 - array2);
        if (need1 > mostKw || need2 > mostKw) break;
        draw += dcDrawKw(need1, linear, quadratic);
        draw += dcDrawKw(need2, linear, quadratic);
        carried = need0 + need1 + need2;
        surplus += Math.min(Math.max(0, array1 - want1), chargerLimit);
        surplus += Math.min(Math.max(0, array2 - want2), chargerLimit);
        direct += Math.min(want1, array1);
        direct += Math.min(want2, array2);
      }
    }
    const needed = idle + standby + draw;
    if (peakRule && !onLoad && needed > dischargeKw + arrayDc) break;
    // battery
    const supply = arrayDc + chargerEff * surplus;
    let next = e;
    let charge = 0;
    let discharge = 0;
    let frost = 0;
    let offered = 0;
    let dcUsed = arrayDc;
    let chargerAc = surplus;
    if (supply >= needed) {
      offered = supply - needed;
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
      // a hair less than there is: at the very limit the general step decides
      if (onLoad || gap > dischargeKw || gap * h > (e - cutoffE) * dischargeEff * NEARLY) break;
      discharge = gap;
      next = e - (gap * h) / dischargeEff;
    }
    let acUsed = onLoad ? 0 : direct + chargerAc;
    let invLoss = draw - carried;
    if (shiftable && !onLoad) useForced(p, s, f, t, inputs.shiftHoursLeft, i);
    if (shiftable && !onLoad && offered > 0) {
      // surplus that a shiftable load could use
      const acLeft = Math.max(surplus - chargerAc, arrayAc - direct - surplus);
      if (arrayDc - dcUsed > HALF_LEAST_SURPLUS || acLeft > HALF_LEAST_SURPLUS) {
        for (let k = 0; k < phases; k++) {
          const beyond = arrayAc * p[slot.P_SHARE + k] - (k === 0 ? want0 : k === 1 ? want1 : want2);
          f[slot.F_ARRAY_LEFT + k] = Math.max(0, beyond);
          f[slot.F_CARRIED + k] = Math.max(0, -beyond);
          f[slot.F_INV_LIMIT + k] = limit;
          f[slot.F_CHARGER_LIMIT + k] = chargerLimit;
        }
        f[slot.F_SHORT] = slot.SHORT_NONE;
        f[slot.F_OFFERED] = offered;
        f[slot.F_SURPLUS] = surplus;
        f[slot.F_CHARGER_AC] = chargerAc;
        f[slot.F_ARRAY_DC] = arrayDc;
        f[slot.F_DC_USED] = dcUsed;
        f[slot.F_AC_USED] = acUsed;
        f[slot.F_INV_LOSS] = invLoss;
        extrasOf(arrays, inputs, i, ON_SURPLUS);
        dcUsed = f[slot.F_DC_USED];
        acUsed = f[slot.F_AC_USED];
        invLoss = f[slot.F_INV_LOSS];
      }
    }
    let genKw = 0;
    if (onLoad) {
      if (p[slot.P_DC_TO_AC] === 1 && arrayDc - dcUsed > slot.EPS) break;
      const room = chargerEff * surplus;
      const chargerShare = room > 0 ? (needed + charge - dcUsed) / room : 0;
      genKw = want0 + room0 * chargerShare;
      if (three) {
        genKw += want1 + room1 * chargerShare;
        genKw += want2 + room2 * chargerShare;
      }
      const fuelRate = fuelRateLPerH(
        genKw,
        p[slot.P_FUEL_BREAK_1],
        p[slot.P_FUEL_BREAK_2],
        p[slot.P_FUEL_LINES],
        p[slot.P_FUEL_LINES + 1],
        p[slot.P_FUEL_LINES + 2],
        p[slot.P_FUEL_LINES + 3],
        p[slot.P_FUEL_LINES + 4],
        p[slot.P_FUEL_LINES + 5],
      );
      if (tank && fuelRate * h > fuel - p[slot.P_TANK_RESERVE] + slot.EPS) break;
      frost = Math.min(frost, arrayDc - dcUsed);
      const tapered = offered > 0 && charge < offered - slot.EPS;
      tail = tapered && charge < tailKw ? tail + h : 0;
      absorb += Number(e >= taperE - slot.EPS) * h;
      onLoadH += h;
      if (tank) fuel -= fuelRate * h;
      sumFuel += fuelRate * h;
      sumGen += genKw * h;
      sumRunH += h;
      sumOnLoadH += h;
      sumNightH += night[i] * h;
      if (genKw < lowLoadKw) sumLowLoadH += h;
      t[slot.T_LOADING_H + Math.min(9, Math.floor((10 * genKw) / p[slot.P_GEN_RATED] + slot.EPS))] += h;
      runKwh += genKw * h;
      runLitres += fuelRate * h;
      heldCharge = p[slot.P_CHARGE_RULE] === 1 && shown <= p[slot.P_START_E] + slot.EPS ? heldCharge + h : 0;
    }
    // the step is quiet: book it
    e = next;
    let warmest = cells;
    if (many) {
      const moreC = f[slot.F_WARMEST_MORE];
      if (!mainCounts || moreC > cells) warmest = moreC;
    }
    if (warmest <= coldNone) frozen = 1;
    else if (warmest >= thaw) frozen = 0;
    heaterOn = nextHeaterOn;
    coolerOn = nextCoolerOn;
    sumLoad += load0[i] * h;
    if (three) {
      sumLoad += load1[i] * h;
      sumLoad += load2[i] * h;
    }
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
    if (rest > 0) rest = Math.max(0, rest - h);
    if (ordered) lead -= h;
    let hours = 0;
    if (climate > 0) {
      hours = (climateServed / climate) * h;
      sumClimate += climateServed * h;
      if (extras) {
        sumClimate -= own * hours;
        sumHeater += (heaterKw + heatersMore) * hours;
        sumCooler += (coolerKw + coolersMore) * hours;
      } else {
        sumHeater += heaterKw * hours;
        sumCooler += coolerKw * hours;
      }
    }
    if (extras) {
      s[slot.S_E] = e;
      f[slot.F_CLIMATE_H] = hours;
      f[slot.F_HEAT_BATTERY_KWH] = (charge * (1 - chargeEff) + discharge * lossPerDischarge + standby) * h;
      s[slot.S_ON_LOAD_H] = onLoadH;
      extrasOf(arrays, inputs, i, AT_END);
    }
    if (cabinet) {
      const heaterKwh = heaterKw * hours;
      const coolerKwh = coolerKw * hours;
      const batteryLoss = charge * (1 - chargeEff) + discharge * lossPerDischarge;
      heatAir = (invLoss + idle + chargerAc * (1 - chargerEff)) * h * perStep;
      heatBattery = (batteryLoss + standby) * h * perStep * mainShare;
      const toAir = heatAir + solar - coolerKwh * perStep * coolerCop;
      const toBattery = heatBattery + heaterKwh * perStep;
      const nextAir =
        phiAA * airNode + phiAB * cells + gammaAO * outside + gammaAA * toAir + gammaAB * toBattery;
      cells = phiBA * airNode + phiBB * cells + gammaBO * outside + gammaBA * toAir + gammaBB * toBattery;
      airNode = nextAir;
    }
    if (mainCounts) {
      if (cells < coldest) coldest = cells;
      if (cells > hottest) hottest = cells;
    }
    if (many) {
      coldest = Math.min(coldest, f[slot.F_COLDEST_MORE]);
      hottest = Math.max(hottest, f[slot.F_WARMEST_MORE]);
    }
    if (airNode > hottestAir) hottestAir = airNode;
    const soc = e / capacity;
    if (soc < minSoc) minSoc = soc;
    if (e <= cutoffE + slot.EPS) sumFloor += h;
    if (columns !== null) {
      columns.socFrac[i] = soc;
      columns.generatorKw[i] = genKw * h * perStep;
      columns.unservedKw[i] = 0;
      columns.dcUsedKw[i] = dcUsed * h * perStep;
      columns.acUsedKw[i] = acUsed * h * perStep;
      columns.batteryKw[i] = (charge - discharge) * h * perStep;
      columns.curtailedKw[i] = arrayDc + arrayAc - columns.dcUsedKw[i] - columns.acUsedKw[i];
      columns.cabinetC[i] = airNode;
      columns.cellC[i] = many ? mainShare * cells + f[slot.F_MEAN_MORE] : cells;
      columns.cause[i] = onLoad ? 1 + s[slot.S_CAUSE] : 0;
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
  s[slot.S_HELD_CHARGE] = onLoad ? heldCharge : 0;
  s[slot.S_HELD_PEAK] = 0;
  s[slot.S_HELD_HAND] = 0;
  s[slot.S_HELD_CALM] = 0;
  s[slot.S_TANK] = fuel;
  x[slot.X_LOWEST_TANK] = Math.min(x[slot.X_LOWEST_TANK], fuel);
  s[slot.S_ON_LOAD_H] = onLoadH;
  s[slot.S_TAIL] = tail;
  s[slot.S_ABSORB] = absorb;
  s[slot.S_RUN_KWH] = runKwh;
  s[slot.S_RUN_LITRES] = runLitres;
  t[slot.T_FUEL] = sumFuel;
  t[slot.T_GEN] = sumGen;
  t[slot.T_RUN_H] = sumRunH;
  t[slot.T_ON_LOAD_H] = sumOnLoadH;
  t[slot.T_LOW_LOAD_H] = sumLowLoadH;
  t[slot.T_NIGHT_H] = sumNightH;
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
