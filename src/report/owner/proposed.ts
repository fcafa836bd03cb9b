import { hasArray } from '../facts.ts';
import { type Html, html } from '../html.ts';
import type { SentenceKey } from '../texts/text.ts';
import { interruptionsOf, type OwnerView } from './source.ts';
import { type Fact, fact } from './speak.ts';

/** What was asked, and what is proposed, part by part: only what the site has. */
export function proposedPart(owner: OwnerView): Html {
  const { speaker, study } = owner;
  const { headings } = speaker.texts;
  const parts = [
    ...inverters(owner),
    ...battery(owner),
    ...arrays(owner),
    ...generator(owner),
    ...helpers(owner),
  ];
  return html`<section><h2>${headings.asked}</h2>
<p class="asked">${study.site.note || speaker.say('askedNothing')}</p></section>
<section><h2>${headings.proposed}</h2>
<ul>${parts.map((part) => html`<li>${part}</li>`)}</ul></section>
`;
}

/** Without a battery they carry nothing. */
function inverters({ speaker, site }: OwnerView): Html[] {
  if (site.battery === null) return [];
  const { phases, ratedKva, unitsPerPhase } = site.inverter;
  const kva = fact('inverterKva', 'kva', ratedKva * unitsPerPhase);
  return [speaker.say(phases === 3 ? 'invertersThree' : 'invertersOne', { kva })];
}

function battery({ speaker, site, result, years }: OwnerView): Html[] {
  const { battery: bank } = site;
  if (bank === null) return [];
  const kwh = bank.modules * bank.moduleKwh;
  const usable = kwh * (1 - bank.cutoffSoc);
  const meanKw = result.ledger.totals.loadKwh / (years * 8760);
  const values = {
    kwh: fact('batteryKwh', 'kwh', kwh),
    modules: fact('modules', 'modules', bank.modules),
    usable: fact('usableKwh', 'kwh', usable),
  };
  if (meanKw < 1e-3) return [speaker.say('batteryNoLoad', values)];
  const hours = fact('standAloneH', 'length', (usable * bank.dischargeEfficiency) / meanKw);
  return [speaker.say('battery', { ...values, hours })];
}

function arrays({ speaker, site }: OwnerView): Html[] {
  const said: Html[] = [];
  const all = site.arrays.map(({ name, kWp }, i) => ({ name, kwp: fact(`array.${i}.kwp`, 'kwp', kWp) }));
  if (all.length === 1) said.push(speaker.say('arrayOne', all[0]));
  if (all.length > 1) {
    const list = speaker.list(all.map((each) => speaker.say('arrayItem', each)));
    const total = site.arrays.reduce((sum, { kWp }) => sum + kWp, 0);
    said.push(speaker.say('arrays', { list, kwp: fact('arraysKwp', 'kwp', total) }));
  }
  for (const { name } of site.sources) said.push(speaker.say('otherSource', { name }));
  return said;
}

function generator({ speaker, site, result }: OwnerView): Html[] {
  if (site.generator === null) return [];
  const { charge, peak, hand, continuous, restrictedHours } = site.control;
  const kw = fact('generatorKw', 'kw', result.plant.generator?.ratedKw ?? site.generator.ratedKw);
  const sentences = [
    charge && site.battery
      ? speaker.say('generatorCharge', {
          kw,
          start: fact('startSoc', 'share', charge.startSoc),
          stop: fact('stopSoc', 'share', charge.stopSoc),
        })
      : speaker.say('generatorOther', { kw }),
  ];
  if (peak) sentences.push(speaker.say('generatorPeak'));
  if (hand && site.battery)
    sentences.push(
      speaker.say('generatorHand', {
        start: fact('handStartSoc', 'share', hand.startSoc),
        stop: fact('handStopSoc', 'share', hand.stopSoc),
      }),
    );
  if (continuous) sentences.push(speaker.say('generatorAlways'));
  if (restrictedHours.length > 0 && charge && site.battery) {
    const hours = speaker.list(
      restrictedHours.map(({ from, to }) =>
        speaker.label('span', { from: speaker.clock(from), to: speaker.clock(to) }),
      ),
    );
    const urgent = fact('urgentSoc', 'share', result.controls.urgentSoc);
    const key: SentenceKey = peak ? 'quietHoursPeak' : 'quietHours';
    sentences.push(speaker.say(key, { hours, urgent }));
  }
  if (site.tank)
    sentences.push(speaker.say('tank', { litres: fact('tankL', 'litres', site.tank.capacityL) }));
  return [html`${sentences.map((each, i) => html`${i > 0 ? ' ' : ''}${each}`)}`];
}

function helpers({ speaker, site }: OwnerView): Html[] {
  const said: Html[] = [];
  if (site.cabinet?.heater && site.battery) said.push(speaker.say('heater'));
  if (site.cabinet?.cooler) said.push(speaker.say('cooler'));
  const { shed } = site.control;
  if (shed && site.battery) said.push(speaker.say('shed', { soc: fact('shedSoc', 'share', shed.belowSoc) }));
  return said;
}

/** The whole report in four sentences. */
export function shortPart(owner: OwnerView): Html {
  const { speaker, result, years, site } = owner;
  const { totals } = result.ledger;
  const said: Html[] = [];
  if (site.generator === null)
    said.push(speaker.say(hasArray(result) && site.battery ? 'shortNoGenerator' : 'shortNothing'));
  else if (totals.starts === 0) said.push(speaker.say('shortNever'));
  else said.push(speaker.say('shortRuns', { hours: runH(owner), litres: fuelL(owner) }));
  const sun = totals.dcUsedKwh + totals.acUsedKwh;
  if (sun > 0 && totals.generatorKwh > 0 && site.sources.length === 0)
    said.push(
      speaker.say('shortSun', { share: fact('sunShare', 'share', sun / (sun + totals.generatorKwh)) }),
    );
  if (owner.priced) said.push(money(owner));
  const { count, totalH } = interruptionsOf(result);
  said.push(
    count === 0
      ? speaker.say('shortServed')
      : speaker.say('shortFailed', {
          times: fact('interruptions', 'times', count / years),
          length: fact('interruptedH', 'length', totalH / years),
        }),
  );
  return html`<section class="short"><h2>${speaker.texts.headings.short}</h2>
<ul>${said.map((each) => html`<li>${each}</li>`)}</ul></section>
`;
}

function money({ speaker, result }: OwnerView): Html {
  const { runningFirstYear, capital } = result.money;
  const build = fact('capital', 'money', capital);
  if (runningFirstYear === 0) return speaker.say('shortMoneyFree', { capital: build });
  return speaker.say('shortMoney', {
    month: fact('runningPerMonth', 'money', runningFirstYear / 12),
    capital: build,
  });
}

/** Run hours of the engine a year, and what it burns. */
export function runH({ result, years }: OwnerView): Fact {
  return fact('runH', 'hours', result.ledger.totals.runH / years);
}

export function fuelL({ result, years }: OwnerView): Fact {
  return fact('fuelL', 'litres', result.ledger.totals.fuelL / years);
}
