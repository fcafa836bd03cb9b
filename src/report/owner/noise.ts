import { START_CAUSES } from '../../sim/causes.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { hasGenerator } from '../facts.ts';
import { runHoursByHour } from '../hour-of-day.ts';
import { type Html, html, raw } from '../html.ts';
import { longestQuiet } from '../titles.ts';
import { localMs } from '../view.ts';
import { uprightBars } from './charts/bars.ts';
import { byMonth } from './months.ts';
import { runH } from './proposed.ts';
import { isYear, type OwnerView } from './source.ts';
import { fact } from './speak.ts';

/** When the generator is heard and why; nothing for a site without one. */
export function noisePart(owner: OwnerView): Html | null {
  const { speaker, result } = owner;
  if (!hasGenerator(result)) return null;
  const quiet = result.ledger.totals.starts === 0;
  return html`<section><h2>${speaker.texts.headings.noise}</h2>
<p>${(quiet ? [speaker.say('noiseNever')] : sentences(owner)).map((each) => html`${each} `)}</p>
${quiet ? null : hoursFigure(owner)}
${quiet || !isYear(owner) ? null : monthsFigure(owner)}</section>
`;
}

function sentences(owner: OwnerView): Html[] {
  const { speaker, result, years, view } = owner;
  const { totals } = result.ledger;
  const said = [
    speaker.say('noiseYear', { times: fact('starts', 'times', totals.starts / years), hours: runH(owner) }),
    ...night(owner),
    causes(owner),
  ];
  if (isYear(owner)) {
    const months = byMonth(owner, ({ runH: hours }) => hours);
    const most = months.reduce((best, each) => (each.value > best.value ? each : best));
    if (most.value > 0)
      said.push(
        speaker.say('noiseMonth', {
          month: speaker.month(most.month),
          hours: fact('mostMonth.runH', 'hours', most.value),
        }),
      );
  }
  const still = longestQuiet(result);
  if (still.hours >= 48)
    said.push(
      speaker.say('noiseStill', {
        days: fact('longestRestDays', 'days', still.hours / 24),
        date: speaker.day(localMs(view, still.fromH)),
      }),
    );
  return said;
}

function night({ speaker, result, site, years }: OwnerView): Html[] {
  if (!result.inputs.night?.includes(1)) return [];
  const { from, to } = site.control.nightHours;
  const hours = { from: speaker.clock(from), to: speaker.clock(to) };
  const { nightH } = result.ledger.totals;
  if (nightH === 0) return [speaker.say('noiseNoNight', hours)];
  return [speaker.say('noiseNight', { night: fact('nightH', 'hours', nightH / years), ...hours })];
}

function causes({ speaker, result, years }: OwnerView): Html {
  const { startsByCause } = result.ledger.totals;
  const found = START_CAUSES.filter((cause) => startsByCause[cause] > 0).sort(
    (a, b) => startsByCause[b] - startsByCause[a],
  );
  if (found.length === 1) return speaker.say('noiseOneCause', { cause: speaker.texts.causes[found[0]] });
  const list = found.map((cause) =>
    speaker.say('noiseCause', {
      times: fact(`starts.${cause}`, 'times', startsByCause[cause] / years),
      cause: speaker.texts.causes[cause],
    }),
  );
  return speaker.say('noiseCauses', { list: speaker.list(list) });
}

function hoursFigure({ speaker, view, result, years, paper }: OwnerView): Html {
  const rows = runHoursByHour(view, result.ledger.runs);
  const bars = Array.from({ length: 24 }, (_, hour) => {
    const sum = rows.filter((row) => row.hour === hour).reduce((total, row) => total + row.runH, 0);
    return { name: `${hour}:00`, value: sum / years, text: '', marked: false };
  });
  const title = speaker.texts.sentences.noiseHourTitle;
  const draw = (width: number) =>
    raw(
      uprightBars(bars, speaker.texts.labels.hoursAxis, width > HALF_WIDTH ? 2 : 4, width, 130, title, paper)
        .outerHTML,
    );
  return html`<figure><figcaption>${title}</figcaption><div class="wide-only">${draw(FULL_WIDTH)}</div><div class="narrow-only">${draw(HALF_WIDTH)}</div></figure>
`;
}

function monthsFigure(owner: OwnerView): Html {
  const { speaker, paper } = owner;
  const bars = byMonth(owner, ({ runH: hours }) => hours).map(({ month, value }) => ({
    name: speaker.month(month, 'short'),
    value,
    text: '',
    marked: false,
  }));
  const title = speaker.texts.sentences.noiseMonthTitle;
  const draw = (width: number) =>
    raw(
      uprightBars(
        bars,
        speaker.texts.labels.hoursMonthAxis,
        width > HALF_WIDTH ? 1 : 2,
        width,
        120,
        title,
        paper,
      ).outerHTML,
    );
  return html`<figure><figcaption>${title}</figcaption><div class="wide-only">${draw(FULL_WIDTH)}</div><div class="narrow-only">${draw(HALF_WIDTH)}</div></figure>
`;
}
