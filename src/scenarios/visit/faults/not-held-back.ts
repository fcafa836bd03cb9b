import { chargeShare, POWER_MARGIN, SOC_MARGIN } from '../charging-room.ts';
import type { VisitGround } from '../ground.ts';

/** Above this shown charge a battery may be full. */
const NEAR_FULL = 0.96;

/**
 * 1 in the steps in which the battery takes all that the arrays could give, by shown charge and cell temperature, and
 * the chargers all that AC-coupled arrays could; without a battery in none.
 */
export function notHeldBack({ site, record, sunArraysKw, acArrayShare }: VisitGround): Uint8Array {
  const free = new Uint8Array(record.axis.count);
  const { battery, inverter, cabinet, arrays } = site;
  const { socFrac, cellC } = record.columns;
  if (!battery || !socFrac || !sunArraysKw) return free;
  const cells = {
    ...{ chargeNoneC: battery.noChargeC, chargeFullC: battery.fullChargeC },
    ...{ chargeHotFullC: battery.hotFullC, chargeHotNoneC: battery.hotNoneC },
  };
  const maxKw = battery.modules * battery.moduleChargeKw;
  const chargerKw = (inverter.chargerKw ?? Number.POSITIVE_INFINITY) * inverter.unitsPerPhase;
  const acKw = (i: number) =>
    arrays.reduce((sum, { name, coupling }) => sum + (coupling === 'ac' ? sunArraysKw[name][i] : 0), 0);
  const mostShare = Math.max(...acArrayShare, 0);
  for (let i = 0; i < free.length; i++) {
    const soc = socFrac[i] + SOC_MARGIN;
    const cell = cabinet ? (cellC?.[i] ?? Number.NaN) : site.roomC;
    const warm = chargeShare(cells, cell);
    const over = Math.max(0, soc - battery.taperStartSoc) / (1 - battery.taperStartSoc);
    const takesKw = POWER_MARGIN * maxKw * warm * (1 - (1 - battery.taperEnd) * over);
    const offeredKw = arrays.reduce((sum, { name }) => sum + sunArraysKw[name][i], 0);
    free[i] = Number(
      socFrac[i] < NEAR_FULL && offeredKw < takesKw && acKw(i) * mostShare < POWER_MARGIN * chargerKw,
    );
  }
  return free;
}
