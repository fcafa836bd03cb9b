import { hasArray } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { longestQuiet } from '../titles.ts';
import { fuelL } from './proposed.ts';
import type { OwnerView } from './source.ts';
import { fact } from './speak.ts';

/** A set that stands for longer is to be run by hand now and then: monthly, NFPA 110 section 8.4.2 (second hand) [days]. */
const LONG_STILL_DAYS = 31;

/** What the owner must do: fuel, filters, test runs, a look now and then. Only for what the site has. */
export function dutiesPart(owner: OwnerView): Html {
  const { speaker, site, result } = owner;
  const said = [...fuel(owner), ...service(owner), ...testRuns(owner), ...byHand(owner)];
  if (hasArray(result) && site.arrays.length > 0) said.push(speaker.say('dutyPanels'));
  if (site.cabinet) said.push(speaker.say('dutyCabinet'));
  if (site.battery) {
    said.push(speaker.say('dutyBattery'));
    said.push(speaker.say(site.generator ? 'dutyLookFuel' : 'dutyLook'));
  }
  return html`<section><h2>${speaker.texts.headings.duties}</h2>
<ul>${said.map((each) => html`<li>${each}</li>`)}</ul></section>
`;
}

function fuel(owner: OwnerView): Html[] {
  const { speaker, site, result, years } = owner;
  if (site.generator === null) return [];
  const { fuelL: burnt, deliveries, deliveredL } = result.ledger.totals;
  if (burnt === 0) return [speaker.say('dutyFuelNone')];
  if (site.tank === null || deliveries === 0) return [speaker.say('dutyFuelBuy', { litres: fuelL(owner) })];
  const said = [
    speaker.say('dutyFuel', {
      deliveries: fact('deliveries', 'deliveries', deliveries / years),
      litres: fact('deliveredL', 'litres', deliveredL / years),
    }),
  ];
  const { orderAtL, leadDays } = site.tank;
  if (orderAtL !== null) {
    const order = fact('orderAtL', 'litres', orderAtL);
    said.push(
      leadDays > 0
        ? speaker.say('dutyFuelOrder', { order, days: fact('leadDays', 'days', leadDays) })
        : speaker.say('dutyFuelOrderNow', { order }),
    );
  }
  return [html`${said.map((each) => html`${each} `)}`];
}

function service({ speaker, site, result, years }: OwnerView): Html[] {
  if (site.generator === null || result.ledger.totals.runH === 0) return [];
  const everyH = site.money.serviceEveryH;
  const every = fact('serviceEveryH', 'hours', everyH);
  const perYear = result.ledger.totals.runH / years / everyH;
  if (perYear >= 1)
    return [speaker.say('dutyService', { every, services: fact('services', 'services', perYear) })];
  if (perYear < 0.05) return [];
  return [speaker.say('dutyServiceRare', { every, years: fact('yearsPerService', 'years', 1 / perYear) })];
}

function testRuns({ speaker, site, result }: OwnerView): Html[] {
  if (site.generator === null) return [];
  const { exercise } = site.control;
  if (exercise)
    return [
      speaker.say('dutyExercise', {
        days: fact('exerciseDays', 'days', exercise.everyDays),
        minutes: fact('exerciseMin', 'minutes', exercise.runMin),
      }),
    ];
  const days = longestQuiet(result).hours / 24;
  if (days <= LONG_STILL_DAYS) return [];
  return [speaker.say('dutyMonthly', { days: fact('longestRestDays', 'days', days) })];
}

function byHand({ speaker, site }: OwnerView): Html[] {
  const { hand } = site.control;
  if (site.generator === null || hand === null || site.battery === null) return [];
  return [
    speaker.say('dutyHand', {
      start: fact('handStartSoc', 'share', hand.startSoc),
      stop: fact('handStopSoc', 'share', hand.stopSoc),
    }),
  ];
}

/** What can hurt, of what the site has. */
export function carePart({ speaker, site, result }: OwnerView): Html {
  const said = [speaker.say('careIntro')];
  if (site.generator) {
    const { hand, charge, peak, continuous, full, exercise } = site.control;
    const alone = charge || peak || continuous || full || exercise;
    if (alone) said.push(speaker.say('careGenerator'));
    else if (hand) said.push(speaker.say('careGeneratorHand'));
    said.push(speaker.say('careExhaust'), speaker.say('careFeed'));
  }
  if (site.battery) said.push(speaker.say('careBattery'));
  if (hasArray(result) && site.arrays.length > 0) said.push(speaker.say('careArray'));
  said.push(speaker.say('careAid'));
  return html`<section class="care"><h2>${speaker.texts.headings.care}</h2>
<ul>${said.map((each) => html`<li>${each}</li>`)}</ul></section>
`;
}

/** The words that the report uses and does not explain on the way. */
export function wordsPart({ speaker, site }: OwnerView): Html {
  const { words, headings } = speaker.texts;
  const keys: (keyof typeof words)[] = ['kWh', 'kW'];
  if (site.arrays.length > 0) keys.push('kWp');
  if (site.battery) keys.push('kVA', 'inverter');
  if (site.inverter.phases === 3) keys.push('phases');
  if (site.battery) keys.push('charge');
  if (site.generator) keys.push('generator');
  return html`<section class="words"><h2>${headings.words}</h2>
<ul>${keys.map((key) => html`<li>${words[key]}</li>`)}</ul></section>
`;
}
