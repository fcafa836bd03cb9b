import type { AlternativeResult } from '../../scenarios/study.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { hasGenerator } from '../facts.ts';
import { type Html, html, raw } from '../html.ts';
import { lyingBars, uprightBars } from './charts/bars.ts';
import { byMonth } from './months.ts';
import { fuelL } from './proposed.ts';
import { interruptionsOf, isYear, type OwnerView, yearsOf } from './source.ts';
import { fact } from './speak.ts';

/** What it costs by month and over the years; nothing where nothing is priced. */
export function moneyPart(owner: OwnerView): Html | null {
  if (!owner.priced) return null;
  const { speaker } = owner;
  return html`<section><h2>${speaker.texts.headings.money}</h2>
<p>${runningSentences(owner).map((each) => html`${each} `)}</p>
${isYear(owner) && owner.result.money.runningFirstYear > 0 ? monthsFigure(owner) : null}
<p>${overallSentences(owner).map((each) => html`${each} `)}<span class="soft">${speaker.say('moneyCare')}</span></p></section>
`;
}

function runningSentences(owner: OwnerView): Html[] {
  const { speaker, result } = owner;
  if (result.money.runningFirstYear === 0) return [speaker.say('moneyNoRunning')];
  const running = fact('running', 'money', result.money.runningFirstYear);
  return [
    speaker.say('moneyYear', { running, list: speaker.list(runningParts(owner)) }),
    monthSentence(owner),
  ];
}

/** What of it costs what: only what costs anything. */
function runningParts(owner: OwnerView): Html[] {
  const { speaker, result, site } = owner;
  const { fuelFirstYear, serviceFirstYear, unservedFirstYear, visitsFirstYear } = result.money;
  const parts: Html[] = [];
  if (fuelFirstYear > 0)
    parts.push(
      speaker.say('moneyFuel', {
        fuel: fact('fuelCost', 'money', fuelFirstYear),
        litres: fuelL(owner),
        price: fact('fuelPrice', 'moneyPerLitre', site.money.fuelPerL),
      }),
    );
  if (serviceFirstYear > 0)
    parts.push(speaker.say('moneyService', { service: fact('serviceCost', 'money', serviceFirstYear) }));
  if (unservedFirstYear > 0)
    parts.push(speaker.say('moneyUnserved', { unserved: fact('unservedCost', 'money', unservedFirstYear) }));
  if (visitsFirstYear > 0)
    parts.push(speaker.say('moneyVisits', { visits: fact('visitsCost', 'money', visitsFirstYear) }));
  return parts;
}

function monthSentence(owner: OwnerView): Html {
  const { speaker, result } = owner;
  const mean = fact('runningPerMonth', 'money', result.money.runningFirstYear / 12);
  if (!isYear(owner)) return speaker.say('moneyMean', { mean });
  const months = runningByMonth(owner);
  const least = months.reduce((best, each) => (each.value < best.value ? each : best));
  const most = months.reduce((best, each) => (each.value > best.value ? each : best));
  return speaker.say('moneyMonths', {
    mean,
    least: fact('cheapestMonth', 'money', least.value),
    leastMonth: speaker.month(least.month),
    most: fact('dearestMonth', 'money', most.value),
    mostMonth: speaker.month(most.month),
  });
}

function runningByMonth(owner: OwnerView) {
  return byMonth(owner, (_, i) => owner.result.money.runningByMonth[i] ?? 0);
}

function monthsFigure(owner: OwnerView): Html {
  const { speaker, paper, currency } = { ...owner, currency: owner.study.site.currency };
  const bars = runningByMonth(owner).map(({ month, value }) => ({
    name: speaker.month(month, 'short'),
    value,
    text: '',
    marked: false,
  }));
  const title = speaker.texts.sentences.moneyMonthTitle;
  const axis = speaker.texts.labels.moneyMonthAxis.replace('{currency}', currency);
  const draw = (width: number) =>
    raw(uprightBars(bars, axis, width > HALF_WIDTH ? 1 : 2, width, 120, title, paper).outerHTML);
  return html`<figure><figcaption>${title}</figcaption><div class="wide-only">${draw(FULL_WIDTH)}</div><div class="narrow-only">${draw(HALF_WIDTH)}</div></figure>
`;
}

function overallSentences({ speaker, result, site }: OwnerView): Html[] {
  const { money } = result;
  const said = [
    speaker.say('moneyOverall', {
      years: fact('years', 'years', money.years),
      total: fact('lifeCycleCost', 'money', money.lifeCycleCost),
      capital: fact('capital', 'money', money.capital),
    }),
  ];
  if (money.discountRate > 0)
    said.push(speaker.say('moneyDiscount', { rate: fact('discountRate', 'share', money.discountRate) }));
  if (money.batteryReplacedInYears.length > 0 && site.battery)
    said.push(
      speaker.say('moneyBattery', {
        list: yearList(speaker, 'batteryYear', money.batteryReplacedInYears),
        price: fact('batteryPrice', 'money', site.battery.modules * site.money.batteryPerModule),
      }),
    );
  if (money.overhaulsInYears.length > 0)
    said.push(
      speaker.say('moneyOverhaul', { list: yearList(speaker, 'overhaulYear', money.overhaulsInYears) }),
    );
  return said;
}

function yearList(speaker: OwnerView['speaker'], key: string, years: readonly number[]): Html {
  return speaker.list(years.map((year, i) => speaker.fact(fact(`${key}.${i}`, 'plain', year))));
}

/** All choices side by side: to build, to run, all in all; nothing where there is only one. */
export function alternativesPart(owner: OwnerView): Html | null {
  const { speaker, study, priced } = owner;
  if (study.alternatives.length < 2) return null;
  const { labels, headings } = speaker.texts;
  const years = fact('years', 'years', owner.result.money.years);
  const withEngine = study.alternatives.some(hasGenerator);
  return html`<section><h2>${headings.alternatives}</h2>
<p class="lead">${speaker.say('alternativesLead')}${priced ? html` ${cheapest(owner)}` : null}</p>
<div class="scroll" role="group" tabindex="0" aria-label="${headings.alternatives}"><table class="short">
<thead><tr><th scope="col">${labels.alternative}</th>${
    priced
      ? html`<th scope="col">${labels.build}</th><th scope="col">${labels.runYear}</th><th scope="col">${speaker.label('overYears', { years })}</th>`
      : null
  }${withEngine ? html`<th scope="col">${labels.generatorHours}</th>` : null}<th scope="col">${labels.interruptions}</th></tr></thead>
<tbody>${study.alternatives.map((result, i) => row(owner, result, i, withEngine))}</tbody></table></div>
${priced ? barsFigure(owner, years) : null}</section>
`;
}

/** Which choice costs least over the years: what is proposed, or another. */
function cheapest(owner: OwnerView): Html {
  const { speaker, study, result, proposed } = owner;
  const costs = study.alternatives.map(({ money }) => money.lifeCycleCost);
  const least = Math.min(...costs);
  const place = costs[proposed] === least ? proposed : costs.indexOf(least);
  const years = fact('years', 'years', result.money.years);
  if (place === proposed) return speaker.say('cheapestProposed', { years });
  const other = study.alternatives[place];
  const said = speaker.say('cheapestOther', {
    years,
    name: nameOf(owner, other, place),
    money: fact(`choice.${place}.difference`, 'money', Math.abs(least - costs[proposed])),
  });
  const off = interruptionsOf(other).count / yearsOf(other);
  if (off <= interruptionsOf(result).count / owner.years) return said;
  const times = fact(`choice.${place}.interruptions`, 'times', off);
  return html`${said} ${speaker.say('cheapestOff', { times })}`;
}

function row(owner: OwnerView, result: AlternativeResult, i: number, withEngine: boolean): Html {
  const { speaker, priced, proposed } = owner;
  const { labels } = speaker.texts;
  const name = i === proposed ? html`<b>${labels.asProposed}</b>` : nameOf(owner, result, i);
  const note = i !== proposed && result.note ? html`<small>${result.note}</small>` : null;
  const own = (key: string) => `choice.${i}.${key}`;
  const years = yearsOf(result);
  const engine = hasGenerator(result)
    ? speaker.fact(fact(own('runH'), 'hours', result.ledger.totals.runH / years))
    : labels.noGenerator;
  return html`<tr><th scope="row">${name}${note}</th>${
    priced
      ? html`<td>${speaker.fact(fact(own('capital'), 'money', result.money.capital))}</td><td>${speaker.fact(fact(own('running'), 'money', result.money.runningFirstYear))}</td><td>${speaker.fact(fact(own('lifeCycleCost'), 'money', result.money.lifeCycleCost))}${difference(owner, result, i)}</td>`
      : null
  }${withEngine ? html`<td>${engine}</td>` : null}<td>${speaker.fact(fact(own('interruptions'), 'plain', interruptionsOf(result).count / years))}</td></tr>
`;
}

/** Its name as filed; the site as filed is called so where another one is proposed. */
export function nameOf({ study, speaker }: OwnerView, result: AlternativeResult, i: number): string {
  return i === 0 && study.alternatives[0].name === 'as filed' ? speaker.texts.labels.asPlanned : result.name;
}

function difference(owner: OwnerView, other: AlternativeResult, i: number): Html | null {
  const { speaker, result, study } = owner;
  const least = Math.min(...study.alternatives.map(({ money }) => money.lifeCycleCost));
  const mark =
    other.money.lifeCycleCost === least ? html`<small>${speaker.texts.labels.cheapest}</small>` : null;
  const more = other.money.lifeCycleCost - result.money.lifeCycleCost;
  if (i === owner.proposed || Math.abs(more) < 0.5) return mark;
  const money = fact(`choice.${i}.difference`, 'money', Math.abs(more));
  return html`<small>${speaker.label(more > 0 ? 'difference' : 'differenceLess', { money })}</small>${mark}`;
}

function barsFigure(owner: OwnerView, years: ReturnType<typeof fact>): Html {
  const { speaker, study, paper, proposed } = owner;
  const bars = study.alternatives.map((result, i) => ({
    name: i === proposed ? speaker.texts.labels.asProposed : nameOf(owner, result, i),
    value: result.money.lifeCycleCost,
    text: speaker.write.write('money', result.money.lifeCycleCost),
    marked: i === proposed,
  }));
  const label = speaker.texts.sentences.alternativesTitle.replace(
    '{years}',
    speaker.write.write('years', years.value),
  );
  const draw = (width: number) => raw(lyingBars(bars, width, label, paper).outerHTML);
  return html`<figure><figcaption>${speaker.say('alternativesTitle', { years })}</figcaption><div class="wide-only">${draw(FULL_WIDTH)}</div><div class="narrow-only">${draw(HALF_WIDTH)}</div></figure>
`;
}
