import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readGreenButton } from '../../src/scenarios/read-greenbutton.ts';
import { bytes, errors, espi, feed, hourly, kw } from './small-greenbutton.ts';

const sample = readFileSync(new URL('./samples/greenbutton_tiny.xml', import.meta.url), 'utf8');
const good = feed(hourly('U/MeterReading/1', {}, [100]));
const nested = (depth: number) => `${'<a>'.repeat(depth)}${'</a>'.repeat(depth)}`;
const within = (xml: string) => good.replace('<content>', `<content>${xml}`);

describe('a feed that is none', () => {
  it.each<[string, Uint8Array, RegExp]>([
    [
      'a document type',
      bytes(`<!DOCTYPE x [<!ENTITY a "b">]>${good}`),
      /^f\.xml: file: .*document type or entity/,
    ],
    ['another root', bytes('<!-- <feed> --><a/>'), /^f\.xml: feed: found no Atom feed/],
    [
      'elements that do not match',
      bytes(sample.replace('</ReadingType>', '</Reading>')),
      /^f\.xml:6:\d+: file: .*expected well-formed XML/,
    ],
    ['a cut end', bytes(good.slice(0, -8)), /^f\.xml:\d+:\d+: file: /],
    ['UTF-16', bytes(`\0${[...good].join('\0')}`), /zero bytes, as in UTF-16/],
    ['a zip archive', Uint8Array.of(0x50, 0x4b, 3, 4, 9), /a zip archive; .*unpack it first/],
    ['nothing', bytes(''), /^f\.xml:1: file: /],
  ])('%s is refused', (_, file, sentence) => {
    const result = readGreenButton(file, 'f.xml');
    expect(errors(result).length).toBe(1);
    expect(errors(result)[0]).toMatch(sentence);
    expect(result.series).toEqual([]);
  });

  it('of two million open elements is refused in few words', () => {
    const sentence = errors(espi('<a>'.repeat(2_000_000)))[0];
    expect(sentence).toMatch(/well-formed XML/);
    expect(sentence.length).toBeLessThan(200);
  });
});

describe('depth', () => {
  it('of entries is bounded', () => {
    expect(kw(espi(within(nested(20))))).toEqual([0.1]);
    expect(errors(espi(within(nested(40))))).toEqual([
      "f.xml:2:1: entry: found 'Maximum nested tags exceeded'; expected XML nested at most 30 deep",
    ]);
  });

  it('of a hundred thousand elements is no crash, wherever they are', () => {
    expect(errors(espi(within(nested(100_000)))).length).toBe(1);
    // beside the entries nothing is kept of them
    expect(kw(espi(good.replace('<entry>', `${nested(100_000)}<entry>`)))).toEqual([0.1]);
  });
});

it('entities are not expanded: a value of them is none', () => {
  expect(errors(espi(good.replace('>100<', '>&#49;00<')))[0]).toMatch(/value '&#49;00'/);
});
