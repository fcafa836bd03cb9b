import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { ARRAY, BATTERY, GENERATOR, INK, UNSERVED } from '../charts/palette.ts';
import { hasArray, hasBattery, hasGenerator } from '../facts.ts';
import { type Html, html, raw } from '../html.ts';
import { type KeyEntry, keyList } from '../page/figure-box.ts';
import { hoursOfStep, localMs } from '../view.ts';
import { supplyCharts } from './charts/supply.ts';
import type { OwnerView } from './source.ts';
import { ordinaryDay, type Span, type Supply, sunniestWeek, supplyOver } from './spans.ts';
import { fact } from './speak.ts';

type Kind = 'normalDay' | 'sunnyWeek' | 'darkWeek';

const REASONS = { normalDay: 'normalWhy', sunnyWeek: 'sunnyWhy', darkWeek: 'darkWhy' } as const;

/** An ordinary day, the sunniest week and the dark week: a drawing each, and what it shows. */
export function daysPart(owner: OwnerView): Html {
  const { result, speaker } = owner;
  const spans: [Kind, Span | null][] = [
    ['normalDay', ordinaryDay(result)],
    ['sunnyWeek', sunniestWeek(result)],
    ['darkWeek', hasArray(result) ? result.darkWeek : null],
  ];
  const shown = spans.filter((each): each is [Kind, Span] => each[1] !== null);
  if (shown.length === 0) return html``;
  return html`<section><h2>${speaker.texts.headings.days}</h2>
${shown.map(([kind, span]) => spanPart(owner, kind, span))}</section>
`;
}

function spanPart(owner: OwnerView, kind: Kind, span: Span): Html {
  const { speaker } = owner;
  const supply = supplyOver(owner.result, span);
  const title = speaker.texts.headings[kind];
  const draw = (width: number) => pictures(owner, supply, span, title, width);
  return html`<figure>
<h3>${title}</h3>
<p>${sentences(owner, kind, span, supply).map((each) => html`${each} `)}<span class="soft">${speaker.say(REASONS[kind])}</span></p>
${keyList(keyOf(owner, supply))}
<div class="wide-only">${draw(FULL_WIDTH)}</div><div class="narrow-only">${draw(HALF_WIDTH)}</div>
</figure>
`;
}

function sentences(owner: OwnerView, kind: Kind, span: Span, supply: Supply): Html[] {
  const { speaker, view, result } = owner;
  const figure = (name: string) => `${kind}.${name}`;
  const load = fact(figure('loadKwh'), 'kwh', supply.loadKwh);
  const first = speaker.day(localMs(view, hoursOfStep(view, span.fromStep)));
  const last = speaker.day(localMs(view, hoursOfStep(view, span.toStep) - 0.01));
  const said = [
    kind === 'normalDay'
      ? speaker.say('dayUse', { date: first, load })
      : speaker.say('weekUse', { from: first, to: last, load }),
  ];
  if (hasArray(result)) {
    const used = fact(figure('arrayUsedKwh'), 'kwh', supply.arrayUsedKwh);
    const offered = fact(figure('arrayOfferedKwh'), 'kwh', supply.arrayOfferedKwh);
    const all = speaker.write.write('kwh', used.value) === speaker.write.write('kwh', offered.value);
    said.push(speaker.say(all ? 'sunGivesAll' : 'sunGives', all ? { used } : { used, offered }));
  }
  if (hasGenerator(result))
    said.push(
      supply.runs === 0
        ? speaker.say('generatorStands')
        : speaker.say('generatorHelps', {
            hours: fact(figure('runH'), 'length', supply.runH),
            runs: fact(figure('runs'), 'runs', supply.runs),
            kwh: fact(figure('generatorKwh'), 'kwh', supply.generatorKwh),
          }),
    );
  if (hasBattery(result))
    said.push(speaker.say('lowest', { soc: fact(figure('lowestSoc'), 'share', supply.lowestSoc) }));
  if (supply.missingKwh > 1e-6)
    said.push(speaker.say('off', { kwh: fact(figure('missingKwh'), 'kwh', supply.missingKwh) }));
  return said;
}

function keyOf({ speaker, result }: OwnerView, supply: Supply): KeyEntry[] {
  const { labels } = speaker.texts;
  const entries: KeyEntry[] = [{ fill: INK, text: labels.use, line: true }];
  if (hasArray(result)) entries.push({ fill: ARRAY, text: labels.fromSun });
  if (hasBattery(result)) entries.push({ fill: BATTERY, text: labels.fromBattery });
  if (hasGenerator(result)) entries.push({ fill: GENERATOR, text: labels.fromGenerator });
  if (supply.missingKwh > 1e-6) entries.push({ fill: UNSERVED, text: labels.missing });
  return entries;
}

function pictures(owner: OwnerView, supply: Supply, span: Span, label: string, width: number): Html {
  const { speaker, view, result, paper } = owner;
  const { labels } = speaker.texts;
  const hours = supply.useKw.length * supply.stepH;
  const isDay = hours <= 24;
  const ticks = Array.from({ length: Math.floor(hours / (isDay ? 3 : 24)) + (isDay ? 1 : 0) }, (_, i) => {
    const hour = i * (isDay ? 3 : 24);
    const ms = localMs(view, hoursOfStep(view, span.fromStep) + hour);
    const clock = new Date(ms).toISOString().slice(11, 16);
    return { hour, text: isDay ? (width > HALF_WIDTH || i % 2 === 0 ? clock : '') : speaker.shortDay(ms) };
  });
  const words = { power: labels.powerAxis, charge: labels.chargeOfBattery, ticks, label };
  const drawings = supplyCharts(supply, words, width, hasBattery(result), paper);
  return html`${drawings.map((drawing) => raw(drawing.outerHTML))}`;
}
