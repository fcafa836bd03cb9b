import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeSentences, studySentences } from '../../src/report/sentences.ts';
import { rowOf, shownText } from '../../src/report/shown.ts';
import type { AlternativeResult, Study } from '../../src/scenarios/study.ts';
import { fixtureStudy } from './fixture.ts';
import { randomStudy } from './random-study.ts';

const RUNS = { numRuns: 400 };
const study = fixtureStudy({ stepMin: 15 });

function eachSentence(random: Study): string[] {
  return studySentences(random).flatMap(({ sentences }) => sentences);
}

describe('the sentences of a small farm', () => {
  const [first, second] = studySentences(study);

  it('tell the first alternative as it is', () => {
    const result = study.alternatives[0];
    expect(first.sentences[0]).toBe(
      `The generator runs ${Math.round(result.ledger.totals.runH)} h a year, starts ${result.ledger.totals.starts} times and burns ${shownText(study, result, 'fuelL')}.`,
    );
  });

  it('lead with what was changed', () => {
    expect(second.sentences[0]).toMatch(/^Twenty-four battery modules instead of twelve: /);
  });

  it('tell how long the battery lasts where that changes, and only there', () => {
    const [filed, twice] = study.alternatives;
    const longer = { ...study, alternatives: [filed, { ...twice, batteryLifeYears: 14.6 }] };
    const told = (of: Study) =>
      changeSentences(of)[1].match(/Used like this[^.]*(?:\.\d[^.]*)*\./)?.[0] ?? null;
    expect(told(longer)).toBe('Used like this the battery lasts 15 years instead of 11 years.');
    expect(told(study)).toBeNull();
  });

  it('come as one paragraph for each alternative, its name first', () => {
    const paragraphs = changeSentences(study);
    expect(paragraphs).toHaveLength(study.alternatives.length);
    expect(paragraphs[1]).toMatch(/^Twice the battery\. Twenty-four /);
  });
});

describe('the sentences of random ledgers', () => {
  it('hold no NaN, no null, no doubled space or stop, and are capitalised and finished', () => {
    fc.assert(
      fc.property(randomStudy, (random) => {
        for (const sentence of eachSentence(random)) {
          expect(sentence).not.toMatch(/NaN|undefined|null|Infinity|\[object|–/);
          expect(sentence).not.toMatch(/ {2}|\.\.| [,;:.]|−/);
          expect(sentence).toMatch(/^[A-Z\d].*[^.,;: ]\.$/);
        }
      }),
      RUNS,
    );
  });

  it('are right in number', () => {
    fc.assert(
      fc.property(randomStudy, (random) => {
        for (const sentence of eachSentence(random)) {
          expect(sentence).not.toMatch(
            /(?<![\d.,])1 (times|hours|interruptions|years|days|starts|changes)\b/,
          );
          expect(sentence).not.toMatch(/(?<![\d.,])(?!1 )[\d,.]*\d (time|hour|interruption|day|start)\b/);
          expect(sentence).not.toMatch(/(?<!-)\bone battery modules|(?<!one) battery module\b/i);
        }
      }),
      RUNS,
    );
  });

  it('never set a figure against itself', () => {
    fc.assert(
      fc.property(randomStudy, (random) => {
        for (const sentence of eachSentence(random))
          for (const [, now, before] of sentence.matchAll(
            /((?:under )?\S+ \S+)(?: a year| in \d+ days| times)? instead of ((?:under )?\S+ [a-zA-Z%]+)/g,
          ))
            expect(now).not.toBe(before);
      }),
      RUNS,
    );
  });

  it('say nothing about what is not in the site', () => {
    const words: [RegExp, (result: AlternativeResult) => boolean][] = [
      [/generator/i, ({ plant }) => plant.generator !== null],
      [/batter(y|ies) (is|are|falls)|lowest/i, ({ plant }) => plant.battery !== null],
      [/cabinet/i, ({ plant }) => plant.cabinet !== null],
      [/array/i, ({ ledger }) => ledger.totals.dcPotentialKwh > 0],
    ];
    fc.assert(
      fc.property(randomStudy, (random) => {
        const text = eachSentence(random).join(' ');
        for (const [word, has] of words) if (!random.alternatives.some(has)) expect(text).not.toMatch(word);
        if (random.alternatives.every(({ money }) => money.lifeCycleCost === 0))
          expect(text).not.toMatch(/costs/);
      }),
      RUNS,
    );
  });

  it('agree with the table: hours, litres, unserved energy and which way the money goes', () => {
    let told = 0;
    fc.assert(
      fc.property(randomStudy, (random) => {
        for (const [i, { sentences }] of studySentences(random).entries()) {
          const result = random.alternatives[i];
          const text = sentences.join(' ');
          if (result.plant.generator && result.ledger.totals.starts > 0) {
            if (!/\(.*hours.* as before\)/.test(text))
              expect(text).toContain(shownText(random, result, 'runH'));
            if (!/\(.*fuel.* as before\)/.test(text))
              expect(text).toContain(shownText(random, result, 'fuelL'));
            told++;
          }
          if (/all load is served(?!;)/i.test(text))
            expect(result.ledger.totals.unservedKwh).toBeLessThan(1e-6);
          const over = / (more|less) over \d+ years?\./.exec(text);
          const difference = rowOf(random, 'lifeCycleCost')?.differences[i] ?? 0;
          if (over) expect(over[1]).toBe(difference > 0 ? 'more' : 'less');
        }
      }),
      RUNS,
    );
    expect(told).toBeGreaterThan(RUNS.numRuns / 2);
  });
});
