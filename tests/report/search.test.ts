/** Words, tables and pages of the searches for settings and sizes. */
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { changesYaml } from '../../src/report/changes-yaml.ts';
import { sizePage } from '../../src/report/size/page.ts';
import { listedSizes, markWords, sizeEffort, sizeSentences } from '../../src/report/size/sentences.ts';
import { terminalSize } from '../../src/report/size/terminal.ts';
import { boundWords, flatWords } from '../../src/report/tune/flat-words.ts';
import { tunePage } from '../../src/report/tune/page.ts';
import { effortSentences, tuneSentences } from '../../src/report/tune/sentences.ts';
import { terminalTune } from '../../src/report/tune/terminal.ts';
import { parseSite } from '../../src/scenarios/site-document.ts';
import { outcome, peakSetting, sizeResult, startSetting, tuneResult } from './search-fixture.ts';

describe('settings in words', () => {
  it('what to set, what it gains, other years, how flat it is, and the limits', () => {
    expect(tuneSentences(tuneResult()).join(' ')).toBe(
      'Start at 20 % instead of 30 %. ' +
        'A year has 200 L less fuel, 10 h more running and 1 more start. ' +
        'Over 20 years that saves $6,000 in today’s money, 20.0 % of all that is paid after the start. ' +
        'In years that it was not chosen for: with a tenth more load it saves $5,000, but has more than 4 starts in a day; with a tenth less sun it costs $500. ' +
        'One setting at a time, the others as chosen, costs within 1 % and keeps the limits: start at 20 % to 22 %. ' +
        'It does not matter what these are: peak start, per phase. ' +
        'Limits: no load unserved (what it is today), at most 4 starts in a day (from the design checks) and at most 500 h of running a year (the class of the rating).',
    );
  });

  it('today’s settings, where nothing is better, without a gain', () => {
    const same = startSetting({ chosen: 3, flat: { from: 3, to: 3 } });
    const words = tuneSentences(tuneResult({ settings: [same], chosen: outcome() })).join(' ');
    expect(words).toMatch(
      /^Today’s settings cost least: over 20 years none of the sets tried is cheaper\. One/,
    );
    expect(words).not.toMatch(/saves|instead/);
  });

  it('limits that today’s settings break, and that nothing keeps', () => {
    const words = tuneSentences(
      tuneResult({ brokenToday: ['unservedKwh'], brokenChosen: ['runHours'] }),
    ).join(' ');
    expect(words).toContain('Today’s settings do not keep them: load unserved.');
    expect(words).toContain(
      'No set was found that keeps them all; the one shown is nearest, with more than 500 h of running a year.',
    );
  });

  it('what ends a stretch: a limit is named, cost is not', () => {
    const result = tuneResult();
    expect(boundWords(startSetting(), result)).toBe('above: more than 4 starts in a day');
    expect(boundWords(peakSetting(), result)).toBe('');
    expect(flatWords(startSetting({ flat: { from: 0, to: 0 } }))).toBe('only 20 %');
    const upper = { ...peakSetting(), flat: { from: 1, to: 2 } };
    expect(flatWords(upper)).toBe('from 6 kW up');
  });

  it('a season is named with its setting', () => {
    const season = { name: 'winter', months: [11, 12, 1] };
    expect(tuneSentences(tuneResult({ settings: [startSetting({ season })] }))[0]).toBe(
      'Start at, winter 20 % instead of 30 %.',
    );
  });

  it('how it was searched: coarse steps used or not, and runs used up', () => {
    const trials = [
      { stepMin: 60, variants: 16, rank: 0.4, isUsed: false },
      { stepMin: 30, variants: 16, rank: 0.95, isUsed: true },
    ];
    const effort = { fineRuns: 700, coarseRuns: 1700, trials, points: 3_200_000, ranOut: true };
    const words = effortSentences(tuneResult({ effort, calendarEntries: 2 })).join(' ');
    expect(words).toContain('700 of 3 million sets');
    expect(words).toContain(
      '60 min ranks 16 of them unlike 5 min (rank correlation 0.40), and was not used.',
    );
    expect(words).toContain('30 min ranks 16 of them as 5 min (rank correlation 0.95), and chose which');
    expect(words).toContain('its runs were used up');
    expect(words).toContain('has 2 entries, which were left as they are');
  });
});

describe('sizes in words', () => {
  it('the own choice, the cheapest, what the same money buys, and the limits', () => {
    expect(sizeSentences(sizeResult()).join(' ')).toBe(
      'Your choice (20 kW generator, 12 modules, 24 kWp, 8 kVA inverters) costs $50,000 at the start and then $2,400 a year, in all $80,000 over 20 years in today’s money; it burns 1,000 L a year. ' +
        'Cheapest over 20 years is 18 modules instead of 12 modules: $10,000 more at the start, 300 L less fuel a year, and $4,000 (5.0 %) less in all. ' +
        'No more at the start, and $100 less a year: 10 kW generator instead of 20 kW generator. ' +
        'Limits: no load unserved (what it is today), at most 4 starts in a day (from the design checks) and at most 500 h of running a year (the class of the rating).',
    );
  });

  it('a choice that is the cheapest, and limits that nothing keeps', () => {
    const { own } = sizeResult();
    const best = sizeSentences(sizeResult({ cheapest: own, frontier: [own] })).join(' ');
    expect(best).toContain('No choice that keeps the limits costs less over 20 years.');
    expect(best).toContain('No choice for as much money or less costs less a year.');
    const none = sizeSentences(sizeResult({ cheapest: null, frontier: [] })).join(' ');
    expect(none).toContain('No choice of sizes keeps the limits.');
  });

  it('how it was searched, with the coarse step', () => {
    const trials = [{ stepMin: 60, variants: 24, rank: 0.97, isUsed: true }];
    const effort = { choices: 1920, fineRuns: 300, coarseRuns: 1944, trials };
    const words = sizeEffort(sizeResult({ effort })).join(' ');
    expect(words).toContain('There are 1,920 choices of sizes; 300 were simulated in steps of 5 min');
    expect(words).toContain('rank correlation 0.97): all were run at it');
    expect(sizeEffort(sizeResult()).join(' ')).toContain('All were run in steps of 5 min.');
  });

  it('a few choices are all listed, with what is against them', () => {
    const { own, frontier, ...rest } = sizeResult();
    const noisy = { ...frontier[2], changes: { other: 1 }, broken: ['startsADay' as const] };
    const result = { ...rest, own, frontier, all: [frontier[0], own, frontier[1], noisy] };
    expect(result.all.map((one) => markWords(one, result))).toEqual([
      '',
      'yours, another is better',
      'cheapest',
      'more than 4 starts in a day',
    ]);
    expect(terminalSize(result, 100, false)).toMatch(
      /All choices\n.*\n.*45,000.*\n.*50,000.*yours, another is better/,
    );
  });

  it('a long frontier is listed with its ends and the cheapest', () => {
    const { frontier } = sizeResult();
    const long = Array.from({ length: 40 }, () => ({ ...frontier[0] }));
    const listed = listedSizes(long, long[17]);
    expect(listed.length).toBeLessThan(15);
    for (const one of [long[0], long[17], long[39]]) expect(listed).toContain(one);
  });
});

describe('in the terminal', () => {
  it('settings today and chosen, figures, and the alternative to copy', () => {
    const lines = terminalTune(tuneResult(), 100, false).split('\n');
    const cells = (start: string) => lines.find((line) => line.startsWith(start))?.split(/ {2,}/);
    expect(cells('Start at')).toEqual([
      ...['Start at', '30 %', '20 %', '20 % to 22 %', 'above: more than 4 starts in a day'],
    ]);
    expect(cells('Fuel a year')).toEqual(['Fuel a year, L', '1,000', '800']);
    expect(cells('Paid after the start')).toEqual(['Paid after the start, 20 years, $', '30,000', '24,000']);
    expect(lines).toContain('      control.charge.startSoc: 0.2');
  });

  it('the frontier by capital, with marks', () => {
    const text = terminalSize(sizeResult(), 100, false);
    expect(text).toMatch(/20 kW · 18 mod\. · 24 kWp · 8 kVA +60,000 +1,300 +76,000 +700 +cheapest/);
    expect(text.indexOf('45,000')).toBeLessThan(text.indexOf('60,000  '));
  });
});

describe('an alternative to copy', () => {
  it('is read back as the same changes, without the trace of rounding', () => {
    const changes = { 'a.b': 0.1 + 0.2, 'c.d': [{ kW: 1, name: 'x: y' }], 'e.f': null };
    const text = `alternatives:\n${changesYaml('of: mine', changes)}\n`;
    const { document } = parseSite(text, 'x.yaml');
    expect(document?.value).toEqual({
      alternatives: [{ name: 'of: mine', changes: { ...changes, 'a.b': 0.3 } }],
    });
  });
});

describe('the pages', () => {
  it.each([
    ['settings', () => tunePage(tuneResult())],
    ['sizes', () => sizePage(sizeResult())],
  ])('of %s hold their drawings, escape names, and name nothing that is not there', (_, make) => {
    const page = make();
    expect(make()).toBe(page);
    expect(page).toContain('Invented &#60;hut&#62;');
    expect(page).not.toMatch(/NaN|undefined|Infinity|\[object/);
    expect(page).not.toMatch(/(?:src|href)=["']?https?:/);
    const { document } = parseHTML(page);
    expect(document.querySelectorAll('svg[role=img]').length).toBeGreaterThan(0);
    for (const drawing of document.querySelectorAll('svg[role=img]'))
      expect(drawing.getAttribute('aria-label')?.length).toBeGreaterThan(10);
    for (const link of document.querySelectorAll('nav a'))
      expect(document.querySelector(String(link.getAttribute('href')))).not.toBeNull();
    expect(page).toContain('This is a design aid, not a wiring design.');
  });

  it('draws only settings that matter, a dot a value that fits', () => {
    const { document } = parseHTML(tunePage(tuneResult()));
    const drawings = [...document.querySelectorAll('#flat svg[role=img]')];
    expect(drawings).toHaveLength(1);
    // three of the four values are within the drawing's scale, and the chosen one has its diamond
    const dots = [...drawings[0].querySelectorAll('circle')];
    expect(dots).toHaveLength(3);
    expect(dots.map((dot) => dot.getAttribute('fill'))).toEqual(['var(--ink)', 'var(--ink)', 'var(--paper)']);
  });

  it('draws the whole frontier, the own choice as a ring', () => {
    const { document } = parseHTML(sizePage(sizeResult()));
    const [drawing] = [...document.querySelectorAll('#money svg[role=img]')];
    const circles = [...drawing.querySelectorAll('circle')];
    // the last of the four is off the drawing, which ends some way beyond the cheapest
    expect(circles.filter((circle) => circle.getAttribute('r') === '3.2')).toHaveLength(3);
    expect(circles.filter((circle) => circle.getAttribute('r') === '7')).toHaveLength(1);
    expect(drawing.textContent).toContain('your choice');
    expect(drawing.textContent).toContain('same cost over 20 years');
  });

  it('says where prices are from, and that they are invented', () => {
    const page = sizePage(sizeResult());
    expect(page).toContain('whose prices are invented');
    expect(page).toContain('The site file has prices of its own for battery modules.');
    expect(page).toMatch(/10\skW, three phases, 10,200/);
  });
});
