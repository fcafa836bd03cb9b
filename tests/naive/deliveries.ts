import { EPS } from './near-miss.ts';
import { callPerson } from './people.ts';
import { fuelLeftL, type Site } from './site.ts';

/** Section 1: what comes into the tank; with fuel again, somebody is sent for who bleeds the engine. */
export function deliver(site: Site): void {
  fillTank(site);
  if (site.state.toBeBled && site.watch.above(fuelLeftL(site), 0)) callPerson(site);
}

/** Fill the tank by date, by an order that arrives, and order when it is low. */
function fillTank(site: Site): void {
  const { tank } = site.plant;
  const { state, watch } = site;
  if (!tank) return;
  if (site.inputs.refillSteps?.includes(site.step)) fill();
  if (state.orderH !== null) {
    watch.note(state.orderH, 0);
    if (state.orderH <= EPS) fillOrder();
  }
  if (state.orderH === null && tank.orderAtL >= 0 && watch.atMost(state.levelL, tank.orderAtL)) {
    state.orderH = tank.leadH;
    if (state.orderH <= EPS) fillOrder();
  }

  function fillOrder(): void {
    state.orderH = null;
    fill();
  }

  function fill(): void {
    site.totals.deliveries += 1;
    site.totals.deliveredL += tank!.capacityL - state.levelL;
    state.levelL = tank!.capacityL;
  }
}

/** At the end of a step an outstanding order has come nearer. */
export function waitForOrder(site: Site): void {
  if (site.state.orderH !== null) site.state.orderH -= site.stepH;
}
