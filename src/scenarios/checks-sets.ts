import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

/** Entries of the calendar must change a rule that there is, and fit together. */
export function checkCalendar({ control }: Pick<Site, 'control'>, tell: Tell): void {
  const { charge, peak } = control;
  for (const [i, entry] of control.calendar.entries()) {
    const at = (key: string) => ['control', 'calendar', i, key];
    if (!charge && (entry.startSoc ?? entry.stopSoc) !== undefined)
      tell.refuse(
        at(entry.startSoc === undefined ? 'stopSoc' : 'startSoc'),
        'a charge threshold',
        'control.charge',
      );
    if (!peak && (entry.peakStartKw ?? entry.peakStopKw) !== undefined)
      tell.refuse(
        at(entry.peakStartKw === undefined ? 'peakStopKw' : 'peakStartKw'),
        'a peak threshold',
        'control.peak',
      );
    const start = entry.startSoc ?? charge?.startSoc ?? 0;
    const stop = entry.stopSoc ?? charge?.stopSoc ?? 1;
    if (charge && stop <= start)
      tell.refuse(at('stopSoc'), `${stop}`, `above where it starts then, ${start}`);
    const peakStart = entry.peakStartKw ?? peak?.startKw ?? Number.POSITIVE_INFINITY;
    const peakStop = entry.peakStopKw ?? peak?.stopKw ?? 0;
    if (peak && peakStop > peakStart)
      tell.refuse(at('peakStopKw'), `${peakStop} kW`, `at most ${peakStart} kW, where it starts then`);
    if (entry.hours && entry.hours.from === entry.hours.to)
      tell.refuse(at('hours'), `${entry.hours.from} to ${entry.hours.to}`, 'two times that differ');
  }
}

/** Sets of generators must have phases that the site has; a second one needs a first. */
export function checkSets(site: Pick<Site, 'generator' | 'secondGenerator' | 'inverter'>, tell: Tell): void {
  const { generator, secondGenerator, inverter } = site;
  if (secondGenerator && !generator)
    tell.refuse(['secondGenerator'], 'a second set', 'a first one, generator');
  for (const key of ['generator', 'secondGenerator'] as const) {
    const phase = site[key]?.phase ?? null;
    if (phase !== null && phase > inverter.phases)
      tell.refuse([key, 'phase'], `phase ${phase}`, `at most ${inverter.phases}`);
  }
}

/** Cabinets for batteries cannot hold more than there are. */
export function checkBatteryCabinets(
  { batteryCabinets, battery, weather }: Pick<Site, 'batteryCabinets' | 'battery' | 'weather'>,
  tell: Tell,
): void {
  if (batteryCabinets.length === 0) return;
  if (!weather) tell.refuse(['batteryCabinets'], 'a cabinet', 'a weather file with the air temperature');
  const modules = batteryCabinets.reduce((sum, each) => sum + each.modules, 0);
  if (!battery) tell.refuse(['batteryCabinets'], `${modules} modules`, 'a battery');
  else if (modules > battery.modules)
    tell.refuse(
      ['batteryCabinets'],
      `${modules} modules in them`,
      `at most battery.modules, ${battery.modules}`,
    );
}
