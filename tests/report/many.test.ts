/** Words, tables and pages of break-even, sensitivity and stress. */
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { breakEvenPage } from '../../src/report/break-even/page.ts';
import { valueSentence, verdict } from '../../src/report/break-even/sentences.ts';
import { valueWords } from '../../src/report/break-even/words.ts';
import { sensitivityPage } from '../../src/report/sensitivity/page.ts';
import { sensitivitySentences } from '../../src/report/sensitivity/sentences.ts';
import { uncertainName, uncertainValue } from '../../src/report/sensitivity/words.ts';
import { shareText } from '../../src/report/stress/figures.ts';
import { stressPage } from '../../src/report/stress/page.ts';
import { stressSentences, termSentences } from '../../src/report/stress/sentences.ts';
import { terminalStress } from '../../src/report/stress/terminal.ts';
import { replayWorst } from '../../src/scenarios/many/stress-replay.ts';
import { planStress, runStress } from '../../src/scenarios/many/stress-study.ts';
import { DAIRY, finished, requestOf } from '../scenarios/many/small-dairy.ts';
import {
  breakEvenOf,
  FACTS,
  fuelBreakEven,
  row,
  sensitivityOf,
  stressOf,
  stressRun,
  stressYear,
} from './many-fixture.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('a break-even in words', () => {
  it('tells who costs less as filed, and when the dearer one is paid back', () => {
    expect(verdict(breakEvenOf(), '$').join(' ')).toBe(
      'Over 10 years “more modules” costs $1,660 in today’s money, $140 less than “as filed”. “more modules” costs $500 more to build, which is back after 4.3 years, after 5.0 years at 5 % discount a year.',
    );
    const payback = { dearer: 0 as const, extraCapital: 200, simpleYears: 9, discountedYears: null };
    expect(verdict(breakEvenOf({ payback }), '$')[1]).toBe(
      '“as filed” costs $200 more to build, which is back after 9.0 years, but not within the study at 5 % discount a year.',
    );
    expect(verdict(breakEvenOf({ payback: { ...payback, simpleYears: null } }), '$')[1]).toMatch(
      /not back within the study\.$/,
    );
    expect(verdict(breakEvenOf({ payback: null }), '$')).toHaveLength(1);
  });

  it('does not hide what the costs leave out', () => {
    const { sides } = breakEvenOf();
    const dark = breakEvenOf({ sides: [sides[0], { ...sides[1], unservedKwh: 12 }] });
    expect(verdict(dark, '$')[2]).toBe(
      'Not in these costs: “as filed” leaves 0 kWh a year unserved, “more modules” 12 kWh.',
    );
    expect(verdict({ ...dark, unservedPriced: true }, '$')[2]).toMatch(
      /^In these costs, at the price of the site file: “as filed”/,
    );
  });

  it('tells where the two change places, once, several times, never', () => {
    const words = (parts = {}) => valueSentence(fuelBreakEven(parts), breakEvenOf(), '$');
    expect(words()).toBe(
      'Fuel price: “more modules” costs less above $1.25/L, “as filed” below it (the site file has $1.60/L).',
    );
    const [crossing] = fuelBreakEven().crossings;
    const second = { ...crossing, value: 3, cheaperBelow: 1 as const };
    expect(words({ crossings: [crossing, second] })).toMatch(
      /change places 2 times, at \$1\.25\/L and \$3\.00\/L; “as filed” costs less below the first/,
    );
    expect(words({ crossings: [] })).toMatch(
      /no break-even; “as filed” costs less from \$0\/L to \$4\.00\/L, least so at \$1\.00\/L, by \$100/,
    );
    expect(words({ crossings: [], same: true })).toMatch(/both cost the same from/);
    expect(words({ crossings: [{ ...crossing, kind: 'jump', costs: [1600, 1640] }] })).toMatch(
      /in a jump and differ by \$40/,
    );
    expect(
      words({ key: 'studyYears', filed: 10, crossings: [{ ...crossing, kind: 'whole years', value: 7 }] }),
    ).toBe(
      'Length of the study: “more modules” costs less from 7 years on, “as filed” in a shorter study (the site file has 10 years).',
    );
  });

  it.each([
    ['loadGrowth', 0.02, '2 % a year'],
    ['loadGrowth', -0.0297, '−2.97 % a year'],
    ['discountRate', 0.055, '5.5 % a year'],
    ['batteryPrice', 3531.4, '$3,531 a module'],
    ['studyYears', 1, '1 year'],
  ] as const)('%s of %f is %s', (key, value, words) => {
    expect(valueWords(key, value, '$')).toBe(words);
  });

  it('and on a page, with a drawing for each value', () => {
    const page = breakEvenPage(FACTS, breakEvenOf());
    const { document } = parseHTML(page);
    const [svg, ...others] = [...document.querySelectorAll('figure svg[role=img]')];
    expect(others).toEqual([]);
    expect(plain(svg.getAttribute('aria-label') ?? '')).toBe(
      'fuel price: “more modules” costs less above $1.25/L, “as filed” below it',
    );
    expect(svg.textContent).toContain('$1.25/L');
    expect(svg.querySelectorAll('circle')).toHaveLength(1);
    expect(page).not.toContain('<hut>');
    expect(page).not.toMatch(/(?:src|href)=["']?https?:/);
    expect(breakEvenPage(FACTS, breakEvenOf())).toBe(page);
    for (const link of document.querySelectorAll('nav a'))
      expect(document.querySelector(link.getAttribute('href')!)).not.toBeNull();
  });
});

describe('a sensitivity in words', () => {
  const fuel = row('money.fuelPerL', 1.2, 3.2, [[900], [1500]]);
  const rate = row('money.discountRate', 0.02, 0.08, [[1030], [980]]);
  const none = row('money.overhaulCost', 100, 200, [[1000], [1000]]);

  it('tells what moves the cost most, and what hardly', () => {
    expect(sensitivitySentences(sensitivityOf(['as filed'], [1000], [fuel, rate, none]), '$').join(' ')).toBe(
      'Over 10 years “as filed” costs $1,000 in today’s money. Of the uncertain values fuel price moves it most: $900 at $1.20/L, $1,500 at $3.20/L. Real discount rate moves it by less than a tenth of that. Price of an overhaul does not move it.',
    );
  });

  it('tells what turns a choice', () => {
    const two = row('money.fuelPerL', 1.2, 3.2, [
      [900, 950],
      [1500, 1300],
    ]);
    const words = (filed: number[], rows = [two]) =>
      sensitivitySentences(sensitivityOf(['as filed', 'more'], filed, rows), '$').join(' ');
    expect(words([1000, 980])).toContain(
      '“more” costs $20 less than “as filed”. Of the uncertain values fuel price moves that difference most: $50 more at $1.20/L, $200 less at $3.20/L. The choice turns with fuel price at $1.20/L.',
    );
    const never = row('money.fuelPerL', 1.2, 3.2, [
      [900, 850],
      [1500, 1300],
    ]);
    expect(words([1000, 980], [never])).toContain(
      'No single one of them, within its range, turns the choice.',
    );
  });

  it.each([
    ['load', 0.85, 'all load', '85 %'],
    ['money.discountRate', 0.055, 'real discount rate', '5.5 %'],
    ['money.batteryPerModule', 960, 'price of a battery module', '$960'],
    ['inverter.idleW', 21, 'inverter: idle draw per phase', '21 W'],
    ['horizon.loadGrowth', -0.01, 'growth of the load', '−1 %'],
  ])('%s of %f is called as it should be', (path, value, name, words) => {
    expect(uncertainName({ path, name: null })).toBe(name);
    expect(uncertainName({ path, name: 'mine' })).toBe('mine');
    expect(uncertainValue({ path }, value, '$')).toBe(words);
  });

  it('and on a page: a bar for each value that moves the cost, a ring and a dot at its ends', () => {
    const page = sensitivityPage(FACTS, sensitivityOf(['as filed'], [1000], [fuel, rate, none]), false);
    const { document } = parseHTML(page);
    const [wide] = [...document.querySelectorAll('.wide-only svg')];
    expect(wide.querySelectorAll('circle')).toHaveLength(4);
    expect(wide.textContent).toMatch(/Fuel price/);
    expect(wide.textContent).not.toMatch(/overhaul/);
    expect(document.querySelectorAll('#table-1 tbody tr')).toHaveLength(7);
    expect(plain(page)).toContain('The site file states no ranges');
    expect(plain(sensitivityPage(FACTS, sensitivityOf(['as filed'], [1000], [fuel]), true))).toContain(
      'that the site file states',
    );
  });
});

describe('a stress in words', () => {
  const first = [
    stressRun(1, [stressYear(100), stressYear(120)], 5000),
    stressRun(2, [stressYear(110), stressYear(300, 24, true)], 6000),
  ];
  const study = stressOf([
    ['as filed', first],
    [
      'more modules',
      [
        stressRun(1, [stressYear(50), stressYear(60)], 4900),
        stressRun(2, [stressYear(50), stressYear(60)], 6050),
      ],
    ],
  ]);

  it('tells shares, bands, the worst year, and what a horizon would have said', () => {
    expect(stressSentences(study, study.alternatives[0]).join(' ')).toBe(
      '3 of 4 years (75 %) pass without any load unserved, 1 run as a whole; the worst leaves 24 kWh, all of it because the fuel tank is dry. ' +
        'It burns 115 L in a middling year, more than 246 L in one year of ten, less than 103 L in one of ten, and at most 300 L; with nothing drawn it is 90 L a year. ' +
        'The life-cycle cost is $5,500 in a middling run, with eight of ten runs between $5,100 and $5,900; with nothing drawn it is $4,000. ' +
        'The worst year is year 2 of run 2, with 300 L and 24 kWh unserved in 12 h (load times 1.10, a battery at 90 % of its capacity, weather year 4 and a delivery late or missed).',
    );
  });

  it('compares run with run', () => {
    const words = stressSentences(study, study.alternatives[1]).join(' ');
    expect(words).toContain('In none of 4 years does any load go unserved.');
    expect(words).toContain('It costs less than “as filed” in 1 of 2 runs, from $50 more to $100 less.');
  });

  it('says what was drawn', () => {
    const words = termSentences(study.terms).join(' ');
    expect(words).toContain('2 runs of 2 years each, seed ‘stress’');
    expect(words).toContain('Load: times 1 to 1.15, drawn evenly for each run, and 2 % more each year.');
    expect(words).toContain(
      'Start attempts that fail: 5 %. Fuel: in 10 % of the years deliveries on order come 14 days late.',
    );
    expect(words).not.toContain('Fuel price');
    expect(termSentences({ ...study.terms, fuelPrice: [2, 2] }).join(' ')).toContain('Fuel price: times 2.');
  });

  it.each([
    [500, 500, '100 %'],
    [499, 500, '99.8 %'],
    [9999, 10_000, '99.9 %'],
    [250, 500, '50 %'],
    [0, 500, '0.0 %'],
  ])('%d of %d is %s', (part, of, text) => expect(shareText(part, of)).toBe(text === '0.0 %' ? '0 %' : text));

  it('in the terminal stands side by side', () => {
    const text = terminalStress(study, 80, false);
    expect(text).toMatch(
      /Fuel a year, L\n {2}as filed {6}103 \/ 115 \/ 246\n {2}more modules {2}50 \/ 55 \/ 60/,
    );
    expect(text).toMatch(/Years without any load unserved\n {2}as filed {6}75 %/);
    expect(text.split('\n').every((line) => line.length <= 80)).toBe(true);
  });

  it('on a page has bands by month and by year, and the worst year drawn', () => {
    const { plan } = planStress(
      requestOf(`${DAIRY}stress: { runs: 1, weather: repeat, lateDelivery: { chance: 1, days: 60 } }\n`, {
        only: 'as filed',
      }),
    );
    const made = finished(runStress(plan!, () => null));
    const worst = replayWorst(plan!, 0);
    const page = stressPage(made, [worst]);
    const { document } = parseHTML(page);
    const labels = [...document.querySelectorAll('#alternative-1 svg[role=img]')].map((svg) =>
      svg.getAttribute('aria-label'),
    );
    expect(labels.slice(0, 2)).toEqual([
      expect.stringMatching(/^fuel by month: highest in/),
      expect.stringMatching(/^fuel by year of the study: highest in year/),
    ]);
    expect(labels.some((label) => label?.startsWith('the dark week of the worst year'))).toBe(true);
    expect(page).toContain('Hyndman and Fan');
    for (const link of document.querySelectorAll('nav a'))
      expect(document.querySelector(link.getAttribute('href')!)).not.toBeNull();
  });
});
