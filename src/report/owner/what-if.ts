import { DULL_LOSS, LOAD_GROWTH, type WhatIf } from '../../scenarios/what-if.ts';
import { hasGenerator } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { hoursOfStep, localMs } from '../view.ts';
import { nameOf } from './money.ts';
import { interruptionsOf, type OwnerView } from './source.ts';
import { fact } from './speak.ts';

/** The same system with one thing changed each time; nothing where nothing was run again. */
export function whatIfPart(owner: OwnerView): Html | null {
  const { speaker, whatIfs, result } = owner;
  if (whatIfs.length === 0) return null;
  const { labels, headings } = speaker.texts;
  const engine = hasGenerator(result);
  const asPlanned = { ledger: result.ledger, money: result.money };
  return html`<section><h2>${headings.whatIf}</h2>
<p class="lead">${speaker.say('whatIfLead')}</p>
<div class="scroll" role="group" tabindex="0" aria-label="${headings.whatIf}"><table class="short">
<thead><tr><th scope="col">${labels.case}</th>${engine ? html`<th scope="col">${labels.generatorHours}</th><th scope="col">${labels.fuelYear}</th>` : null}${owner.priced ? html`<th scope="col">${labels.runYear}</th>` : null}<th scope="col">${labels.interruptions}</th></tr></thead>
<tbody>${row(owner, 'asPlanned', html`<b>${labels.asPlanned}</b>`, asPlanned)}${whatIfs.map((each) => row(owner, each.kind, caseName(owner, each), each))}</tbody></table></div>
${sentences(owner).map((each) => html`<p>${each}</p>`)}</section>
`;
}

function caseName({ speaker }: OwnerView, { kind, span, ledger }: WhatIf): Html {
  if (kind === 'loadGrows')
    return speaker.label(kind, { share: fact('whatIf.loadGrowth', 'share', LOAD_GROWTH) });
  if (kind === 'dullWinter')
    return speaker.label(kind, { share: fact('whatIf.dullLoss', 'share', DULL_LOSS) });
  if (kind === 'away' && span)
    return speaker.label(kind, { days: fact('whatIf.awayDays', 'days', spanDays(span, ledger.stepMin)) });
  return speaker.label('fuelDoubles');
}

function row(
  owner: OwnerView,
  kind: string,
  name: Html,
  { ledger, money }: Pick<WhatIf, 'ledger' | 'money'>,
): Html {
  const { speaker, years, result, priced } = owner;
  const own = (key: string) => `case.${kind}.${key}`;
  const { totals } = ledger;
  const off = interruptionsOf({ ...result, ledger }).count / years;
  return html`<tr><th scope="row">${name}</th>${
    hasGenerator(result)
      ? html`<td>${speaker.fact(fact(own('runH'), 'hours', totals.runH / years))}</td><td>${speaker.fact(fact(own('fuelL'), 'litres', totals.fuelL / years))}</td>`
      : null
  }${priced ? html`<td>${speaker.fact(fact(own('running'), 'money', money.runningFirstYear))}</td>` : null}<td>${speaker.fact(fact(own('interruptions'), 'plain', off))}</td></tr>
`;
}

function sentences(owner: OwnerView): Html[] {
  const said: Html[] = [];
  for (const each of owner.whatIfs) {
    if (each.kind === 'fuelDoubles' && owner.priced && owner.doubled.length > 1)
      said.push(cheapestThen(owner));
    if (each.kind === 'away') said.push(...awaySentences(owner, each));
  }
  return said;
}

/** Which choice costs least when fuel costs twice as much. */
function cheapestThen(owner: OwnerView): Html {
  const { speaker, doubled, proposed, study, site } = owner;
  const costs = doubled.map(({ lifeCycleCost }) => lifeCycleCost);
  const least = Math.min(...costs);
  const place = costs[proposed] === least ? proposed : costs.indexOf(least);
  const values = {
    price: fact('fuelPriceDoubled', 'moneyPerLitre', site.money.fuelPerL * 2),
    years: fact('years', 'years', owner.result.money.years),
  };
  if (place === proposed) return speaker.say('whatIfPriceSame', values);
  return speaker.say('whatIfPrice', { ...values, name: nameOf(owner, study.alternatives[place], place) });
}

function awaySentences(owner: OwnerView, { ledger, span }: WhatIf): Html[] {
  const { speaker, view, site } = owner;
  if (span === null) return [];
  const [fromH, toH] = [hoursOfStep(view, span.fromStep), hoursOfStep(view, span.toStep)];
  const litres = ledger.runs
    .filter(({ startH }) => startH >= fromH && startH < toH)
    .reduce((sum, run) => sum + run.litres, 0);
  const off = ledger.outages.filter(({ startH, endH }) => endH > fromH && startH < toH).length;
  const values = {
    from: speaker.day(localMs(view, fromH)),
    days: fact('whatIf.awayDays', 'days', spanDays(span, ledger.stepMin)),
    litres: fact('whatIf.awayLitres', 'litres', litres),
  };
  const said: Html[] = [];
  if (hasGenerator(owner.result)) {
    if (litres === 0) said.push(speaker.say('whatIfAwayEmpty', values));
    else if (site.tank)
      said.push(
        speaker.say('whatIfAway', {
          ...values,
          tank: fact('usableTankL', 'litres', site.tank.capacityL - site.tank.reserveL),
        }),
      );
    else said.push(speaker.say('whatIfAwayNoTank', values));
  }
  said.push(
    off === 0
      ? speaker.say('whatIfAwayOn')
      : speaker.say('whatIfAwayOff', { times: fact('whatIf.awayOff', 'times', off) }),
  );
  return [html`${said.map((each) => html`${each} `)}`];
}

function spanDays({ fromStep, toStep }: NonNullable<WhatIf['span']>, stepMin: number): number {
  return ((toStep - fromStep) * stepMin) / 1440;
}
