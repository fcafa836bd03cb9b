import * as slot from './slots.ts';

/** Fuel arriving at the start of a step: on a fixed date, or ordered at a low level and come after the lead time. */
export function takeDeliveries(p: Float64Array, s: Float64Array, t: Float64Array, fixedDate: boolean): void {
  if (fixedDate) fillUp(p, s, t);
  if (s[slot.S_ORDERED] === 1 && s[slot.S_LEAD] <= slot.EPS) {
    fillUp(p, s, t);
    s[slot.S_ORDERED] = 0;
  }
  const orderAt = p[slot.P_ORDER_AT];
  if (s[slot.S_ORDERED] === 0 && orderAt >= 0 && s[slot.S_TANK] <= orderAt + slot.EPS) {
    if (p[slot.P_LEAD] <= slot.EPS) fillUp(p, s, t);
    else {
      s[slot.S_ORDERED] = 1;
      s[slot.S_LEAD] = p[slot.P_LEAD];
    }
  }
}

function fillUp(p: Float64Array, s: Float64Array, t: Float64Array): void {
  t[slot.T_DELIVERED] += p[slot.P_TANK_CAPACITY] - s[slot.S_TANK];
  t[slot.T_DELIVERIES] += 1;
  s[slot.S_TANK] = p[slot.P_TANK_CAPACITY];
}

/** True when the tank is above its unusable reserve, or there is no end of fuel. */
export function tankHasFuel(p: Float64Array, s: Float64Array): boolean {
  return p[slot.P_TANK] === 0 || s[slot.S_TANK] > p[slot.P_TANK_RESERVE] + slot.EPS;
}
