import type { Cabinet } from '../../src/sim/plant.ts';
import { clamp, type Site } from './site.ts';
import type { Place } from './state.ts';
import { type Matrix, propagate, times } from './two-by-two.ts';

/** A place that is a cabinet. */
type Housed = Place & { cabinet: Cabinet };

const isHoused = (place: Place): place is Housed => place.cabinet !== null;

/** Both nodes at the end of a step with constant heats `airKw` and `batteryKw` (section 6). */
function nodesAfter(site: Site, place: Housed, airKw: number, batteryKw: number): [number, number] {
  const { cabinet } = place;
  const { airKwhPerK, batteryKwhPerK, airToOutsideKwPerK, batteryToOutsideKwPerK } = cabinet;
  const outsideC = site.inputs.airC![site.step];
  const { stay, gain } = propagate(matrixOf(cabinet), site.stepH);
  const fromStart = times(stay, place.airC, place.batteryC);
  const fromHeat = times(
    gain,
    (airToOutsideKwPerK * outsideC + airKw) / airKwhPerK,
    (batteryToOutsideKwPerK * outsideC + batteryKw) / batteryKwhPerK,
  );
  return [fromStart[0] + fromHeat[0], fromStart[1] + fromHeat[1]];
}

function matrixOf(cabinet: Cabinet): Matrix {
  const { airKwhPerK, batteryKwhPerK, airToOutsideKwPerK, airToBatteryKwPerK, batteryToOutsideKwPerK } =
    cabinet;
  return [
    -(airToOutsideKwPerK + airToBatteryKwPerK) / airKwhPerK,
    airToBatteryKwPerK / airKwhPerK,
    airToBatteryKwPerK / batteryKwhPerK,
    -(airToBatteryKwPerK + batteryToOutsideKwPerK) / batteryKwhPerK,
  ];
}

/** Heat of the last step's losses and of the sun: into the air, and into the battery [kW]. */
function lossHeatKw(site: Site, place: Housed): [number, number] {
  const { state, inputs, step } = site;
  const sunKw = (place.cabinet.sunApertureM2 * (inputs.cabinetSunWPerM2?.[step] ?? 0)) / 1000;
  const electronicsKw = place === state.places[0] ? state.airLossKw : 0;
  return [electronicsKw + sunKw, place.batteryShare * state.batteryLossKw];
}

/** Thermostats (section 3): electricity that heaters and coolers want in this step. */
export function thermostats(site: Site, shownKwh: number): void {
  for (const place of site.state.places.filter(isHoused)) {
    const { heaterKw, coolerKw, coolerCop } = place.cabinet;
    const [airKw, batteryKw] = lossHeatKw(site, place);
    const [airC, batteryC] = nodesAfter(site, place, airKw, batteryKw);
    const heatedC = nodesAfter(site, place, airKw, batteryKw + heaterKw)[1];
    const cooledC = nodesAfter(site, place, airKw - coolerCop * coolerKw, batteryKw)[0];
    place.heaterKw = heaterKw * heaterDuty(site, place, shownKwh, batteryC, heatedC);
    place.coolerKw = coolerKw * coolerDuty(site, place, airC, cooledC);
  }
}

function heaterDuty(site: Site, place: Housed, shownKwh: number, withoutC: number, fullC: number): number {
  const { state, watch } = site;
  const { cabinet } = place;
  const capacityKwh = site.plant.battery?.capacityKwh ?? 0;
  const allowed =
    cabinet.heaterKw > 0 &&
    (state.engine === 'on load' || watch.atLeast(shownKwh, cabinet.heaterMinSoc * capacityKwh));
  if (!allowed) {
    place.heaterOn = false;
    return 0;
  }
  if (place.heaterOn) {
    if (!watch.exactlyBelow(cabinet.heaterOffC, fullC)) return 1;
    place.heaterOn = false;
    return clamp((cabinet.heaterOffC - withoutC) / (fullC - withoutC), 0, 1);
  }
  if (!watch.exactlyBelow(withoutC, cabinet.heaterOnC)) return 0;
  place.heaterOn = true;
  return clamp((cabinet.heaterOnC - withoutC) / (fullC - withoutC), 0, 1);
}

function coolerDuty({ watch }: Site, place: Housed, withoutC: number, fullC: number): number {
  const { cabinet } = place;
  if (cabinet.coolerKw === 0) return 0;
  if (place.coolerOn) {
    if (!watch.exactlyBelow(fullC, cabinet.coolerOffC)) return 1;
    place.coolerOn = false;
    return clamp((withoutC - cabinet.coolerOffC) / (withoutC - fullC), 0, 1);
  }
  if (!watch.exactlyBelow(cabinet.coolerOnC, withoutC)) return 0;
  place.coolerOn = true;
  return clamp((withoutC - cabinet.coolerOnC) / (withoutC - fullC), 0, 1);
}

/** Section 6: all nodes at the end of the step, from what was booked in it. */
export function warmCabinets(site: Site): void {
  const { state, sums, stepH } = site;
  state.airLossKw = sums.airLossKwh / stepH;
  state.batteryLossKw = sums.batteryLossKwh / stepH;
  state.places.forEach((place, i) => {
    if (!isHoused(place)) return;
    const [airKw, batteryKw] = lossHeatKw(site, place);
    const coolingKw = (place.cabinet.coolerCop * sums.coolerKwh[i]) / stepH;
    const heatingKw = sums.heaterKwh[i] / stepH;
    [place.airC, place.batteryC] = nodesAfter(site, place, airKw - coolingKw, batteryKw + heatingKw);
  });
}
