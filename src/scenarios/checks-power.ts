import { efficiencyFit, LOSS_DEFAULTS } from './inverter-losses.ts';
import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

export function checkBattery({ battery }: Pick<Site, 'battery'>, tell: Tell): void {
  if (!battery) return;
  const life = battery.wear?.cycleLife ?? [];
  for (let i = 1; i < life.length; i++)
    if (life[i].depth <= life[i - 1].depth)
      tell.refuse(
        ['battery', 'wear', 'cycleLife', i, 'depth'],
        `${life[i].depth}`,
        `more than the point before, ${life[i - 1].depth}`,
      );
  if (battery.deadSoc >= battery.cutoffSoc)
    tell.refuse(['battery', 'deadSoc'], `${battery.deadSoc}`, `below cutoffSoc, ${battery.cutoffSoc}`);
  if (battery.cutoffSoc + battery.reconnectSoc > 1)
    tell.refuse(
      ['battery', 'reconnectSoc'],
      `${battery.reconnectSoc}`,
      'cut-off and reconnection of at most 1 together',
    );
  if (battery.initialSoc <= battery.cutoffSoc)
    tell.doubt(
      ['battery', 'initialSoc'],
      `${battery.initialSoc}`,
      `above cutoffSoc, ${battery.cutoffSoc}; else the site begins in the dark`,
    );
  const rising = [battery.noChargeC, battery.fullChargeC, battery.hotFullC, battery.hotNoneC];
  if (rising.some((value, i) => i > 0 && value <= rising[i - 1]))
    tell.refuse(
      ['battery', 'fullChargeC'],
      rising.join(', '),
      'rising: noChargeC, fullChargeC, hotFullC, hotNoneC',
    );
}

export function checkInverter({ inverter, battery }: Pick<Site, 'inverter' | 'battery'>, tell: Tell): void {
  if (inverter.derateC <= inverter.derateKneeC)
    tell.refuse(
      ['inverter', 'derateC'],
      `${inverter.derateC} °C`,
      `above derateKneeC, ${inverter.derateKneeC} °C`,
    );
  const { chargerKw, chargerA } = inverter;
  if (chargerKw === undefined && chargerA === undefined)
    tell.refuse(['inverter', 'chargerKw'], 'no charger', 'chargerKw or chargerA; 0 for none');
  if (chargerKw !== undefined && chargerA !== undefined)
    tell.refuse(['inverter', 'chargerA'], `${chargerA} A beside chargerKw`, 'one of them');
  if (chargerA !== undefined && !battery)
    tell.refuse(['inverter', 'chargerA'], `${chargerA} A`, 'a battery, whose voltage makes it a power');
}

/** Points that the curve misses by more than this are worth a look. */
const WORTH_A_LOOK = 0.005;

/** Points of efficiency must rise, settle a curve, and stand alone; how far the curve is from them is told. */
export function checkEfficiency({ inverter }: Pick<Site, 'inverter'>, tell: Tell): void {
  const { efficiency } = inverter;
  if (efficiency.length === 0) return;
  const path = ['inverter', 'efficiency'];
  if (efficiency.length < 3) {
    tell.refuse(path, `${efficiency.length} of them`, 'three points or more, which settle the three losses');
    return;
  }
  for (const [i, { share }] of efficiency.entries())
    if (i > 0 && share <= efficiency[i - 1].share)
      tell.refuse(
        [...path, i, 'share'],
        `${share}`,
        `more than the point before, ${efficiency[i - 1].share}`,
      );
  for (const [key, usual] of Object.entries(LOSS_DEFAULTS)) {
    const stated = inverter[key as keyof typeof LOSS_DEFAULTS];
    if (stated !== usual)
      tell.refuse(
        ['inverter', key],
        `${stated} beside efficiency`,
        'one of them: the points give the losses',
      );
  }
  const fit = efficiencyFit(inverter);
  if (fit && fit.worst > WORTH_A_LOOK)
    tell.doubt(
      path,
      `${(fit.worst * 100).toFixed(1)} points between the fitted curve and the point at ${fit.worstShare}`,
      'points of one inverter at one voltage, which idle, linear and square losses meet',
    );
}

type Roof = Pick<Site, 'arrays' | 'battery' | 'inverter' | 'weather'>;

export function checkArrays({ arrays, battery, inverter, weather }: Roof, tell: Tell): void {
  if (arrays.length > 0 && !weather) tell.refuse(['arrays'], 'an array', 'a weather file');
  const names = new Set<string>();
  for (const [i, array] of arrays.entries()) {
    if (names.has(array.name))
      tell.refuse(['arrays', i, 'name'], `a second '${array.name}'`, 'names of their own');
    names.add(array.name);
    if (array.coupling === 'dc' && !battery) tell.refuse(['arrays', i, 'coupling'], 'dc', 'a battery, or ac');
    if (array.coupling === 'dc' && array.inverterKw !== undefined)
      tell.refuse(
        ['arrays', i, 'inverterKw'],
        `${array.inverterKw} kW`,
        'controllerA, for a DC-coupled array',
      );
    if (array.coupling === 'ac' && array.controllerA !== undefined)
      tell.refuse(
        ['arrays', i, 'controllerA'],
        `${array.controllerA} A`,
        'inverterKw, for an AC-coupled array',
      );
    const { phase, coupling } = array;
    if (phase !== 'all' && (coupling === 'dc' || phase > inverter.phases))
      tell.refuse(
        ['arrays', i, 'phase'],
        `phase ${phase}`,
        coupling === 'dc' ? "'all', for a DC-coupled array" : `a phase of ${inverter.phases}, or 'all'`,
      );
  }
  const fed = arrays.filter(({ coupling }) => coupling === 'ac').map(({ phase }) => phase);
  if (new Set(fed).size > 1)
    tell.doubt(
      ['arrays'],
      'AC-coupled arrays on different phases',
      'the same phase for all; each phase gets its share of the energy of the whole period, at every hour',
    );
}
