import { charge, type Flow, forcedKw, noFlow } from './flow.ts';
import type { Now } from './now.ts';
import type { Site } from './site.ts';

/** Section 5, mode off: no AC; the DC-coupled array charges, the battery's own draw goes on. */
export function flowOff(site: Site, now: Now, hours: number): Flow {
  const flow = noFlow(site, 'off', hours);
  const { battery } = site.plant;
  if (!battery) return flow;
  if (now.dcArrayKw >= now.standbyKw) {
    flow.standbyKw = now.standbyKw;
    flow.frostKw = charge(site, now, flow, now.dcArrayKw - now.standbyKw);
    flow.dcUsedKw = now.standbyKw + flow.chargeKw;
    return flow;
  }
  flow.dcUsedKw = now.dcArrayKw;
  flow.dischargeKw = forcedKw(site, now.standbyKw - now.dcArrayKw, flow);
  flow.standbyKw = now.dcArrayKw + flow.dischargeKw;
  flow.energyKwh = site.state.energyKwh - (flow.dischargeKw * hours) / battery.dischargeEff;
  return flow;
}
