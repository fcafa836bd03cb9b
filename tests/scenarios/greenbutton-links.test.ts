import { describe, expect, it } from 'vitest';
import {
  block,
  doubts,
  errors,
  espi,
  feed,
  kwh,
  meterReading,
  reading,
  readingType,
} from './small-greenbutton.ts';

describe('links, not nesting, tie blocks to their types', () => {
  const owner = 'U/1/MeterReading/1';
  const blocks = block(owner, [reading(0, 100), reading(1, 200)], 2);
  const types = [readingType('Type/1'), readingType('Type/2', { uom: 169, commodity: 7 })];

  it('in any order, with a slash at the end or not', () => {
    for (const link of ['Type/1', 'Type/1/']) {
      const result = espi(feed(blocks, ...types, meterReading(owner, link)));
      expect(kwh(result)).toBeCloseTo(0.3, 12);
      expect(result.issues).toEqual([]);
    }
  });

  it('without a link nothing is read, unless there is one type only', () => {
    const unlinked = espi(feed(blocks, ...types));
    expect(doubts(unlinked)[0]).toMatch(/1 blocks with no reading type linked to them/);
    expect(unlinked.series).toEqual([]);
    expect(kwh(espi(feed(blocks, types[0])))).toBeCloseTo(0.3, 12);
  });

  it('from a meter reading to its blocks, where these have no link up', () => {
    const down = meterReading(owner, 'Type/1').replace(
      '<content>',
      `<link rel="related" href="Blocks/7/IntervalBlock"/><content>`,
    );
    const alone = blocks.replaceAll(`${owner}/IntervalBlock`, 'Blocks/7/IntervalBlock');
    const result = espi(feed(...types, down, alone));
    expect(kwh(result)).toBeCloseTo(0.3, 12);
    expect(result.series[0].name).toBe(owner);
  });

  const many = (meters: number, blocksEach: number) =>
    feed(
      ...types,
      ...Array.from({ length: meters }, (_, i) => meterReading(`U/MeterReading/${i}`, 'Type/1')),
      ...Array.from({ length: meters * blocksEach }, (_, i) =>
        block(`U/MeterReading/${i % meters}`, [reading(i, 100)], meters * blocksEach),
      ),
    );

  // a search through all entries for each block takes minutes, and runs out of time
  it('for as many meter readings and blocks as a site may have', { timeout: 60_000 }, () => {
    const text = many(500, 20);
    const result = espi(text);
    expect(result.issues).toEqual([]);
    expect(kwh(result)).toBeCloseTo(1000, 9);
    expect(errors(espi(many(1001, 1)))).toEqual([
      'f.xml: feed: found 1001 meter readings; expected at most 1000',
    ]);
  });
});
