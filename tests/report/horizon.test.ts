/** Words, tables and page of a horizon. */
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { offPercent, offWords } from '../../src/report/horizon/figures.ts';
import { horizonPage } from '../../src/report/horizon/page.ts';
import { horizonSentences } from '../../src/report/horizon/sentences.ts';
import { terminalComparison, terminalYears } from '../../src/report/horizon/terminal.ts';
import { alternative, battery, studyOf, year } from './horizon-fixture.ts';

function wordsOf(...parts: Parameters<typeof alternative>): string {
  const one = alternative(...parts);
  return horizonSentences(studyOf(one), one).join(' ');
}

describe('how far the first year repeated is off', () => {
  it.each([
    [90, 100, '10 % too little', '−10 %'],
    [103.4, 100, '3.4 % too much', '+3.4 %'],
    [100.4, 100, 'within 0.5 %', '+0.4 %'],
    [0, 5, 'none of it', '−100 %'],
    [5, 0, 'too much: there is none', '–'],
  ])('%f against %f is %s', (shortcut, simulated, words, percent) => {
    expect(offWords(shortcut, simulated)).toBe(words);
    expect(offPercent(shortcut, simulated)).toBe(percent);
  });

  it('is not told of what there is none of', () => {
    expect(offWords(0, 0)).toBeNull();
  });
});

describe('what an owner is told', () => {
  it('fuel, battery, supply, money, and the first year repeated', () => {
    expect(wordsOf()).toBe(
      'Over 3 years the generator burns 3,250 L in 960 h: 1,000 L in the first year, and at most 1,200 L, in year 2. ' +
        'The battery fades; it is replaced in year 2 for $8,000, and the last one has 90 % of its capacity left at the end. ' +
        'No load goes unserved in any year. ' +
        'Building and running it for 3 years costs $60,000 in today’s money, at 5 % a year real discount. ' +
        'The first year repeated 3 times would say 3,000 L (7.7 % too little) and $57,000 (5.0 % too little).',
    );
  });

  it('load that goes unserved, and that the first year shows none of it', () => {
    const years = [year(1), year(2, { unservedKwh: 4 }), year(3, { unservedKwh: 30 })];
    const sums = { ...alternative().sums, unservedKwh: 34 };
    const words = wordsOf({ years, sums });
    expect(words).toContain(
      '34 kWh go unserved: none of it in the first year, and at most 30 kWh, in year 3.',
    );
    expect(words).toContain('would say 3,000 L (7.7 % too little), nothing unserved and $57,000');
  });

  it('a battery that is replaced several times, never, or does not fade', () => {
    const twice = [
      year(1),
      year(2, { battery: battery(1, 0.9, [0.2, 0.7]) }),
      year(3, { battery: battery(1, 0.9, [0.5]) }),
    ];
    expect(wordsOf({ years: twice })).toContain('it is replaced in years 2 and 3 for $8,000 each');
    expect(wordsOf({ years: [year(1), year(2), year(3)] })).toContain(
      'The battery is never replaced and has 90 % of its capacity left at the end.',
    );
    const { has } = alternative();
    expect(wordsOf({ has: { ...has, wear: false } })).toContain(
      'The site file states no wear of the battery',
    );
    expect(wordsOf({ has: { ...has, battery: false }, years: [year(1, { battery: null })] })).not.toContain(
      'attery',
    );
  });

  it('against the site as filed, and when the first year would turn the verdict', () => {
    const filed = alternative();
    const other = alternative({
      name: 'more modules',
      sums: { ...filed.sums, lifeCycleCost: 55_000 },
      shortcut: { ...filed.shortcut, lifeCycleCost: 58_000 },
    });
    const words = (one = other) => horizonSentences(studyOf(filed, one), one).join(' ');
    expect(words()).toContain(
      'Over the years that is $5,000 less than “as filed”; the first year repeated would say $1,000 more, the other way round.',
    );
    const same = { ...other, shortcut: { ...other.shortcut, lifeCycleCost: 56_000 } };
    expect(words(same)).toMatch(/would say \$1,000 less\.$/);
  });

  it('a site without a generator or prices', () => {
    const { has } = alternative();
    const words = wordsOf({ has: { ...has, generator: false, money: false }, bankPrice: 0 });
    expect(words).not.toMatch(/generator|\$|money/);
  });
});

describe('in the terminal', () => {
  it('every year has its line, in columns that are as wide as they need to be', () => {
    const one = alternative();
    const lines = terminalYears(studyOf(one), one, 80, false).split('\n');
    expect(lines[0]).toBe('as filed');
    expect(lines[1].trim().split(/ {2,}/)).toEqual([
      'Year',
      'Fuel',
      'Runs',
      'Starts',
      'Unserved',
      'Capacity',
      'Lowest charge',
      'Services',
      'New battery',
      'Paid',
    ]);
    expect(lines[4].trim().split(/ {2,}/)).toEqual([
      '2',
      '1,200',
      '350',
      '100',
      '0',
      '90 to 97',
      '20',
      '2',
      '1',
      '11,000',
    ]);
    expect(lines.slice(6).every((line) => line.length <= 80)).toBe(true);
  });

  it('shows growing load and the weather of each year where they differ', () => {
    const years = [year(1, { weather: 'a' }), year(2, { weather: 'b', loadKwh: 10_200 })];
    const one = alternative({ years, loadGrowth: 0.02 });
    const lines = terminalYears(studyOf(one), one, 80, false).split('\n');
    expect(lines[1]).toMatch(/Year {2}Weather +Load/);
    expect(lines[4]).toMatch(/2 {2}b +10,200/);
  });

  it('puts the alternatives side by side', () => {
    const text = terminalComparison(studyOf(alternative(), alternative({ name: 'more modules' })), 80, false);
    expect(text).toMatch(
      /Fuel\n {2}as filed +3,250 L {2}first year repeated: 7\.7 % too little\n {2}more modules +3,250 L/,
    );
    expect(text).toMatch(/Batteries bought later\n {2}as filed +1\n/);
  });
});

describe('the page of a horizon', () => {
  const study = studyOf(alternative(), alternative({ name: 'more modules' }));
  const text = horizonPage(study);
  const plain = (page: string) => page.replaceAll('\u00a0', ' ');
  const { document } = parseHTML(text);

  it('has a section, drawings and a line a year for each alternative', () => {
    for (const id of ['answer', 'compare', 'care', 'alternative-1', 'alternative-2', 'basis'])
      expect(document.getElementById(id), id).not.toBeNull();
    const section = document.getElementById('alternative-1')!;
    expect(section.querySelectorAll('tbody tr')).toHaveLength(3);
    const labels = [...section.querySelectorAll('svg[role=img]')].map((svg) =>
      svg.getAttribute('aria-label'),
    );
    expect(labels).toEqual([
      'battery: replaced in year 2; the last one ends at 90 %',
      'fuel: 1,000 L in the first year, at most 1,200 L, in year 2',
    ]);
  });

  it('draws load that is not supplied only where there is some', () => {
    const years = [year(1), year(2, { unservedKwh: 4 })];
    const page = horizonPage(
      studyOf(alternative({ years, sums: { ...alternative().sums, unservedKwh: 4 } })),
    );
    expect(plain(page)).toContain('Load not supplied: 0 kWh in the first year, at most 4.0 kWh, in year 2');
    expect(text).not.toContain('Load not supplied');
  });

  it('needs nothing from elsewhere, escapes names, and is the same each time', () => {
    expect(text).not.toMatch(/(?:src|href)=["']?https?:/);
    expect(text).not.toContain('<hut>');
    expect(horizonPage(study)).toBe(text);
  });

  it('says what is outstanding where it was stopped', () => {
    const stopped = { ...study, outstanding: ['bigger roof', 'no heater'] };
    expect(horizonPage(stopped)).toContain(
      'Not simulated yet when this page was written: “bigger roof” and “no heater”.',
    );
    expect(text).not.toContain('Not simulated yet');
  });
});
