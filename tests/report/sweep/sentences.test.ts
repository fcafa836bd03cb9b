import { describe, expect, it } from 'vitest';
import { sweepSentences } from '../../../src/report/sweep/sentences.ts';
import { terminalSweep } from '../../../src/report/sweep/terminal.ts';
import { bestCell } from '../../../src/scenarios/many/sweep.ts';
import { CHOICE, KW, MODULES, madeOutcome, madeSweep, SOC } from './made-sweep.ts';

const words = (...parts: Parameters<typeof madeSweep>) => sweepSentences(madeSweep(...parts)).join(' ');

describe('what a sweep says', () => {
  it('how much was run, the best against the site as filed, and how flat it is', () => {
    expect(words([KW, SOC], { prices: [400, 0] })).toBe(
      '12 variants were run: generator rating 10 to 25 kW and generator started at 20 to 40 %. ' +
        'Of those in which nothing goes unserved, generator rating 15 kW and generator started at 30 % costs least over the years of the study: $150,000, $6,000 (4 %) less than the site as filed. ' +
        'It burns 2,800 L instead of 2,600 L, and its generator runs 560 h instead of 520 h with 280 starts instead of 260. ' +
        'No other variant comes within 1 % of it.',
    );
  });

  it('a flat best, with the range of each number', () => {
    const sweep = madeSweep([KW, SOC]);
    for (const { at, outcome } of sweep.cells)
      if (at[1] >= 1 && outcome) outcome.lifeCycleCost = 150_000 + at[0];
    expect(words([KW, SOC], { cells: sweep.cells, best: bestCell(sweep.cells, 0) })).toContain(
      '7 other variants cost at most 1 % more, with generator rating 10 to 25 kW and generator started at 30 to 40 %.',
    );
  });

  it('that the best lies at the end of what was tried, but not of a choice or of two values', () => {
    const edge = (axes: (typeof KW)[]) => {
      const sweep = madeSweep(axes);
      for (const cell of sweep.cells)
        cell.outcome = madeOutcome(150_000 - 900 * (cell.at[0] + cell.at[1]), 100);
      return words(axes, { cells: sweep.cells, best: bestCell(sweep.cells, 0) });
    };
    expect(edge([KW, SOC])).toContain(
      'It lies at the end of what was tried for generator rating and generator started at',
    );
    expect(edge([CHOICE, SOC])).toContain('It lies at the end of what was tried for generator started at:');
    expect(edge([CHOICE, MODULES])).not.toContain('at the end of');
    expect(words([KW, SOC])).not.toContain('at the end of');
  });

  it('that sizes without a price are not paid for, and rules have none', () => {
    expect(words([KW, SOC])).toContain(
      'No price of one more was stated for generator rating (a price in the question, or',
    );
    expect(words([KW, MODULES], { prices: [0, 1600] })).toContain('stated for generator rating (');
    expect(words([SOC])).not.toContain('price');
  });

  it('what would be cheaper but serves less, and where nothing serves enough', () => {
    const sweep = madeSweep([KW, SOC]);
    sweep.cells[0].outcome = madeOutcome(140_000, 1000, 30);
    expect(words([KW, SOC], { cells: sweep.cells })).toContain(
      'Generator rating 10 kW and generator started at 20 % would cost less, $140,000, but leaves 30 kWh unserved.',
    );
    const none = madeSweep([KW, SOC]);
    for (const cell of none.cells) cell.outcome = madeOutcome(150_000, 1000, 5);
    const said = words([KW, SOC], { cells: none.cells, best: null, mostUnservedKwh: 2 });
    expect(said).toContain('There is no variant in which no more than 2.0 kWh go unserved.');
    expect(said).not.toContain('would cost less');
  });

  it('variants without figures, samples, choices by name, and a best that is the site as filed', () => {
    const sweep = madeSweep([CHOICE, MODULES]);
    sweep.cells[3] = { at: [1, 1], outcome: null, problems: ['x'] };
    const filed = madeOutcome(154_000, 3000);
    sweep.cells[1].outcome = filed;
    const said = words([CHOICE, MODULES], { cells: sweep.cells, gridSize: 40, filed, best: 1 });
    expect(said).toContain(
      '4 variants of the 40 of the grid were run: “as filed” and “24 modules” and battery modules 6 to 12.',
    );
    expect(said).toContain('1 of them contradicts itself and has no figures.');
    expect(said).toContain(
      '“as filed” and battery modules 12 costs least over the years of the study: $154,000, as much as the site as filed.',
    );
  });
});

describe('terminal', () => {
  it('shows the best beside the site as filed and a map of cost with its signs', () => {
    const kw = { ...KW, values: [10, 15, 20], filed: 20 };
    const soc = { ...SOC, filed: 0.4 };
    const sweep = madeSweep([kw, soc]);
    sweep.cells[0].outcome = madeOutcome(140_000, 1000, 30);
    sweep.cells[1] = { at: [0, 1], outcome: null, problems: ['x'] };
    const text = terminalSweep(sweep, 100, false);
    expect(text).toContain('Life-cycle cost, $                 156,000    150,000');
    const map = text.split('\n').slice(-6);
    expect(map).toEqual([
      'Life-cycle cost, $: generator rating, kW across, generator started at, % up.',
      '[ ] as filed, * cheapest that serves enough, ! leaves more unserved',
      '40  156,000   152,000  [156,000]',
      '30        –  *150,000   154,000',
      '20 !140,000   152,000   156,000',
      '         10        15        20',
    ]);
  });

  it('leaves the map out where it would not fit', () => {
    const wide = { ...KW, values: Array.from({ length: 30 }, (_, i) => i + 1) };
    expect(terminalSweep(madeSweep([wide, SOC]), 80, false)).not.toContain('across');
    expect(terminalSweep(madeSweep([KW]), 80, false)).not.toContain('across');
    const longest = Math.max(
      ...terminalSweep(madeSweep([KW, SOC]), 80, false)
        .split('\n')
        .map((line) => line.length),
    );
    expect(longest).toBeLessThanOrEqual(80);
  });
});
