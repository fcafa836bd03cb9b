import type { Site } from '../../scenarios/site-schema.ts';
import { asEntered, digits } from '../numbers.ts';
import { capital } from '../words.ts';
import { minutes, percent, type Setting, type SettingGroup, type SheetSource } from './setting.ts';

type Climate = Pick<NonNullable<Site['cabinet']>, 'heater' | 'cooler'>;

/** Set points of heaters and coolers, of every cabinet; none where there is none. */
export function cabinetSettings({ site, result }: SheetSource): SettingGroup | null {
  const { heaterKwh, coolerKwh } = result.ledger.totals;
  const all: { name: string; climate: Climate }[] = site.batteryCabinets.map((each) => ({
    name: `${each.name}: `,
    climate: each,
  }));
  if (site.cabinet) all.unshift({ name: '', climate: site.cabinet });
  const settings = all.flatMap(({ name, climate }) => [
    ...heater(name, climate, heaterKwh),
    ...cooler(name, climate, coolerKwh),
  ]);
  return settings.length === 0 ? null : { title: 'Cabinet climate', note: '', settings };
}

function heater(name: string, { heater: set }: Climate, kwh: number): Setting[] {
  if (set === null) return [];
  return [
    {
      name: capital(`${name}heater on; off`),
      value: `${asEntered(set.onC)} °C; ${asEntered(set.offC)} °C at the cells; blocked below ${percent(set.minSoc)}`,
      why: `${asEntered(set.ratedW)} W. Keeps cells warm enough to charge; blocked so that it does not empty the battery.`,
      watch: `Simulated, all heaters: ${digits(kwh)} kWh in the run.`,
    },
  ];
}

function cooler(name: string, { cooler: set }: Climate, kwh: number): Setting[] {
  if (set === null) return [];
  return [
    {
      name: capital(`${name}cooler on; off`),
      value: `${asEntered(set.onC)} °C; ${asEntered(set.offC)} °C in the air of the cabinet`,
      why: `${asEntered(set.ratedW)} W. Hot inverters give less power, hot cells age.`,
      watch: `Simulated, all coolers: ${digits(kwh)} kWh in the run.`,
    },
  ];
}

/** Fuel and the generator's own draws; none without a tank or a draw. */
export function fuelSettings({ site, result }: SheetSource): SettingGroup | null {
  const { tank, generator } = site;
  const settings: Setting[] = [];
  if (tank && generator)
    settings.push({
      name: 'Fuel warning; order at',
      value: `${tank.orderAtL === null ? 'no order level' : `${asEntered(tank.orderAtL)} L`} of ${asEntered(tank.capacityL)} L`,
      why: `The last ${asEntered(tank.reserveL)} L cannot be used; ${tank.leadDays > 0 ? `a delivery takes ${asEntered(tank.leadDays)} days` : 'delivered at once'}.${tank.fillDates.length > 0 ? ` Fixed deliveries: ${tank.fillDates.join(', ')}.` : ''}`,
      watch: `Simulated lowest level: ${digits(result.ledger.extremes.lowestTankL ?? 0)} L.`,
    });
  if (generator?.blockHeater)
    settings.push({
      name: 'Block heater on below',
      value: `${asEntered(generator.blockHeater.belowC)} °C outside`,
      why: `${asEntered(generator.blockHeater.ratedW)} W while the engine stands.`,
      watch: 'Off while it runs.',
    });
  if (site.secondGenerator)
    settings.push({
      name: 'Second set connected after',
      value: minutes(site.secondGenerator.connectH * 60),
      why: 'When the first one could not run for so long, in attended hours.',
      watch: 'Plug, phase sequence and change-over have been tried.',
    });
  return settings.length === 0 ? null : { title: 'Fuel and helpers', note: '', settings };
}
