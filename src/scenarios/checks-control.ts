import { longestRunH } from './controls-from-site.ts';
import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

/** What starts and stops the generator must fit together. */
export function checkControl({ control }: Pick<Site, 'control'>, tell: Tell): void {
  const { charge, peak, urgentSoc, restrictedHours } = control;
  if (charge && charge.stopSoc <= charge.startSoc)
    tell.refuse(['control', 'charge', 'stopSoc'], `${charge.stopSoc}`, `above startSoc, ${charge.startSoc}`);
  if (charge && urgentSoc !== undefined && urgentSoc >= charge.startSoc && restrictedHours.length > 0)
    tell.doubt(
      ['control', 'urgentSoc'],
      `${urgentSoc}`,
      `below startSoc, ${charge.startSoc}; else restricted hours never hold a start back`,
    );
  if (peak && peak.startKw !== null && peak.stopKw > peak.startKw)
    tell.refuse(['control', 'peak', 'stopKw'], `${peak.stopKw} kW`, `at most startKw, ${peak.startKw} kW`);
  if (control.minRunMin > longestRunH(control) * 60)
    tell.refuse(
      ['control', 'minRunMin'],
      `${control.minRunMin} min`,
      `at most maxRunH, ${longestRunH(control) * 60} min`,
    );
  checkHours(control, tell);
}

/** Rules need a generator, and a generator needs a rule. */
export function checkRules({ control, generator }: Pick<Site, 'control' | 'generator'>, tell: Tell): void {
  const { charge, peak, continuous, hand, full, exercise } = control;
  const hasRule = [charge, peak, hand, full, exercise].some((rule) => rule !== null) || continuous;
  if (control.runHours.length > 0 && !continuous)
    tell.refuse(['control', 'runHours'], 'a daily run window', 'continuous: true, which it limits');
  if (!generator && hasRule)
    tell.refuse(['control'], 'rules for a generator', 'a generator, or no rules for one');
  if (generator && !hasRule)
    tell.doubt(
      ['control'],
      'a generator that nothing starts',
      'charge, peak, hand, full, exercise or continuous',
    );
}

/** The thresholds of charging must suit the battery. */
export function checkCharge({ control, battery }: Pick<Site, 'control' | 'battery'>, tell: Tell): void {
  const { charge } = control;
  if (!charge) return;
  if (!battery) {
    tell.refuse(['control', 'charge'], 'a charge rule', 'a battery');
    return;
  }
  if (charge.startSoc <= battery.cutoffSoc)
    tell.doubt(
      ['control', 'charge', 'startSoc'],
      `${charge.startSoc}`,
      `above the cut-off, ${battery.cutoffSoc}; else the site is in the dark before the generator starts`,
    );
  const bankKw = battery.modules * battery.moduleChargeKw;
  if (charge.tailKw > 0 && charge.tailKw >= bankKw)
    tell.doubt(
      ['control', 'charge', 'tailKw'],
      `${charge.tailKw} kW`,
      `below what the battery takes, ${bankKw} kW; else the generator stops as soon as the battery limits it`,
    );
}

function checkHours({ restrictedHours, nightHours }: Site['control'], tell: Tell): void {
  const want = 'two times that differ; a span past midnight is written 21:00 to 06:00';
  for (const [i, { from, to }] of restrictedHours.entries())
    if (from === to) tell.refuse(['control', 'restrictedHours', i], `${from} to ${to}`, want);
  if (nightHours.from === nightHours.to)
    tell.refuse(['control', 'nightHours'], `${nightHours.from} to ${nightHours.to}`, want);
}
