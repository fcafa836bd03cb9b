import { OUTAGE_CAUSES } from '../../sim/causes.ts';
import { peaksUnderstatedMin } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { localMs } from '../view.ts';
import { interruptionsOf, isYear, type OwnerView } from './source.ts';
import { fact } from './speak.ts';

/** Of the interruptions, the share in the winter half from which it is called so. */
const NEARLY_ALL = 0.9;

/** What is not promised: interruptions in words, and what the figures do not cover. */
export function limitsPart(owner: OwnerView): Html {
  const { speaker, study, priced } = owner;
  const coarse = peaksUnderstatedMin(study);
  const said = [interruptions(owner)];
  if (owner.site.inverter.phases === 3) said.push(speaker.say('limitsPhases'));
  said.push(speaker.say('limitsWeather'), speaker.say('limitsFaults'));
  if (coarse !== null)
    said.push(speaker.say('limitsPeaks', { minutes: fact('loadStepMin', 'minutes', coarse) }));
  if (priced) said.push(speaker.say('limitsPrices'));
  if (!isYear(owner))
    said.push(speaker.say('limitsPeriod', { days: fact('runDays', 'days', owner.years * 365) }));
  return html`<section><h2>${speaker.texts.headings.limits}</h2>
<ul>${said.map((each) => html`<li>${each}</li>`)}</ul></section>
`;
}

function interruptions(owner: OwnerView): Html {
  const { speaker, result, years } = owner;
  const { count, totalH, longestH } = interruptionsOf(result);
  if (count === 0) return speaker.say('limitsNone');
  const said = [
    speaker.say('limitsSome', {
      times: fact('interruptions', 'times', count / years),
      length: fact('interruptedH', 'length', totalH / years),
      longest: fact('longestInterruptionH', 'length', longestH),
    }),
  ];
  if (isYear(owner) && winterShare(owner) >= NEARLY_ALL) said.push(speaker.say('limitsWinter'));
  const cause = mainCause(owner);
  said.push(speaker.say('limitsCause', { cause: speaker.texts.outageCauses[cause] }));
  return html`${said.map((each) => html`${each} `)}`;
}

/** Share of the interruptions that begin in the winter half of the year of the site's hemisphere. */
function winterShare({ view, study, result }: OwnerView): number {
  const isWinter = (month: number) =>
    study.site.latDeg >= 0 ? month < 3 || month > 8 : month > 2 && month < 9;
  const { outages } = result.ledger;
  const inWinter = outages.filter(({ startH }) => isWinter(new Date(localMs(view, startH)).getUTCMonth()));
  return inWinter.length / outages.length;
}

/** The cause of most energy that was not supplied. */
function mainCause({ result }: OwnerView) {
  const { outages } = result.ledger;
  const kwh = OUTAGE_CAUSES.map((cause) =>
    outages.filter((each) => each.cause === cause).reduce((sum, each) => sum + each.kwh, 0),
  );
  const most = Math.max(...kwh);
  return most > 0 ? OUTAGE_CAUSES[kwh.indexOf(most)] : outages[0].cause;
}
