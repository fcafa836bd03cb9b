import type { Battery } from '../../src/sim/plant.ts';

/**
 * Energy added by `offeredKw` on the DC side over `hours`, with the charge limit `limitKw` [kWh stored].
 * First at a constant power, as long as the battery accepts what comes (the offer or its limit, whichever is
 * less); from where its falling acceptance is less, a(t) = a(0)·exp(−limit·m·eff·t).
 */
export function chargedKwh(
  battery: Battery,
  energyKwh: number,
  limitKw: number,
  offeredKw: number,
  hours: number,
): number {
  const fullKwh = battery.capacityKwh;
  const taperKwh = battery.taperStartSoc * battery.capacityKwh;
  const roomKwh = Math.max(0, fullKwh - energyKwh);
  const constantKw = Math.min(offeredKw, limitKw);
  if (constantKw <= 0 || roomKwh === 0) return 0;
  const slope = taperKwh < fullKwh ? (1 - battery.taperEndFrac) / (fullKwh - taperKwh) : 0;
  if (slope === 0) return Math.min(roomKwh, constantKw * battery.chargeEff * hours);

  const acceptKw = (kwh: number) => limitKw * (1 - slope * Math.max(0, kwh - taperKwh));
  const bendKwh = taperKwh + (1 - constantKw / limitKw) / slope;
  const toBendKwh = Math.max(0, bendKwh - energyKwh);
  const toBendH = toBendKwh / (constantKw * battery.chargeEff);
  if (hours <= toBendH) return Math.min(roomKwh, constantKw * battery.chargeEff * hours);

  const rate = limitKw * slope * battery.chargeEff;
  const taperedKwh =
    (-Math.expm1(-rate * (hours - toBendH)) * battery.chargeEff * acceptKw(energyKwh + toBendKwh)) / rate;
  return Math.min(roomKwh, toBendKwh + taperedKwh);
}

/** Mean power of the energy above `floorKwh` over `hours`, on the DC side [kW]. */
export function powerAboveKw(battery: Battery, energyKwh: number, floorKwh: number, hours: number): number {
  return (Math.max(0, energyKwh - floorKwh) * battery.dischargeEff) / hours;
}

/** The battery's own protection; "never" (below 0) still leaves no less than nothing in it. */
export const deadKwh = (battery: Battery): number => Math.max(0, battery.deadSoc * battery.capacityKwh);

export const cutoffKwh = (battery: Battery): number => battery.cutoffSoc * battery.capacityKwh;

/** Share of the full charge power that the cells take at this temperature. */
export function chargeFactor(battery: Battery, cellC: number): number {
  const { chargeNoneC, chargeFullC, chargeHotFullC, chargeHotNoneC } = battery;
  if (cellC <= chargeNoneC) return 0;
  if (cellC < chargeFullC) return (cellC - chargeNoneC) / (chargeFullC - chargeNoneC);
  if (cellC <= chargeHotFullC) return 1;
  if (cellC < chargeHotNoneC) return (chargeHotNoneC - cellC) / (chargeHotNoneC - chargeHotFullC);
  return 0;
}
