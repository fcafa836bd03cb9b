import type { Issue } from './issue.ts';
import type { Path, SiteDocument } from './site-file.ts';
import type { Site } from './site-schema.ts';
import { monthSpread } from './synthetic-weather.ts';

/** Checks across values that a schema of single values cannot make. */
export function checkSite(site: Site, document: SiteDocument): Issue[] {
  const issues: Issue[] = [];
  const refuse = (path: Path, got: string, want: string, code = 'contradiction') =>
    issues.push({ severity: 'error', code, path: path.join('.'), got, want, at: document.placeOf(path) });
  const doubt = (path: Path, got: string, want: string) =>
    issues.push({
      severity: 'doubt',
      code: 'doubt',
      path: path.join('.'),
      got,
      want,
      at: document.placeOf(path),
    });
  checkBattery(site, refuse);
  checkControl(site, refuse, doubt);
  checkCabinet(site, refuse);
  checkGenerator(site, refuse, doubt);
  checkArrays(site, refuse);
  checkLoads(site, refuse);
  checkMonthlyWeather(site, refuse);
  const { inverter } = site;
  if (inverter.derateC <= inverter.derateKneeC)
    refuse(
      ['inverter', 'derateC'],
      `${inverter.derateC} °C`,
      `above derateKneeC, ${inverter.derateKneeC} °C`,
    );
  return issues;
}

type Refuse = (path: Path, got: string, want: string, code?: string) => void;

function checkBattery({ battery }: Site, refuse: Refuse): void {
  if (!battery) return;
  if (battery.deadSoc >= battery.cutoffSoc)
    refuse(['battery', 'deadSoc'], `${battery.deadSoc}`, `below cutoffSoc, ${battery.cutoffSoc}`);
  if (battery.cutoffSoc + battery.reconnectSoc > 1)
    refuse(
      ['battery', 'reconnectSoc'],
      `${battery.reconnectSoc}`,
      'cut-off and reconnection of at most 1 together',
    );
  const rising = [battery.noChargeC, battery.fullChargeC, battery.hotFullC, battery.hotNoneC];
  if (rising.some((value, i) => i > 0 && value <= rising[i - 1]))
    refuse(
      ['battery', 'fullChargeC'],
      rising.join(', '),
      'rising: noChargeC, fullChargeC, hotFullC, hotNoneC',
    );
}

function checkControl(site: Site, refuse: Refuse, doubt: Refuse): void {
  const { control, battery, generator } = site;
  const { charge, peak } = control;
  if (!generator && (charge || peak || control.continuous))
    refuse(['control'], 'rules for a generator', 'a generator, or no rules for one');
  if (generator && !charge && !peak && !control.continuous)
    doubt(['control'], 'a generator that nothing starts', 'charge, peak or continuous');
  if (charge) {
    if (charge.stopSoc <= charge.startSoc)
      refuse(['control', 'charge', 'stopSoc'], `${charge.stopSoc}`, `above startSoc, ${charge.startSoc}`);
    if (!battery) refuse(['control', 'charge'], 'a charge rule', 'a battery');
    else if (charge.startSoc <= battery.cutoffSoc)
      doubt(
        ['control', 'charge', 'startSoc'],
        `${charge.startSoc}`,
        `above the cut-off, ${battery.cutoffSoc}`,
      );
  }
  if (peak && peak.startKw !== null && peak.stopKw > peak.startKw)
    refuse(['control', 'peak', 'stopKw'], `${peak.stopKw} kW`, `at most startKw, ${peak.startKw} kW`);
  if (control.minRunMin > control.maxRunH * 60)
    refuse(
      ['control', 'minRunMin'],
      `${control.minRunMin} min`,
      `at most maxRunH, ${control.maxRunH * 60} min`,
    );
}

function checkCabinet({ cabinet, weather }: Site, refuse: Refuse): void {
  if (!cabinet) return;
  if (!weather) refuse(['cabinet'], 'a cabinet', 'a weather file with the air temperature');
  const { heater, cooler } = cabinet;
  if (heater && heater.onC >= heater.offC)
    refuse(['cabinet', 'heater', 'onC'], `${heater.onC} °C`, `below offC, ${heater.offC} °C`);
  if (cooler && cooler.onC <= cooler.offC)
    refuse(['cabinet', 'cooler', 'onC'], `${cooler.onC} °C`, `above offC, ${cooler.offC} °C`);
  if (heater && cooler && heater.offC >= cooler.offC)
    refuse(['cabinet', 'heater', 'offC'], `${heater.offC} °C`, `below the cooler's offC, ${cooler.offC} °C`);
}

function checkGenerator({ generator, tank }: Site, refuse: Refuse, doubt: Refuse): void {
  if (generator) {
    const { fuel } = generator;
    for (let i = 1; i < fuel.length; i++) {
      if (fuel[i].kW <= fuel[i - 1].kW)
        refuse(
          ['generator', 'fuel', i, 'kW'],
          `${fuel[i].kW} kW`,
          `more than the point before, ${fuel[i - 1].kW} kW`,
        );
      if (fuel[i].lPerH <= fuel[i - 1].lPerH)
        refuse(
          ['generator', 'fuel', i, 'lPerH'],
          `${fuel[i].lPerH} L/h`,
          `more than the point before, ${fuel[i - 1].lPerH} L/h`,
        );
    }
    const full = fuel[fuel.length - 1];
    const perKwh = full.lPerH / full.kW;
    if (perKwh < 0.2 || perKwh > 0.6)
      doubt(
        ['generator', 'fuel'],
        `${perKwh.toFixed(2)} L/kWh at the highest point`,
        '0.25 to 0.45, common practice',
      );
  }
  if (tank && !generator) refuse(['tank'], 'a tank', 'a generator');
  if (!tank) return;
  if (tank.initialL > tank.capacityL)
    refuse(['tank', 'initialL'], `${tank.initialL} L`, `at most ${tank.capacityL} L`);
  if (tank.reserveL >= tank.capacityL)
    refuse(['tank', 'reserveL'], `${tank.reserveL} L`, `less than ${tank.capacityL} L`);
  if (tank.orderAtL !== null && tank.orderAtL >= tank.capacityL)
    refuse(['tank', 'orderAtL'], `${tank.orderAtL} L`, `less than ${tank.capacityL} L`);
}

/** Monthly means must be possible under the sky of the site, and lows below highs. */
function checkMonthlyWeather({ weather, site }: Site, refuse: Refuse): void {
  if (weather?.format !== 'monthly') return;
  for (let month = 0; month < 12; month++) {
    if (weather.lowC[month] >= weather.highC[month])
      refuse(
        ['weather', 'lowC', month],
        `${weather.lowC[month]} °C`,
        `below highC, ${weather.highC[month]} °C`,
      );
    const { mean, greatest } = monthSpread({ ...weather, latDeg: site.latitudeDeg }, month);
    if (!(mean > 0.08 && mean < greatest - 0.02))
      refuse(
        ['weather', 'globalKwh', month],
        `${weather.globalKwh[month]} kWh/m² a day`,
        `between ${((weather.globalKwh[month] * 0.08) / mean).toFixed(2)} and ${((weather.globalKwh[month] * (greatest - 0.02)) / mean).toFixed(2)} at this latitude`,
      );
  }
}

function checkLoads(site: Site, refuse: Refuse): void {
  const { phases } = site.inverter;
  const within = `a phase of ${phases}, or 'all'`;
  if (site.load.length + site.appliances.length === 0)
    refuse(['load'], 'no load', 'a load file, or appliances');
  for (const [i, load] of site.load.entries())
    for (const [column, phase] of Object.entries(load.columns))
      if (phase !== 'all' && phase > phases) refuse(['load', i, 'columns', column], `phase ${phase}`, within);
  for (const [i, { phase }] of site.appliances.entries())
    if (phase !== 'all' && phase > phases) refuse(['appliances', i, 'phase'], `phase ${phase}`, within);
}

function checkArrays(site: Site, refuse: Refuse): void {
  if (site.arrays.length > 0 && !site.weather) refuse(['arrays'], 'an array', 'a weather file');
  for (const [i, array] of site.arrays.entries()) {
    if (array.coupling === 'dc' && !site.battery) refuse(['arrays', i, 'coupling'], 'dc', 'a battery, or ac');
    if (array.coupling === 'dc' && array.inverterKw !== undefined)
      refuse(['arrays', i, 'inverterKw'], `${array.inverterKw} kW`, 'controllerA, for a DC-coupled array');
    if (array.coupling === 'ac' && array.controllerA !== undefined)
      refuse(['arrays', i, 'controllerA'], `${array.controllerA} A`, 'inverterKw, for an AC-coupled array');
  }
}
