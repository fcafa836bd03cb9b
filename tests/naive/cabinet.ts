import type { Cabinet } from '../../src/sim/plant.ts';
import { clamp, type Site } from './site.ts';
import { type Matrix, propagate, times } from './two-by-two.ts';

/** Both nodes at the end of a step with constant heats `airKw` and `batteryKw` (section 6). */
function nodesAfter(site: Site, cabinet: Cabinet, airKw: number, batteryKw: number): [number, number] {
  const { airKwhPerK, batteryKwhPerK, airToOutsideKwPerK, airToBatteryKwPerK, batteryToOutsideKwPerK } =
    cabinet;
  const outsideC = site.inputs.airC![site.step];
  const { stay, gain } = propagate(matrixOf(cabinet), site.stepH);
  const fromStart = times(stay, site.state.airC, site.state.batteryC);
  const fromHeat = times(
    gain,
    (airToOutsideKwPerK * outsideC + airKw) / airKwhPerK,
    (batteryToOutsideKwPerK * outsideC + batteryKw) / batteryKwhPerK,
  );
  return [fromStart[0] + fromHeat[0], fromStart[1] + fromHeat[1]];

  function matrixOf({ airKwhPerK: cAir, batteryKwhPerK: cBattery }: Cabinet): Matrix {
    return [
      -(airToOutsideKwPerK + airToBatteryKwPerK) / cAir,
      airToBatteryKwPerK / cAir,
      airToBatteryKwPerK / cBattery,
      -(airToBatteryKwPerK + batteryToOutsideKwPerK) / cBattery,
    ];
  }
}

const solarKw = (site: Site, cabinet: Cabinet): number =>
  (cabinet.sunApertureM2 * (site.inputs.cabinetSunWPerM2?.[site.step] ?? 0)) / 1000;

/** Thermostats (section 3): electricity that heater and cooler want in this step [kW]. */
export function thermostats(site: Site): { heaterKw: number; coolerKw: number } {
  const { cabinet } = site.plant;
  if (!cabinet) return { heaterKw: 0, coolerKw: 0 };
  const { airLossKw, batteryLossKw } = site.state;
  const airKw = airLossKw + solarKw(site, cabinet);
  const [airC, batteryC] = nodesAfter(site, cabinet, airKw, batteryLossKw);
  const heatedC = nodesAfter(site, cabinet, airKw, batteryLossKw + cabinet.heaterKw)[1];
  const cooledC = nodesAfter(site, cabinet, airKw - cabinet.coolerCop * cabinet.coolerKw, batteryLossKw)[0];
  return {
    heaterKw: cabinet.heaterKw * heaterDuty(site, cabinet, batteryC, heatedC),
    coolerKw: cabinet.coolerKw * coolerDuty(site, cabinet, airC, cooledC),
  };
}

function heaterDuty(site: Site, cabinet: Cabinet, withoutC: number, fullC: number): number {
  const { state, watch } = site;
  const capacityKwh = site.plant.battery?.capacityKwh ?? 0;
  const allowed =
    cabinet.heaterKw > 0 &&
    (state.engine === 'on load' || watch.atLeast(state.energyKwh, cabinet.heaterMinSoc * capacityKwh));
  if (!allowed) {
    state.heaterOn = false;
    return 0;
  }
  if (state.heaterOn) {
    if (!watch.exactlyBelow(cabinet.heaterOffC, fullC)) return 1;
    state.heaterOn = false;
    return clamp((cabinet.heaterOffC - withoutC) / (fullC - withoutC), 0, 1);
  }
  if (!watch.exactlyBelow(withoutC, cabinet.heaterOnC)) return 0;
  state.heaterOn = true;
  return clamp((cabinet.heaterOnC - withoutC) / (fullC - withoutC), 0, 1);
}

function coolerDuty(site: Site, cabinet: Cabinet, withoutC: number, fullC: number): number {
  const { state, watch } = site;
  if (cabinet.coolerKw === 0) return 0;
  if (state.coolerOn) {
    if (!watch.exactlyBelow(fullC, cabinet.coolerOffC)) return 1;
    state.coolerOn = false;
    return clamp((withoutC - cabinet.coolerOffC) / (withoutC - fullC), 0, 1);
  }
  if (!watch.exactlyBelow(cabinet.coolerOnC, withoutC)) return 0;
  state.coolerOn = true;
  return clamp((withoutC - cabinet.coolerOnC) / (withoutC - fullC), 0, 1);
}

/** Section 6: both nodes at the end of the step, from what was booked in it. */
export function warmCabinet(site: Site): void {
  const { state, sums, stepH } = site;
  const { cabinet } = site.plant;
  state.airLossKw = sums.airLossKwh / stepH;
  state.batteryLossKw = sums.batteryLossKwh / stepH;
  if (!cabinet) return;
  const airKw = state.airLossKw + solarKw(site, cabinet) - (cabinet.coolerCop * sums.coolerKwh) / stepH;
  const batteryKw = state.batteryLossKw + sums.heaterKwh / stepH;
  [state.airC, state.batteryC] = nodesAfter(site, cabinet, airKw, batteryKw);
}
