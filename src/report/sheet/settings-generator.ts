import { siteRating } from '../../scenarios/plant-from-site.ts';
import type { Site } from '../../scenarios/site-schema.ts';
import { asEntered, digits } from '../numbers.ts';
import { counted } from '../words.ts';
import { phaseAmps, wholeAmpsBelow } from './conversions.ts';
import {
  amps,
  kw,
  minutes,
  percent,
  type Setting,
  type SettingGroup,
  type SheetSource,
  seconds,
} from './setting.ts';

/** How the generator is loaded and looked after once it runs; none for a site without one. */
export function generatorSettings(source: SheetSource): SettingGroup | null {
  const { site } = source;
  const { generator } = site;
  if (generator === null) return null;
  return {
    title: 'Generator: load, times, care',
    note: '',
    settings: [
      inputLimit(site, generator),
      ...runTimes(source, generator),
      ...array(source),
      ...failures(generator),
      service(source),
    ],
  };
}

/** What the inverters may draw from each phase of the generator. */
export interface InputLimit {
  /** of the set on site, all its phases [kW] */
  siteKw: number;
  /** of a phase of it [kW] */
  phaseKw: number;
  /** by its rating, at power factor 1, and by the inverters' own limit [A] */
  ratingA: number;
  inverterA: number;
  /** to be entered: the lesser, whole amperes [A] */
  setA: number;
}

/**
 * The generator's rating on site as a current per phase. It is reckoned at power factor 1, as chargers draw it: at a
 * worse one the engine is loaded less.
 */
export function inputLimitOf(site: Site, generator: NonNullable<Site['generator']>): InputLimit {
  const { phaseV, acInputA, unitsPerPhase, phases } = site.inverter;
  const siteKw = generator.ratedKw * siteRating(generator.siteDerating);
  const phaseKw = siteKw / (generator.phase === null ? phases : 1);
  const ratingA = phaseAmps(phaseKw, phaseV, 1);
  const inverterA = acInputA * unitsPerPhase;
  return { siteKw, phaseKw, ratingA, inverterA, setA: wholeAmpsBelow(Math.min(ratingA, inverterA)) };
}

function inputLimit(site: Site, generator: NonNullable<Site['generator']>): Setting {
  const { siteKw, phaseKw, ratingA, inverterA, setA } = inputLimitOf(site, generator);
  const single = generator.phase !== null && site.inverter.phases === 3;
  const derated = generator.siteDerating
    ? `${kw(generator.ratedKw)} by its plate, ${kw(siteKw)} on this site (ISO 3046-1)`
    : `${kw(siteKw)} on site`;
  const lesser =
    inverterA < ratingA
      ? ` The inverters themselves take no more than ${amps(inverterA)}.`
      : ` The inverters could take ${amps(inverterA)}.`;
  const units = site.inverter.unitsPerPhase;
  const shared = units > 1 ? `, ${digits(Math.floor(setA / units))} A each of ${units} units` : '';
  const where = single
    ? ` on phase ${generator.phase}, none on the others`
    : site.inverter.phases === 3
      ? ' per phase'
      : '';
  return {
    name: 'Generator input limit',
    value: `${amps(setA)}${where}${shared}`,
    why: `${derated}${single || site.inverter.phases === 1 ? '' : `, a third on each phase: ${kw(phaseKw)}`} = ${digits(ratingA, 1)} A at ${asEntered(site.inverter.phaseV)} V and power factor 1.${lesser}`,
    watch: 'Frequency and voltage under full charging; black smoke; the set’s own current reading.',
  };
}

function runTimes({ site, result }: SheetSource, generator: NonNullable<Site['generator']>): Setting[] {
  const { control } = site;
  const maxRunH = result.controls.maxRunH;
  const { totals } = result.ledger;
  const low =
    totals.runH > 0
      ? `${digits((totals.lowLoadH / totals.runH) * 100)} % of its run hours`
      : 'none of its hours';
  return [
    {
      name: 'Minimum run; longest run',
      value: `${minutes(control.minRunMin)} on load; ${Number.isFinite(maxRunH) ? minutes(maxRunH * 60) : 'without end'}`,
      why: 'A diesel must get warm; an end for a run that does not reach its stop.',
      watch: `Below 30 % load it soots: simulated ${low}.`,
    },
    {
      name: 'Start delay; warm-up; cool-down; rest',
      value: `${seconds(generator.startDelayS)}; ${minutes(generator.warmUpMin)}; ${minutes(generator.coolDownMin)}; ${minutes(control.restMin)}`,
      why: 'From the request to running; then without load before and after; then no start at all.',
      watch: 'Is load taken only after the warm-up?',
    },
  ];
}

function array({ site, result }: SheetSource): Setting[] {
  const { control, generator } = site;
  const settings: Setting[] = [];
  const { dcPotentialKwh, acPotentialKwh } = result.ledger.totals;
  if (acPotentialKwh > 0)
    settings.push({
      name: 'AC-coupled array, generator on load',
      value:
        control.acArrayOnLoad === 'off'
          ? 'off'
          : `held back, generator at ${percent(generator?.minLoad ?? 0)} or more`,
      why: `It must not push power back into the set; waits ${minutes(control.acReconnectMin)} after a transfer.`,
      watch:
        control.acArrayOnLoad === 'off'
          ? 'The contactor opens before transfer.'
          : 'Needs the control link: pull it, the array must stop.',
    });
  if (dcPotentialKwh > 0)
    settings.push({
      name: 'DC-coupled array, generator on load',
      value: control.dcToAcOnLoad ? 'charges, and may feed the board' : 'charges, feeds nothing to the board',
      why: 'Generator charging yields to it.',
      watch: 'Charging current by the generator falls when the sun comes.',
    });
  if (site.battery)
    settings.push({
      name: 'Battery helps the generator',
      value: control.peakAssist ? 'yes' : 'no',
      why: control.peakAssist
        ? 'Load above the input limit comes from the battery.'
        : 'Load above its rating trips the board.',
      watch: 'Battery current while a large motor starts.',
    });
  return settings;
}

function failures({ startFailures, blackStart, mustBleed }: NonNullable<Site['generator']>): Setting[] {
  const settings: Setting[] = [];
  if (startFailures)
    settings.push({
      name: 'Start attempts',
      value: `${startFailures.retries + 1}, ${seconds(startFailures.pauseS)} apart`,
      why: 'Then it locks out until somebody comes.',
      watch: 'Every failed attempt: battery, fuel, glow.',
    });
  settings.push({
    name: 'Starts with the site dead',
    value: blackStart ? 'yes: own starting battery' : 'no',
    why: blackStart
      ? 'Its controller and starting battery must not hang on the inverters.'
      : 'Somebody must come after a cut-off.',
    watch: mustBleed ? 'After running dry it must be bled.' : 'Voltage of the starting battery.',
  });
  return settings;
}

function service({ site, result }: SheetSource): Setting {
  const { serviceEveryH } = site.money;
  const years = (result.ledger.count * result.ledger.stepMin) / 60 / 8760;
  const perYear = result.ledger.totals.runH / years;
  const visits = perYear / serviceEveryH;
  const often =
    perYear < 0.5
      ? 'It hardly runs: by the calendar then, once a year (common practice).'
      : visits >= 0.95
        ? `Simulated: ${digits(perYear)} h a year, ${counted(asEntered(Number(visits.toFixed(1))), 'service')} a year.`
        : `Simulated: ${digits(perYear)} h a year, a service every ${counted(asEntered(Number((1 / visits).toFixed(1))), 'year')} by hours; once a year by the calendar (common practice).`;
  return {
    name: 'Service message',
    value: `every ${asEntered(serviceEveryH)} run hours`,
    why: often,
    watch: 'Run hours after a month against the report.',
  };
}
