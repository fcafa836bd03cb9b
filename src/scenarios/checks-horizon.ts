import { leastCapacityFrac } from './horizon-battery.ts';
import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

/** A list of weather years needs weather of which they are years. */
export function checkHorizon({ horizon, weather }: Pick<Site, 'horizon' | 'weather'>, tell: Tell): void {
  if (horizon.weatherYears !== 'repeat' && !weather)
    tell.refuse(
      ['horizon', 'weatherYears'],
      `${horizon.weatherYears.length} years of weather`,
      "'repeat', or a weather of which these are years",
    );
}

/** The losses of a battery at the end of its life must leave something. */
export function checkResistance({ battery, money }: Pick<Site, 'battery' | 'money'>, tell: Tell): void {
  if (!battery?.wear) return;
  const { resistancePerAgeFade, resistancePerCycleFade } = battery.wear;
  const lost = 1 - leastCapacityFrac(battery.wear, money.batteryYears);
  const growth = 1 + lost * Math.max(resistancePerAgeFade, resistancePerCycleFade);
  const efficiency = 1 - (1 - Math.min(battery.chargeEfficiency, battery.dischargeEfficiency)) * growth;
  if (efficiency < 0.5)
    tell.refuse(
      ['battery', 'wear', 'resistancePerAgeFade'],
      `${resistancePerAgeFade} and ${resistancePerCycleFade}, which bring a one-way efficiency down to ${efficiency.toFixed(2)}`,
      'a growth that leaves at least 0.5 at the end of life',
    );
}
