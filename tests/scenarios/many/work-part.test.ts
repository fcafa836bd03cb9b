import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import {
  missingParts,
  partFileName,
  partNamedIn,
  readPart,
  shareOfPart,
  type WorkPart,
} from '../../../src/scenarios/many/work-part.ts';

describe('parts of a work', () => {
  it('are read, and refused where there is no such part', () => {
    expect(readPart('3/16')).toEqual({ part: 3, of: 16 });
    expect(readPart('16/16')).toEqual({ part: 16, of: 16 });
    for (const wrong of ['0/3', '4/3', '1', '/', '1/0', '-1/2', '1.5/2', '1/2/3', ''])
      expect(readPart(wrong), wrong).toBe(null);
  });

  it('hold everything once, and about the same number each', () => {
    fc.assert(
      fc.property(fc.nat(60), fc.integer({ min: 1, max: 70 }), (count, of) => {
        const all = Array.from({ length: count }, (_, i) => i);
        const parts = Array.from({ length: of }, (_, i) => shareOfPart(all, { part: i + 1, of }));
        expect(parts.flat().sort((a, b) => a - b)).toEqual(all);
        const sizes = parts.map(({ length }) => length);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('have files that are told from one another and from those of other work', () => {
    const file = partFileName('sweep-0a.jsonl', { part: 3, of: 16 });
    expect(file).toBe('sweep-0a.part-3-of-16.jsonl');
    expect(partNamedIn(file, 'sweep-0a.jsonl')).toEqual({ part: 3, of: 16 });
    for (const other of ['sweep-0b.jsonl', 'stress-runs.jsonl'])
      expect(partNamedIn(file, other), other).toBe(null);
    expect(partNamedIn('sweep-0a.jsonl', 'sweep-0a.jsonl')).toBe(null);
  });

  it('are listed where they are missing or unfinished', () => {
    const all = [0, 1, 2, 3, 4, 5, 6];
    const found: WorkPart[] = [
      { part: 1, of: 3 },
      { part: 2, of: 3 },
    ];
    const told = (there: readonly number[], files = found) =>
      missingParts(all, (one) => there.includes(one), files, 'runs', ['a', 'b']).map(issueSentence);
    expect(told(all)).toEqual([]);
    expect(told([0, 3, 6, 1])).toEqual([
      'a, b: --merge: found 1 of 2 runs of part 2; expected what --shard 2/3 makes',
      'a, b: --merge: found no part 3; expected what --shard 3/3 makes',
    ]);
    expect(told([1, 4, 2, 5])).toEqual([
      'a, b: --merge: found nothing in part 1; expected what --shard 1/3 makes, of the same inputs and by the same version',
    ]);
    expect(told([], [])).toEqual([
      'a, b: --merge: found no part of this work; expected parts made by the same command with --shard',
    ]);
  });
});
