import type { StartCause } from '../../sim/causes.ts';
import { asEntered, digits, duration } from '../numbers.ts';
import { MONTH_NAMES, makeView } from '../view.ts';
import { capital, counted, listed } from '../words.ts';
import { emptyVoltages, phaseAmps } from './conversions.ts';
import {
  amps,
  kw,
  minutes,
  percent,
  type Setting,
  type SettingGroup,
  type SheetSource,
  seconds,
  volts,
} from './setting.ts';

/** When the generator starts and stops; none for a site without one. */
export function startSettings(source: SheetSource): SettingGroup | null {
  if (source.site.generator === null) return null;
  const settings = [
    ...chargeSettings(source),
    ...calendarSettings(source),
    ...peakSettings(source),
    ...otherCauses(source),
    ...hoursSettings(source),
  ];
  const flat =
    source.site.battery && !source.site.battery.leadAcid
      ? 'Thresholds go by the state of charge that the battery reports. Lithium iron phosphate is nearly flat between 30 and 80 %: no voltage stands for 50 %.'
      : '';
  return settings.length === 0 ? null : { title: 'Generator: start and stop', note: flat, settings };
}

function chargeSettings(source: SheetSource): Setting[] {
  const { site, result } = source;
  const { charge } = site.control;
  const { battery } = site;
  if (charge === null || battery === null) return [];
  const capacity = battery.modules * battery.moduleKwh;
  const leftKwh = Math.max(0, charge.startSoc - battery.cutoffSoc) * capacity * battery.dischargeEfficiency;
  const hours = leftKwh / meanLoadKw(source);
  const settings: Setting[] = [
    {
      name: 'Start at state of charge',
      value: `${percent(charge.startSoc)}, for ${minutes(charge.delayMin)}`,
      why: `${digits(leftKwh, 1)} kWh are left above the cut-off: ${duration(hours)} of mean load if the engine does not start.`,
      watch: startsWatch(source, 'charge'),
    },
    {
      ...fallbackSetting(battery.busV, battery.leadAcid !== null),
      watch: 'Must never act while the battery reports its charge.',
    },
    {
      name: 'Stop at state of charge',
      value: stopValue(charge),
      why: stopWhy(charge.stopSoc, battery.taperStartSoc),
      watch: runLength(result, 'charge'),
    },
  ];
  return settings;
}

function stopValue(charge: NonNullable<SheetSource['site']['control']['charge']>): string {
  const tail =
    charge.tailKw > 0 ? `, or charging below ${kw(charge.tailKw)} for ${minutes(charge.tailMin)}` : '';
  return `${percent(charge.stopSoc)}${tail}, or ${minutes(charge.absorptionMaxMin)} after charging begins to taper`;
}

function stopWhy(stopSoc: number, taperStart: number): string {
  return stopSoc <= taperStart
    ? 'Room is left for the sun, and the engine stops before charging tapers and it runs at low load.'
    : `Above ${percent(taperStart)} charging tapers, and the engine runs at low load.`;
}

/** Near empty and under load a voltage says something; nowhere else. */
function fallbackSetting(busV: number, isLead: boolean): Omit<Setting, 'watch'> {
  const { cells, startV } = emptyVoltages(busV, isLead);
  return {
    name: 'Fallback start by voltage',
    value: `${volts(startV)} at the battery, under load, for 60 s`,
    why: `Only for when the state of charge is not reported. ${cells} cells in series at ${digits(startV / cells, 2)} V under load are nearly empty (common practice; the battery maker’s figure goes before).`,
  };
}

function calendarSettings({ site }: SheetSource): Setting[] {
  return site.control.calendar.map((entry) => {
    const parts = [
      entry.startSoc === undefined ? '' : `start ${percent(entry.startSoc)}`,
      entry.stopSoc === undefined ? '' : `stop ${percent(entry.stopSoc)}`,
      entry.urgentSoc === undefined ? '' : `urgent ${percent(entry.urgentSoc)}`,
      entry.peakStartKw === undefined ? '' : `peak ${kw(entry.peakStartKw)} per phase`,
      entry.peakStopKw === undefined ? '' : `peak over ${kw(entry.peakStopKw)} per phase`,
    ].filter((part) => part !== '');
    return {
      name: `${capital(entry.name)}: ${calendarWhen(entry)}`,
      value: parts.join(', '),
      why: 'The site file has other thresholds for these times.',
      watch: 'If the controller has no calendar: a date for someone to change them by hand.',
    };
  });
}

function calendarWhen(entry: SheetSource['site']['control']['calendar'][number]): string {
  const months =
    entry.months.length < 12 ? listed(entry.months.map((month) => MONTH_NAMES[month - 1].slice(0, 3))) : '';
  const days = entry.weekdays.length < 7 ? entry.weekdays.join(', ') : '';
  const hours = entry.hours ? `${entry.hours.from} to ${entry.hours.to}` : '';
  return [months, days, hours].filter((part) => part !== '').join(', ') || 'all year';
}

function peakSettings(source: SheetSource): Setting[] {
  const { peak } = source.site.control;
  if (peak === null) return [];
  const { phaseV, powerFactor, phases } = source.site.inverter;
  const each = phases === 3 ? ' per phase' : '';
  const both = (value: number) => `${kw(value)} = ${amps(phaseAmps(value, phaseV, powerFactor))}${each}`;
  const carry = kw(source.result.plant.inverter.ratedKw);
  return [
    {
      name: 'Start by load',
      value: `${peak.startKw === null ? 'when the inverters cannot carry it' : both(peak.startKw)}, for ${seconds(peak.delayS)}`,
      why: `The inverters carry ${carry}${each} when cool. Amperes at ${asEntered(phaseV)} V and power factor ${asEntered(powerFactor)}.`,
      watch: startsWatch(source, 'peak'),
    },
    {
      name: 'Load is over',
      value: `below ${both(peak.stopKw)}, for ${minutes(peak.holdMin)}`,
      why: `Load without charging. ${peak.charges ? 'Such a run charges too.' : 'Such a run does not charge.'}`,
      watch: 'A set that stops and starts again within minutes: lengthen the hold.',
    },
  ];
}

function otherCauses({ site, result }: SheetSource): Setting[] {
  const { hand, full, exercise, continuous, runHours } = site.control;
  const settings: Setting[] = [];
  if (hand)
    settings.push({
      name: 'Started by a person',
      value: `at ${percent(hand.startSoc)}, to ${percent(hand.stopSoc)}`,
      why: `Reckoned with ${minutes(hand.responseMin)} from the signal to the start, in attended hours.`,
      watch: `${counted(digits(result.ledger.totals.startsByCause.hand), 'start')} by hand were simulated in the run.`,
    });
  if (full)
    settings.push({
      name: 'Periodic full charge',
      value: `every ${counted(asEntered(full.everyDays), 'day')}, to ${percent(full.stopSoc)}, at most ${minutes(full.absorptionMaxMin)} in the taper`,
      why: 'Balances the cells and sets the meter of charge right.',
      watch: 'The state of charge shown must jump little when the battery is full.',
    });
  if (exercise)
    settings.push({
      name: 'Exercise run',
      value: `every ${counted(asEntered(exercise.everyDays), 'day')} at ${exercise.at}, ${minutes(exercise.runMin)} on load${exercise.unlessWithinDays > 0 ? `, not if it ran within ${counted(asEntered(exercise.unlessWithinDays), 'day')}` : ''}`,
      why: 'An engine that stands must be run, and on load (30 % or more, common practice).',
      watch: 'Does it take load, or only idle?',
    });
  if (continuous)
    settings.push({
      name: 'Runs',
      value: runHours.length === 0 ? 'always' : runHours.map(({ from, to }) => `${from} to ${to}`).join(', '),
      why: 'The design has it run by the clock, not by charge.',
      watch: 'Hours at low load.',
    });
  return settings;
}

function hoursSettings({ site, result }: SheetSource): Setting[] {
  const { restrictedHours, restrictedEndsRun } = site.control;
  if (restrictedHours.length === 0) return [];
  const hours = restrictedHours.map(({ from, to, weekdays }) =>
    weekdays.length < 7 ? `${from} to ${to} (${weekdays.join(', ')})` : `${from} to ${to}`,
  );
  return [
    {
      name: 'Restricted hours',
      value: `${listed(hours)}; a run that meets them ${restrictedEndsRun ? 'ends' : 'goes on'}`,
      why: `Quiet, but for load that must be carried, and below ${percent(result.controls.urgentSoc)}, where it starts at any hour.`,
      watch:
        'Is the controller’s clock on the site’s time, with or without summer time as the site file has it?',
    },
  ];
}

/** "Simulated starts a month: 4 (June) to 31 (December)": what a first month is held against. */
function startsWatch(source: SheetSource, cause: StartCause): string {
  const { result } = source;
  const { months } = makeView(source.study);
  const { periods, totals } = result.ledger;
  if (periods.length !== months.length || periods.length < 2)
    return `Simulated: ${counted(digits(totals.startsByCause[cause]), 'start')} in the whole run.`;
  const rows = periods.map((period, i) => ({ name: months[i].name, starts: period.startsByCause[cause] }));
  const sorted = [...rows].sort((a, b) => a.starts - b.starts);
  const [least, most] = [sorted[0], sorted[sorted.length - 1]];
  if (most.starts === 0) return 'Simulated: it never starts so. If it does, look why.';
  return `Simulated starts a month: ${digits(least.starts)} (${least.name}) to ${digits(most.starts)} (${most.name}).`;
}

/** Middle of the lengths of the runs of a cause. */
function runLength({ ledger }: SheetSource['result'], cause: StartCause): string {
  const own = ledger.runs.filter((run) => run.cause === cause);
  if (own.length === 0) return 'Simulated: no such run.';
  const lengths = own.map(({ startH, endH }) => endH - startH).sort((a, b) => a - b);
  return `Simulated: half of these runs last up to ${duration(lengths[Math.floor((lengths.length - 1) / 2)])}.`;
}

function meanLoadKw({ result }: SheetSource): number {
  const { ledger } = result;
  return Math.max(1e-6, ledger.totals.loadKwh / ((ledger.count * ledger.stepMin) / 60));
}
