import { describe, expect, it } from 'vitest';
import { nmiChecksum, readNmi } from '../../src/scenarios/nmi.ts';

describe('check digit of a meter identifier', () => {
  // AEMO, National Metering Identifier Procedure: examples as transcribed in public code (second hand); the last
  // derived from the rule
  it.each([
    ['2001985732', 8],
    ['2001985733', 6],
    ['3075621875', 8],
    ['4316854005', 9],
    ['6305888444', 6],
    ['7102000001', 7],
    ['NAAAMYS582', 6],
    ['NBBBX11110', 0],
    ['QAAAVZZZZZ', 3],
    ['QCDWW00010', 2],
    ['SMVEW00085', 8],
    ['VAAASTY576', 8],
    ['VKTS876510', 8],
    ['1234C6789A', 3],
    ['NEM1201009', 6],
  ])('of %s is %d', (nmi, digit) => expect(nmiChecksum(nmi)).toBe(digit));

  it('is taken off, and doubted when it is another', () => {
    expect(readNmi('20019857328')).toEqual({ nmi: '2001985732', doubt: null });
    expect(readNmi(' qcdww00010 ')).toEqual({ nmi: 'QCDWW00010', doubt: null });
    expect(readNmi('20019857329').doubt).toBe('check digit 9 where 8 is right');
    expect(readNmi('12345').doubt).toBe("'12345'");
  });
});
