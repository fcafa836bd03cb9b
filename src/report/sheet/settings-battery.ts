import type { Site } from '../../scenarios/site-schema.ts';
import { asEntered, digits, duration } from '../numbers.ts';
import { busAmps, chargerAmps, emptyVoltages, wholeAmpsBelow } from './conversions.ts';
import {
  amps,
  kw,
  minutes,
  percent,
  type Setting,
  type SettingGroup,
  type SheetSource,
  volts,
} from './setting.ts';

type Battery = NonNullable<Site['battery']>;

/** Charging, cut-off and shedding; none for a site without a battery. */
export function batterySettings(source: SheetSource): SettingGroup | null {
  const { battery } = source.site;
  if (battery === null) return null;
  return {
    title: 'Battery, chargers, inverters',
    note: '',
    settings: [
      ...chargers(source, battery),
      currents(source, battery),
      cutoff(source, battery),
      temperatures(source, battery),
      ...shedding(source),
      trips(source),
    ],
  };
}

/** Charging current that the generator may give [A], of a phase's charger and of all together at the battery. */
export interface ChargeLimit {
  phaseA: number;
  allA: number;
  /** what the battery takes [A] */
  batteryA: number;
  /** to be entered for each phase: whole amperes [A] */
  setA: number;
}

/** Chargers of all phases, cut to what the battery takes and to the output that charging aims at. */
export function chargeLimitOf({ site, result }: SheetSource, battery: Battery): ChargeLimit {
  const { inverter, phases } = result.plant;
  const aimKw = Math.min(
    inverter.chargerKw,
    (result.controls.chargeTargetKw ?? Number.POSITIVE_INFINITY) / phases,
  );
  const phaseA = chargerAmps(aimKw, site.inverter.chargerEfficiency, battery.busV);
  const batteryA = busAmps(battery.modules * battery.moduleChargeKw, battery.busV);
  const setA = wholeAmpsBelow(Math.min(phaseA, batteryA / phases));
  return { phaseA, allA: phaseA * phases, batteryA, setA };
}

function chargers(source: SheetSource, battery: Battery): Setting[] {
  const { site, result } = source;
  if (result.plant.inverter.chargerKw <= 0 || result.plant.generator === null) return [];
  const { phaseA, allA, batteryA, setA } = chargeLimitOf(source, battery);
  const { phases } = result.plant;
  const units = site.inverter.unitsPerPhase;
  const each = phases === 3 ? ' per phase' : '';
  const shared = units > 1 ? `, ${digits(Math.floor(setA / units))} A each of ${units} units` : '';
  const tight = allA > batteryA ? ' The battery sets the limit.' : '';
  return [
    {
      name: 'Charging current from the generator',
      value: `${amps(setA)}${each}${shared} at ${volts(battery.busV)}`,
      why: `Chargers: ${digits(phaseA, 1)} A${each}${phases === 3 ? `, ${digits(allA, 1)} A together` : ''}; the battery takes ${digits(batteryA, 1)} A.${tight}`,
      watch: 'At a higher bus voltage the same power is fewer amperes.',
    },
  ];
}

function currents({ site }: SheetSource, battery: Battery): Setting {
  const charge = battery.modules * battery.moduleChargeKw;
  const discharge = battery.modules * battery.moduleDischargeKw;
  const dc = site.arrays.filter(({ coupling }) => coupling === 'dc');
  const controllers =
    dc.length > 0
      ? ` Charge controllers: ${dc.map(({ name, controllerA }) => `${name} ${controllerA === undefined ? '–' : amps(controllerA)}`).join(', ')}.`
      : '';
  return {
    name: 'Battery current, charge; discharge',
    value: `${amps(wholeAmpsBelow(busAmps(charge, battery.busV)))}; ${amps(wholeAmpsBelow(busAmps(discharge, battery.busV)))}`,
    why: `${battery.modules} × ${kw(battery.moduleChargeKw)} and ${kw(battery.moduleDischargeKw)} at ${volts(battery.busV)}.${controllers}`,
    watch: 'Is current shared evenly by the modules?',
  };
}

function cutoff({ site }: SheetSource, battery: Battery): Setting {
  const { cells, cutoffV } = emptyVoltages(battery.busV, battery.leadAcid !== null);
  const back = Math.min(1, battery.cutoffSoc + battery.reconnectSoc);
  const without =
    site.generator === null ? 'The array must bring it back.' : 'The generator brings it back at once.';
  return {
    name: 'Low-battery cut-off; back on at',
    value: `${percent(battery.cutoffSoc)}; ${percent(back)}; fallback ${volts(cutoffV)} under load`,
    why: `Inverters stop before the battery’s own protection opens (${percent(battery.deadSoc)}), after which somebody must come. ${digits(cutoffV / cells, 2)} V a cell, common practice. ${without}`,
    watch: 'Any cut-off in the first month is a fault to be found.',
  };
}

function temperatures({ result }: SheetSource, battery: Battery): Setting {
  const { coldestCellC, hottestCellC } = result.ledger.extremes;
  return {
    name: 'No charge by cell temperature',
    value: `at ${asEntered(battery.noChargeC)} °C or below, from ${asEntered(battery.hotNoneC)} °C; full charge ${asEntered(battery.fullChargeC)} to ${asEntered(battery.hotFullC)} °C`,
    why: battery.leadAcid
      ? 'As its maker states.'
      : 'Charging frozen lithium cells damages them. The battery enforces it; the chargers must obey.',
    watch: result.plant.cabinet
      ? `Simulated cells: ${digits(coldestCellC, 0)} to ${digits(hottestCellC, 0)} °C.`
      : `Reckoned with ${asEntered(result.plant.roomC)} °C where the battery stands.`,
  };
}

function shedding({ site, result }: SheetSource): Setting[] {
  const { shed } = site.control;
  if (shed === null) return [];
  return [
    {
      name: 'Load shedding, contactor off; on',
      value: `${percent(shed.belowSoc)}; ${percent(shed.aboveSoc)}; after an overload off for ${minutes(shed.overloadMin)}`,
      why: `Keeps the rest supplied. Simulated: off for ${duration(result.ledger.totals.shedH)} in the run.`,
      watch: 'Are only the circuits meant for it on the contactor?',
    },
  ];
}

function trips({ site, result }: SheetSource): Setting {
  const { control } = site;
  const lock = control.lock
    ? `; locks out after ${control.lock.trips} trips, each within ${minutes(control.lock.withinMin)}`
    : '';
  return {
    name: 'Restart after an overload',
    value: `${minutes(control.restartMin)}${lock}${site.inverter.phases === 3 ? `; a trip takes ${control.tripAllPhases ? 'all phases' : 'its phase'}` : ''}`,
    why: control.lock ? 'A fault must not be fed for ever.' : 'The inverters try again without end.',
    watch: `Simulated trips: ${digits(result.ledger.totals.trips)}.`,
  };
}
