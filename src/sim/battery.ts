import { decayedShare } from './exp.ts';

/**
 * Share of the charge limit that the cells accept at a temperature: none up to `noneC`, rising straight to
 * all at `fullC`, all up to `hotFullC`, falling straight to none at `hotNoneC`.
 * Lithium iron phosphate takes no charge at or below 0 °C and less than its full current up to about 10 °C:
 * common practice; the four temperatures are inputs.
 * @returns 0 to 1
 */
export function chargeFactor(
  cellC: number,
  noneC: number,
  fullC: number,
  hotFullC: number,
  hotNoneC: number,
): number {
  if (cellC <= noneC || cellC >= hotNoneC) return 0;
  if (cellC < fullC) return (cellC - noneC) / (fullC - noneC);
  if (cellC > hotFullC) return (hotNoneC - cellC) / (hotNoneC - hotFullC);
  return 1;
}

/**
 * Stored energy after charging for a while, with the acceptance that falls near full integrated exactly:
 * dE/dt = eff · min(offered, accept(E)), accept(E) = limit up to `taperE`, then limit · (1 − slope · (E − taperE)).
 * @param e        stored energy before [kWh]
 * @param offered  DC power on offer [kW], >= 0
 * @param limit    charge limit below the taper at this cell temperature [kW], >= 0
 * @param dt       duration [h], > 0
 * @returns stored energy after [kWh], at most `fullE`
 */
export function storedAfterCharge(
  e: number,
  offered: number,
  limit: number,
  dt: number,
  eff: number,
  taperE: number,
  slope: number,
  fullE: number,
): number {
  const power = Math.min(offered, limit);
  if (power <= 0 || e >= fullE) return e;
  const straight = e + eff * power * dt;
  if (straight <= taperE) return straight;
  if (slope <= 0) return Math.min(straight, fullE);
  // up to `meetE` the offer is below what the battery accepts
  const meetE = taperE + (1 - power / limit) / slope;
  let atE = e;
  let left = dt;
  if (e < meetE) {
    const time = (meetE - e) / (eff * power);
    if (time >= dt) return Math.min(straight, fullE);
    atE = meetE;
    left = dt - time;
  }
  const accepted = limit * (1 - slope * (atE - taperE));
  if (accepted <= 0) return Math.min(atE, fullE);
  const decay = eff * limit * slope;
  return Math.min(atE + (eff * accepted * decayedShare(decay * left)) / decay, fullE);
}
