/** Every figure of the owner's report is one of the run: worked out anew by its key, and none stands without a key. */
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { ownerReport, type Tongue } from '../../../src/report/owner/page.ts';
import { QuantityWriter } from '../../../src/report/owner/quantity.ts';
import { DE } from '../../../src/report/texts/de.ts';
import { EN } from '../../../src/report/texts/en.ts';
import { type Handover, handover } from '../handover.ts';
import { readOwnerPage } from './read-page.ts';
import { recompute } from './recompute.ts';

const ENGLISH: Tongue = { locale: 'en-GB', texts: EN };
const GERMAN: Tongue = { locale: 'de-AT', texts: DE };

const rich = (text: string) =>
  text.replace(
    '  minRunMin: 45\n',
    `  minRunMin: 45
  hand: { startSoc: 0.25, responseMin: 20, stopSoc: 0.7 }
  exercise: { everyDays: 14, at: '10:00', runMin: 20 }
  shed: { belowSoc: 0.2, aboveSoc: 0.35 }
`,
  );

const sources: [string, Handover][] = [
  ['farm', handover('farm')],
  ['hut', handover('hut')],
  ['workshop', handover('workshop')],
  ['farm with more controls', handover('farm', rich)],
  ['hut without generator', handover('hut', (text) => text, 3)],
  ['farm, 24 modules', handover('farm', (text) => text, 1)],
  ['farm, hundred days', handover('farm', (text) => text.replace('days: 365', 'days: 100'))],
];

/** Steps of the day and the weeks, from the dates that the page shows. */
function spansOf(
  page: string,
  { study, proposed }: Handover,
  texts: Tongue['texts'],
): Record<string, [number, number]> {
  const perDay = 1440 / study.axis.stepMin;
  const first = Date.UTC(2025, 0, 1);
  const { document } = parseHTML(page);
  const spans: Record<string, [number, number]> = {};
  for (const kind of ['normalDay', 'sunnyWeek', 'darkWeek'] as const) {
    const head = [...document.querySelectorAll('h3')].find(
      ({ textContent }) => textContent === texts.headings[kind],
    );
    const days = [...(head?.parentElement?.querySelectorAll('p time') ?? [])].map((time) =>
      Date.parse(`${time.getAttribute('datetime')}T00:00Z`),
    );
    if (days.length === 0) continue;
    const dayOf = (ms: number) => Math.round((ms - first) / 86_400_000);
    spans[kind] = [dayOf(days[0]) * perDay, (dayOf(days[days.length - 1]) + 1) * perDay];
  }
  expect(study.alternatives[proposed].inputs.count).toBeGreaterThanOrEqual(
    Math.max(0, ...Object.values(spans).flat()),
  );
  return spans;
}

describe.each(sources)('the report of the %s', (_, source) => {
  it.each([
    ['English', ENGLISH],
    ['German', GERMAN],
  ])('has only figures of the run, in %s', (_language, tongue) => {
    const page = ownerReport(source, tongue, '2026-01-31');
    const { figures } = readOwnerPage(page);
    const spans = spansOf(page, source, tongue.texts);
    expect(figures.length).toBeGreaterThan(20);
    for (const { key, value } of figures) {
      const expected = recompute(key, source, spans);
      expect([key, Math.abs(value - expected) <= 1e-9 * Math.max(1, Math.abs(expected))]).toEqual([
        key,
        true,
      ]);
    }
  });

  it('shows each figure as its value is written, and the same figure alike everywhere', () => {
    const { figures } = readOwnerPage(ownerReport(source, ENGLISH, '2026-01-31'));
    const writer = new QuantityWriter(EN, 'en-GB', source.study.site.currency);
    const seen = new Map<string, number>();
    for (const { key, kind, value, text } of figures) {
      expect([key, text]).toEqual([key, writer.write(kind, value).replaceAll('\u00a0', ' ')]);
      expect([key, seen.get(key) ?? value]).toEqual([key, value]);
      seen.set(key, value);
    }
  });

  it('splits the running cost into parts that add up', () => {
    const { figures } = readOwnerPage(ownerReport(source, ENGLISH, '2026-01-31'));
    const of = (key: string) => figures.find((each) => each.key === key)?.value ?? 0;
    const parts = ['fuelCost', 'serviceCost', 'unservedCost', 'visitsCost'].map(of);
    expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(of('running'), 6);
  });

  it('has no digit that is not a figure, a date, or somebody’s own words', () => {
    const { withoutFigures } = readOwnerPage(ownerReport(source, ENGLISH, '2026-01-31'));
    const own = [
      source.study.site.name,
      source.study.site.note,
      ...source.study.alternatives.flatMap(({ name, note }) => [name, note]),
    ];
    let left = withoutFigures;
    for (const words of own.filter((each) => each !== '').sort((a, b) => b.length - a.length))
      left = left.replaceAll(words, '');
    left = left.replaceAll(EN.words.charge, '');
    expect(left.match(/.{0,30}\d.{0,30}/g)).toBeNull();
  });
});
