import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { comparisonRows } from '../../src/report/comparison-table.ts';
import { terminalReport, terminalTable } from '../../src/report/terminal.ts';
import { wrapped } from '../../src/report/wrap.ts';
import { fixtureStudy } from './fixture.ts';
import { randomStudy } from './random-study.ts';

const study = fixtureStudy({ stepMin: 15 });

describe('the comparison', () => {
  const rows = comparisonRows(study);
  const row = (key: string) => rows.find(({ figure }) => figure.key === key);

  it("shows the ledger's numbers", () => {
    const { totals } = study.alternatives[1].ledger;
    expect(row('fuelL')?.texts[1]).toBe(`${Math.round(totals.fuelL).toLocaleString('en')} L`);
    expect(row('starts')?.values[1]).toBe(totals.starts);
    expect(row('starts')?.values[1]).toBe(
      (row('starts:charge')?.values[1] ?? 0) + (row('starts:peak')?.values[1] ?? 0),
    );
    expect(row('lifeCycleCost')?.values[1]).toBe(study.alternatives[1].money.lifeCycleCost);
  });

  it('gives differences of the numbers shown, so that a reader who subtracts agrees', () => {
    fc.assert(
      fc.property(randomStudy, (random) => {
        for (const each of comparisonRows(random)) {
          const read = (text: string) => Number(text.replaceAll(',', '').replace('−', '-'));
          for (let i = 1; i < each.numbers.length; i++) {
            if (
              each.differences[i] === null ||
              each.numbers[i].startsWith('<') ||
              each.numbers[0].startsWith('<')
            )
              continue;
            const scale = each.figure.kind === 'share' ? 100 : 1;
            expect(read(each.numbers[i]) - read(each.numbers[0])).toBeCloseTo(
              (each.differences[i] ?? 0) * scale,
              6,
            );
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it('has no line about what no alternative has', () => {
    const alone = {
      ...study,
      alternatives: study.alternatives.map((each) => ({
        ...each,
        plant: { ...each.plant, generator: null, tank: null, battery: null, cabinet: null },
      })),
    };
    const labels = comparisonRows(alone)
      .map(({ figure }) => figure.label)
      .join('|');
    expect(labels).not.toMatch(/generator|fuel|battery|cabinet|CO₂/i);
  });
});

describe('the terminal table', () => {
  it('holds every number of the comparison', () => {
    const text = terminalTable(study, 100, false);
    for (const row of comparisonRows(study))
      for (const number of row.numbers) expect(text).toContain(number.replace('−', '-'));
  });

  it('keeps to the width, from 60 columns up, and shows every alternative', () => {
    fc.assert(
      fc.property(randomStudy, fc.integer({ min: 60, max: 200 }), (random, width) => {
        const text = terminalTable(random, width, false);
        for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(width);
        expect(text).not.toMatch(/NaN|undefined|null|Infinity/);
        const heads = text.replace(/\s+/g, ' ');
        for (const { name } of random.alternatives) expect(heads).toContain(name.split(' ')[1]);
      }),
      { numRuns: 300 },
    );
  });

  it('puts four alternatives side by side in 80 columns', () => {
    expect(terminalTable(study, 80, false).match(/^a year/gm)).toHaveLength(1);
  });

  it('repeats the first alternative where the others need further blocks', () => {
    const eight = { ...study, alternatives: [...study.alternatives, ...study.alternatives] };
    const text = terminalTable(eight, 80, false);
    expect(text.match(/as filed/g)?.length).toBeGreaterThan(2);
  });

  it('is plain without colour and marks the best with it', () => {
    expect(terminalTable(study, 80, false)).not.toContain('\x1b');
    expect(terminalTable(study, 80, true)).toContain('\x1b[1m');
  });

  it('says that starts on a peak are understated where the load data are coarse', () => {
    const coarse = fixtureStudy({ stepMin: 30, days: 60 });
    expect(terminalTable(coarse, 80, false)).toMatch(/Generator starts \*/);
    expect(terminalTable(coarse, 80, false).replace(/\s+/g, ' ')).toContain(
      '* Understated: the load data have a step of 30 min',
    );
    expect(terminalTable(study, 80, false)).not.toContain('nderstated');
  });

  it('is followed by the sentences, wrapped', () => {
    const text = terminalReport(study, 80, false);
    expect(text).toContain('Twenty-four battery modules instead of twelve');
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});

describe('wrapping', () => {
  it('loses no character but the spaces it breaks at', () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,30}$/), { minLength: 1 }),
        fc.integer({ min: 10, max: 60 }),
        (words, width) => {
          const lines = wrapped(words.join(' '), width);
          for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
          expect(lines.join('').replaceAll(' ', '')).toBe(words.join(''));
        },
      ),
    );
  });
});
