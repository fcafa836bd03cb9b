import { describe, expect, it } from 'vitest';
import { type KeptFor, KeptOutcomes } from '../../../src/scenarios/many/kept-outcomes.ts';
import { OUTCOME_KEYS, type Outcome } from '../../../src/scenarios/many/outcome.ts';

const outcome = (fuelL: number) =>
  ({ ...Object.fromEntries(OUTCOME_KEYS.map((key, i) => [key, i / 3])), fuelL, minSoc: null }) as Outcome;
const BELONGS: KeptFor = { inputsHash: 'abc', version: '1', filed: outcome(0) };

/** A file, and a keeper of it whose clock stands unless it is moved. */
function fileWith(text: string | null, belongsTo = BELONGS) {
  const file = { text, writes: 0, nowMs: 0 };
  const write = (more: string, how: 'append' | 'replace') => {
    file.text = how === 'replace' ? more : (file.text ?? '') + more;
    file.writes++;
  };
  return { file, kept: new KeptOutcomes(text, belongsTo, write, () => file.nowMs) };
}

const TENTH = 0.1 + 0.2;

describe('KeptOutcomes', () => {
  it('gives back to the bit what it was given, problems too', () => {
    const { file, kept } = fileWith(null);
    const problem = {
      severity: 'error',
      code: 'x',
      path: 'p',
      got: 'g',
      want: 'w',
      at: { file: 'f' },
    } as const;
    kept.add({ a: TENTH }, outcome(1 / 7));
    kept.add({ a: null, b: 'x' }, [problem]);
    kept.flush();
    const again = fileWith(file.text).kept;
    expect(again.before).toBe(2);
    expect(again.of({ a: TENTH })).toEqual(outcome(1 / 7));
    expect(again.of({ a: null, b: 'x' })).toEqual([problem]);
    expect(again.of({ a: 0.3 })).toBeUndefined();
  });

  it('begins anew for other inputs, another program, or another engine', () => {
    const { file, kept } = fileWith(null);
    kept.add({ a: 1 }, outcome(1));
    kept.flush();
    for (const other of [
      { ...BELONGS, inputsHash: 'abd' },
      { ...BELONGS, version: '2' },
      { ...BELONGS, filed: outcome(1e-9) },
    ]) {
      const anew = fileWith(file.text, other);
      expect(anew.kept.before).toBe(0);
      expect(anew.file.text?.split('\n').filter(Boolean)).toHaveLength(1);
    }
    expect(fileWith(file.text).kept.before).toBe(1);
  });

  it('passes over a line that was cut off, and writes no further one into it', () => {
    const { file, kept } = fileWith(null);
    kept.add({ a: 1 }, outcome(1));
    kept.add({ a: 2 }, outcome(2));
    kept.flush();
    const cut = fileWith(file.text?.slice(0, -30) ?? '');
    expect(cut.kept.before).toBe(1);
    cut.kept.add({ a: 3 }, outcome(3));
    cut.kept.flush();
    const again = fileWith(cut.file.text).kept;
    expect([1, 2, 3].map((a) => again.of({ a }) !== undefined)).toEqual([true, false, true]);
  });

  it('writes what comes close together at once, and nothing is lost', () => {
    const { file, kept } = fileWith(null);
    file.nowMs = 1000;
    for (let a = 0; a < 50; a++) {
      file.nowMs += 10;
      kept.add({ a }, outcome(a));
    }
    expect(file.writes).toBeLessThan(10);
    kept.flush();
    expect(fileWith(file.text).kept.before).toBe(50);
  });
});
