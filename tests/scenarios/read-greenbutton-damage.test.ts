import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readGreenButton } from '../../src/scenarios/read-greenbutton.ts';
import { damaged, XML_KINDS } from './damage.ts';
import { checkIntact, checkWhole, seriesOf, stretchKwh, type Truth } from './damage-checks.ts';
import { bytes, feed, hourly } from './small-greenbutton.ts';

const sample = new Uint8Array(readFileSync(new URL('./samples/greenbutton_tiny.xml', import.meta.url)));
/** Delivered at 15 minutes, received at an hour. */
const made = bytes(
  feed(
    hourly(
      'U/1/MeterReading/1',
      {},
      Array.from({ length: 32 }, (_, i) => 100 + ((i * 37) % 50)),
      0.25,
    ),
    hourly(
      'U/1/MeterReading/2',
      { flowDirection: 19 },
      Array.from({ length: 8 }, (_, i) => 500 + i),
    ),
  ),
);
const latin1 = new TextDecoder('latin1');
const READING = /<IntervalReading>[\s\S]*?<\/IntervalReading>/g;
const TYPE = /<ReadingType[\s\S]*?<\/ReadingType>/g;

/** The readings of a clean feed as text, each with what it says. */
function truths(clean: string): { text: string; type: string; truth: Truth }[] {
  const types = [...clean.matchAll(TYPE)].map(([text]) => text);
  return [...clean.matchAll(READING)].map(({ 0: text, index }) => {
    const number = (name: string) => Number(new RegExp(`<${name}>(\\d+)<`).exec(text)?.[1]);
    // the type stands before its readings
    const type = types.findLast((one) => clean.indexOf(one) < index)!;
    const quantity = type.includes('<flowDirection>19<') ? 'generationKw' : 'loadKw';
    const truth = {
      quantity,
      startS: number('start'),
      durationS: number('duration'),
      kwh: number('value') / 1000,
    } as const;
    return { text, type, truth };
  });
}

/** Whether a piece of text is there once, so that nothing can have taken its place. */
const isOnce = (text: string, piece: string) => {
  const at = text.indexOf(piece);
  return at >= 0 && text.indexOf(piece, at + 1) < 0;
};

/** What stands before the readings of a meter: its type, links and block, which say what they are. */
const HEAD =
  /<entry>(?:(?!<IntervalReading>)[\s\S])*?<\/entry>|<entry>(?:(?!<\/entry>)[\s\S])*?<\/interval>/g;

/** Sum of all values that are delivered, as plain arithmetic over the text. */
function plainSum(text: string): number {
  const type = [...text.matchAll(TYPE)].map(([one]) => one);
  const power = Number(/<powerOfTenMultiplier>(-?\d+)</.exec(type[0])?.[1] ?? 0);
  const values = [...text.matchAll(READING)].map(([one]) => Number(/<value>([^<]*)</.exec(one)?.[1]));
  return (values.reduce((sum, value) => sum + value, 0) / 1000) * 10 ** power;
}

it.each([
  ['the sample', sample, { refused: 500, read: 500, intervals: 1000, sums: 400 }],
  ['two meter readings', made, { refused: 500, read: 500, intervals: 10_000, sums: 0 }],
])(
  'damage to %s is refused, or each intact interval reads as before and the total is that of the values',
  (name, clean, least) => {
    const all = truths(latin1.decode(clean));
    const heads = latin1.decode(clean).match(HEAD)!;
    const counts = { refused: 0, read: 0, intervals: 0, sums: 0 };
    for (const { kind, bytes: file } of damaged(clean, 1500, 7, XML_KINDS)) {
      const text = latin1.decode(file);
      const result = readGreenButton(file, 'm.xml');
      const where = `${kind}\n${text}`;
      counts[checkWhole(result, where)]++;
      if (result.series.length === 0) continue;
      if (heads.every((head) => isOnce(text, head))) {
        const intact = all.filter((one) => isOnce(text, one.text)).map(({ truth }) => truth);
        counts.intervals += checkIntact(result, intact, where);
      }
      if (name !== 'the sample' || result.issues.length > 0 || result.sheet!.filled > 0) continue;
      for (const quantity of ['loadKw', 'generationKw'] as const) {
        const series = seriesOf(result, quantity);
        if (!series) continue;
        const total = stretchKwh(series, series.axis.startS, series.axis.count * series.axis.stepMin * 60);
        expect(Math.abs(total - plainSum(text)), where).toBeLessThan(1e-9 * Math.max(1, total));
        counts.sums++;
      }
    }
    // enough of each outcome that the checks mean something
    for (const [outcome, count] of Object.entries(least))
      expect(counts[outcome as 'read'], outcome).toBeGreaterThanOrEqual(count);
  },
);

it('damage to a running register is refused, doubted, or leaves the energy that it rose by', () => {
  const stood = Array.from({ length: 30 }, (_, i) => 10_000 + 300 * i + ((i * 37) % 200));
  const clean = bytes(feed(hourly('U/1/MeterReading/1', { accumulationBehaviour: 1 }, stood)));
  const counts = { refused: 0, read: 0, sums: 0, spread: 0 };
  for (const { kind, bytes: file } of damaged(clean, 1500, 3, XML_KINDS)) {
    const text = latin1.decode(file);
    const result = readGreenButton(file, 'm.xml');
    const where = `${kind}\n${text}`;
    counts[checkWhole(result, where)]++;
    const isPlain = result.issues.every(({ code }) => code === 'reading-type' || code === 'register-hole');
    const isKnown = result.sheet?.gaps.every(({ filledBy }) => filledBy?.includes('known from the register'));
    // what it counts in is checked above
    const isWatthours = /<powerOfTenMultiplier>0<.*<uom>72</.test(text);
    if (result.series.length === 0 || !isPlain || !isKnown || !isWatthours) continue;
    const readings = [...text.matchAll(READING)].map(([one]) => ({
      at: Number(/<start>(\d+)</.exec(one)?.[1]),
      value: Number(/<value>([^<]*)</.exec(one)?.[1]),
    }));
    readings.sort((a, b) => a.at - b.at);
    const { axis } = result.series[0];
    const total = stretchKwh(result.series[0], axis.startS, axis.count * axis.stepMin * 60);
    const rise = (readings[readings.length - 1].value - readings[0].value) / 1000;
    expect(Math.abs(total - rise), where).toBeLessThan(1e-9 * Math.max(1, rise));
    counts.sums++;
    if (result.sheet!.filled > 0) counts.spread++;
  }
  expect(counts.refused).toBeGreaterThan(500);
  expect(counts.sums).toBeGreaterThan(300);
  expect(counts.spread).toBeGreaterThan(40);
});
