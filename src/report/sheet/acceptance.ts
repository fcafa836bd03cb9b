import { asEntered, digits } from '../numbers.ts';
import { listed } from '../words.ts';
import { busAmps, chargerAmps, phaseAmps } from './conversions.ts';
import { amps, kw, minutes, percent, type SheetSource, seconds, volts } from './setting.ts';
import { chargeLimitOf } from './settings-battery.ts';
import { inputLimitOf } from './settings-generator.ts';

/** One step of the acceptance test. */
export interface TestStep {
  name: string;
  doThis: string;
  expect: string;
}

/** What is tried on site, with the readings to expect; only of what the site has. */
export function acceptanceTest(source: SheetSource): TestStep[] {
  return [
    ...phaseBalance(source),
    ...startByCharge(source),
    ...startByPeak(source),
    ...transfer(source),
    ...chargeCurrent(source),
    ...stopping(source),
    ...restricted(source),
    ...restartAfterCutoff(source),
    ...climate(source),
  ];
}

function startByCharge({ site }: SheetSource): TestStep[] {
  const { charge } = site.control;
  const { generator } = site;
  if (charge === null || generator === null || site.battery === null) return [];
  const untilRunningS = charge.delayMin * 60 + generator.startDelayS;
  return [
    {
      name: 'Start by charge',
      doThis:
        'Outside restricted hours set the start threshold 1 % above the charge shown. Afterwards put it back.',
      expect: `Engine runs after ${seconds(untilRunningS)} (delay ${minutes(charge.delayMin)}, start ${seconds(generator.startDelayS)}), takes load after ${minutes(generator.warmUpMin)} more. Threshold back at ${percent(charge.startSoc)}.`,
    },
  ];
}

function startByPeak({ site }: SheetSource): TestStep[] {
  const { peak } = site.control;
  if (peak === null || peak.startKw === null || site.generator === null) return [];
  const { phaseV, powerFactor } = site.inverter;
  const up = phaseAmps(peak.startKw, phaseV, powerFactor);
  const down = phaseAmps(peak.stopKw, phaseV, powerFactor);
  return [
    {
      name: 'Start by load',
      doThis: `Bring one phase above ${amps(up)} (${kw(peak.startKw)}) and hold it; then below ${amps(down)}.`,
      expect: `Engine runs after ${seconds(peak.delayS + site.generator.startDelayS)}. A shorter load starts nothing. Stops ${minutes(peak.holdMin)} after the load is gone, not before ${minutes(site.control.minRunMin)} on load.`,
    },
  ];
}

function transfer({ site, result }: SheetSource): TestStep[] {
  const { generator } = site;
  if (generator === null) return [];
  const { phaseV, phases } = site.inverter;
  const rotation = phases === 3 && generator.phase === null ? ' Phase sequence as at the inverters.' : '';
  const array =
    result.ledger.totals.acPotentialKwh > 0
      ? ` AC-coupled array is back after ${minutes(site.control.acReconnectMin)}.`
      : '';
  return [
    {
      name: 'Transfer',
      doThis: 'Let it go on load and off again with lights and a computer on.',
      expect: `${asEntered(phaseV)} V a phase, ± 10 %, before load is taken (common practice); nothing drops out.${rotation}${array}`,
    },
  ];
}

/** Charging with no load on the board: chargers, input limit and battery together. */
export function expectedChargeA(source: SheetSource): { acKw: number; batteryA: number } | null {
  const { site, result } = source;
  const { battery, generator } = site;
  if (battery === null || generator === null || result.plant.inverter.chargerKw <= 0) return null;
  const { setA } = inputLimitOf(site, generator);
  const { phaseV, phases, chargerEfficiency } = site.inverter;
  const carrying = generator.phase === null ? phases : 1;
  const inputKw = (setA * phaseV) / 1000;
  const chargeKw = (chargeLimitOf(source, battery).setA * battery.busV) / 1000 / chargerEfficiency;
  const acKw = Math.min(inputKw, chargeKw) * carrying;
  const limitA = busAmps(battery.modules * battery.moduleChargeKw, battery.busV);
  return { acKw, batteryA: Math.min(limitA, chargerAmps(acKw, chargerEfficiency, battery.busV)) };
}

function chargeCurrent(source: SheetSource): TestStep[] {
  const expected = expectedChargeA(source);
  const { battery } = source.site;
  if (expected === null || battery === null) return [];
  return [
    {
      name: 'Charging current',
      doThis: `Generator on load, board empty, sun covered or array off, charge below ${percent(battery.taperStartSoc)}, cells ${asEntered(battery.fullChargeC)} °C or warmer.`,
      expect: `${amps(expected.batteryA)} into the battery at ${volts(battery.busV)} (at most; fewer at a higher voltage), ${kw(expected.acKw)} from the generator. With load on, charging yields by as much.`,
    },
  ];
}

function stopping({ site }: SheetSource): TestStep[] {
  const { generator, control } = site;
  if (generator === null) return [];
  return [
    {
      name: 'Stop',
      doThis: 'End the request; ask again at once.',
      expect: `Goes off load, cools down for ${minutes(generator.coolDownMin)}, stands. A request in the cool-down takes it back on load; after it, no start for ${minutes(control.restMin)}.`,
    },
  ];
}

function restricted({ site, result }: SheetSource): TestStep[] {
  const { charge, restrictedHours } = site.control;
  if (restrictedHours.length === 0 || charge === null || site.generator === null) return [];
  return [
    {
      name: 'Restricted hours',
      doThis: `Set the controller’s clock to ${restrictedHours[0].from}, a threshold above the charge shown. Put both back.`,
      expect: `No start above ${percent(result.controls.urgentSoc)}; the load threshold still starts it where there is one.`,
    },
  ];
}

function restartAfterCutoff({ site }: SheetSource): TestStep[] {
  const { battery, generator } = site;
  if (battery === null) return [];
  const back = percent(Math.min(1, battery.cutoffSoc + battery.reconnectSoc));
  const how =
    generator === null
      ? `Comes back by itself at ${back}, charged by the array`
      : generator.blackStart
        ? 'The generator starts with the site dead, and the board is live again when it is on load'
        : 'The generator does not start by itself with the site dead: start it by hand';
  return [
    {
      name: 'Restart after cut-off',
      doThis: 'With nobody depending on supply, set the cut-off above the charge shown, wait, put it back.',
      expect: `Inverters stop, the board is dead. ${how}. Cut-off back at ${percent(battery.cutoffSoc)}, reconnection at ${back}.`,
    },
  ];
}

function phaseBalance({ site, result }: SheetSource): TestStep[] {
  if (site.inverter.phases !== 3) return [];
  const sums = result.inputs.loadKw.map((phase) => phase.reduce((sum, value) => sum + value, 0));
  const whole = sums.reduce((sum, value) => sum + value, 0);
  if (whole <= 0) return [];
  const shares = sums.map((sum, i) => `phase ${i + 1} ${digits((sum / whole) * 100)} %`);
  const highest = result.inputs.loadKw.map((phase) =>
    phase.reduce((most, value) => Math.max(most, value), 0),
  );
  const { phaseV, powerFactor } = site.inverter;
  const peaks = highest.map((value) => amps(phaseAmps(value, phaseV, powerFactor)));
  return [
    {
      name: 'Phase balance',
      doThis: 'Read kWh a phase after a normal day, and the highest current.',
      expect: `Designed: ${listed(shares)} of the energy; highest step mean ${listed(peaks)}.`,
    },
  ];
}

function climate({ site }: SheetSource): TestStep[] {
  const { heater, cooler } = site.cabinet ?? { heater: null, cooler: null };
  const parts = [
    heater ? `heater ${asEntered(heater.ratedW)} W` : '',
    cooler ? `cooler ${asEntered(cooler.ratedW)} W` : '',
  ].filter((part) => part !== '');
  if (parts.length === 0) return [];
  return [
    {
      name: 'Cabinet climate',
      doThis: 'Move each set point past the temperature shown, one after the other. Put them back.',
      expect: `Draws ${listed(parts)}; never both at once.`,
    },
  ];
}
