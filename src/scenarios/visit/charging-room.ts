import { chargeFactor } from '../../sim/battery.ts';

/** The meter of charge may be off by so much [share of the battery]: own choice. */
export const SOC_MARGIN = 0.03;
/** Below this share of its charging power the battery surely limits nothing: own choice. */
export const POWER_MARGIN = 0.85;

/** Temperatures of the cells between which they take charge, and all of it [°C]. */
export interface CellWindow {
  chargeNoneC: number;
  chargeFullC: number;
  chargeHotFullC: number;
  chargeHotNoneC: number;
}

/**
 * Share of the charging power that cells take at a logged temperature: RULES.md, section 3.
 * @param cellC [°C]; NaN: not known
 * @returns 0 to 1; NaN where the temperature is not known, so that no comparison with it holds
 */
export function chargeShare(
  { chargeNoneC, chargeFullC, chargeHotFullC, chargeHotNoneC }: CellWindow,
  cellC: number,
): number {
  if (Number.isNaN(cellC)) return Number.NaN;
  return chargeFactor(cellC, chargeNoneC, chargeFullC, chargeHotFullC, chargeHotNoneC);
}
