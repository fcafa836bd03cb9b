/** Many sites: the three lists and their order, worked by hand; two hundred stay readable and small. */
import fc from 'fast-check';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { sitesPage } from '../../../src/report/sites/page.ts';
import { rankSites } from '../../../src/report/sites/rank.ts';
import { sitesTerminal } from '../../../src/report/sites/terminal.ts';
import { sitesSentences, unreadReasons, whyLine } from '../../../src/report/sites/words.ts';
import type { SiteRank } from '../../../src/scenarios/visit/site-rank.ts';
import type { Visit } from '../../../src/scenarios/visit/visit.ts';
import { richVisit } from '../visit/fixture-visit.ts';
import { randomVisit } from '../visit/random-visit.ts';
import { madeSite, manySites, unreadSite } from './made-ranks.ts';

const { faults, made } = richVisit();

// 354 days compared / 30.44 = 11.6294 months; promised 1412 L = 121 L a month
const SITES: SiteRank[] = [
  madeSite('Fine', { asDesigned: true }),
  madeSite('Thirsty', { usedL: 1761 }), // 151.4 L a month: 30 more, 24.7 %
  madeSite('Unlike', {}),
  unreadSite('Broken', ['log.csv:3:1: time: found x; expected a date']),
  madeSite('Thirstier', { usedL: 2109 }), // 181.4 L a month: 60 more, 49.4 %
  madeSite('Nearly dry', { daysLeft: 9.4, asDesigned: true }),
  madeSite('Half full', { daysLeft: 22, asDesigned: true }),
  madeSite('Old', { usableKwh: 48 }), // 46.5 to 49.5 of 60: 80 %
  madeSite('Perhaps old', { usableKwh: 58.7, asDesigned: true }), // up to 60.2: not below the named
  madeSite('Faulty', { faults, asDesigned: true }),
  madeSite('Thrifty', { usedL: 1000 }),
];

const names = (list: { site: { site: string } }[]) => list.map(({ site }) => site.site);
const pageOf = (ranks: readonly SiteRank[]) =>
  sitesPage(ranks, { name: 'customers', made }).replaceAll('\u00a0', ' ');

describe('a folder of sites', () => {
  const ranking = rankSites(SITES);

  it('has those that burn more than promised, most litres first', () => {
    expect(names(ranking.burning)).toEqual(['Thirstier', 'Thirsty']);
  });

  it('has those whose tank is soon empty, soonest first', () => {
    expect(names(ranking.drying)).toEqual(['Nearly dry', 'Half full']);
  });

  it('has the batteries that hold less than named, where all of the interval is below', () => {
    expect(names(ranking.fading)).toEqual(['Old']);
  });

  it('has all of them worst first, those that were not read apart', () => {
    expect(ranking.visited.map(({ site }) => site)).toEqual([
      'Nearly dry',
      ...['Thirstier', 'Thirsty', 'Faulty', 'Old'],
      ...['Unlike', 'Thrifty'],
      ...['Fine', 'Half full', 'Perhaps old'],
    ]);
    expect(ranking.unread.map(({ site }) => site)).toEqual(['Broken']);
  });

  it.each([
    ['Nearly dry', 'The tank lasts 9.4 days at 8.0 L a day.'],
    // 2109 / 11.6294 = 181.35, 1412 / 11.6294 = 121.42; as written: 181 − 121
    ['Thirstier', '60 L a month above the promise (+49 %), mostly more load than planned (+11 %).'],
    ['Old', 'The battery holds 80 % of the named.'],
    [
      'Faulty',
      'Likely fault: an array gives less from one day on, as if a string of it gave nothing (barn) and 1 other.',
    ],
    ['Thrifty', 'Not as designed, but its generator does no more than was promised.'],
    ['Fine', 'As designed.'],
  ])('says why: %s', (name, said) => {
    const site = ranking.visited.find((each) => each.site === name)!;
    expect(whyLine(site).replaceAll('\u00a0', ' ')).toBe(said);
  });

  it('is told on the page and in the terminal', () => {
    const { document } = parseHTML(pageOf(SITES));
    const rows = [...document.querySelectorAll('#answer tbody tr')].map((row) =>
      [...row.querySelectorAll('th, td')].map((each) => each.textContent).join(' | '),
    );
    expect(rows).toEqual([
      'Thirstier | 121 L | 181 L | 60 L | 49 %',
      'Thirsty | 121 L | 151 L | 30 L | 25 %',
      'Nearly dry | 200 L | 8.0 L | 9.4',
      'Half full | 200 L | 8.0 L | 22',
      'Old | 60.0 | 48.0 | 46.5 to 49.5 | 80 %',
    ]);
    expect(document.querySelector('#unread')?.textContent).toContain(
      'log.csv:3:1: time: found x; expected a date',
    );
    expect(document.querySelectorAll('#all tbody tr')).toHaveLength(10);
    const terminal = sitesTerminal(SITES, 100, false);
    expect(terminal).toMatch(/Thirstier +121 L +181 L +60 L +49 %/);
    expect(terminal).toContain('Broken (Broken.yaml): log.csv:3:1: time: found x; expected a date');
    expect(terminal.replace(/\s+/g, ' ')).toContain(
      'Of 10 sites looked at, 5 run as designed and 2 burn more than was promised. 2 tanks run dry within 30 days, 1 battery holds less than named, and 1 site has a likely fault. 1 site could not be looked at; it is listed with the reason.',
    );
  });

  it('tells of one, of none and of those without a log in whole words', () => {
    const said = (ranks: SiteRank[]) => sitesSentences(rankSites(ranks)).join(' ');
    expect(said([madeSite('Nearly dry', { daysLeft: 9, usableKwh: 40, usedL: 2000 })])).toBe(
      'Of 1 site, none runs as designed and 1 burns more than was promised. 1 tank runs dry within 30 days, 1 battery holds less than named, and no site has a likely fault.',
    );
    const fine = madeSite('Fine', { asDesigned: true });
    const visit = fine.visit as NonNullable<typeof fine.visit>;
    const none = { loadKwh: null, arrayKwh: null, generatorKwh: null, fuelL: null, runH: null };
    const comparison = { ...visit.comparison, ran: { ...visit.comparison.ran, ...none } };
    const mute = { ...fine, visit: { ...visit, comparison } } as SiteRank;
    expect(said([mute])).toContain('Of 1 site, none runs as designed');
    const noLog = { ...unreadSite('Silent', []), noLog: true };
    expect(said([madeSite('Fine', { asDesigned: true }), noLog, noLog])).toBe(
      'Of 1 site looked at, 1 runs as designed and none burns more than was promised. No tank runs dry within 30 days, no battery holds less than named, and no site has a likely fault. 2 sites have no log.',
    );
    expect(unreadReasons(noLog)).toEqual(['It has no log: nothing tells how it runs.']);
  });

  it('says that other settings are in force, once', () => {
    const made = madeSite('Set otherwise', {});
    const { visit } = made;
    const basis = { count: 9, of: 'starts' as const };
    const start = { key: 'startSoc' as const, value: 0.45, low: 0.44, high: 0.46, designed: 0.3, basis };
    const estimates = [{ ...start, fromS: visit!.fromS, toS: visit!.toS }];
    const said = (comparison: Visit['comparison']) => {
      const [site] = rankSites([{ ...made, visit: { ...visit!, estimates, comparison } }]).visited;
      return whyLine(site).replaceAll('\u00a0', ' ');
    };
    expect(said(visit!.comparison)).toBe('Other start or stop settings in force than on the sheet.');
    const ran = { ...visit!.comparison.ran, fuelL: 1761 };
    const causes = [{ kind: 'thresholds' as const, generatorKwh: 1, runH: 1, fuelL: 349 }];
    expect(said({ ...visit!.comparison, ran, causes })).toBe(
      '30 L a month above the promise (+25 %), mostly other start and stop settings than on the sheet.',
    );
  });

  it('leads from each name to the page of its visit', () => {
    const { document } = parseHTML(pageOf(SITES));
    const links = [...document.querySelectorAll('#all th a')].map((link) => link.getAttribute('href'));
    expect(links).toHaveLength(10);
    expect(links).toContain('nearly-dry/visit.html');
    expect(document.querySelector('#answer td, #answer th[scope=row] a')?.getAttribute('href')).toBe(
      'thirstier/visit.html',
    );
  });

  it('tells why in full in a narrow terminal, on a second line where it needs one', () => {
    const lines = sitesTerminal(SITES, 70, false).split('\n');
    const at = lines.findIndex((line) => line.startsWith('  Faulty '));
    expect(lines.slice(at, at + 2).every((line) => line.length <= 70)).toBe(true);
    expect(`${lines[at]} ${lines[at + 1].trim()}`).toMatch(
      /^ {2}Faulty {6,}Likely fault: an array gives less from one day on, as if a string of it gave nothing \(barn\) and 1 other\.$/,
    );
    expect(lines[at + 1]).toMatch(/^ {6}\S/);
  });

  it('may be empty, or of one site that could not be read', () => {
    for (const ranks of [[], [unreadSite('Broken', [])]]) {
      expect(pageOf(ranks)).not.toMatch(/NaN|undefined|Infinity/);
      expect(sitesTerminal(ranks, 60, false)).not.toMatch(/NaN|undefined|Infinity/);
    }
  });
});

describe('two hundred sites', () => {
  const page = pageOf(manySites(200));

  it('make a small page with a row for each, and drawings that hold', () => {
    expect(page.length).toBeLessThan(150_000);
    const { document } = parseHTML(page);
    expect(
      document.querySelectorAll('#all tbody tr').length +
        document.querySelectorAll('#unread > ul > li').length,
    ).toBe(200);
    const [drawing] = document.querySelectorAll('svg.chart');
    expect(drawing.getAttribute('aria-label')).toMatch(/litres a month.*\d+ of \d+ sites/);
    expect(drawing.outerHTML).not.toMatch(/NaN|undefined|Infinity/);
    expect(drawing.querySelectorAll('circle')).toHaveLength(195);
  });

  it('fit the terminal, a line each', () => {
    const lines = sitesTerminal(manySites(200), 80, false).split('\n');
    expect(lines.filter((line) => /^ {2}Site \d+ {2}\S/.test(line)).length).toBeGreaterThanOrEqual(195);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  });
});

it('random visits are told in whole sentences', () => {
  fc.assert(
    fc.property(fc.array(randomVisit, { minLength: 1, maxLength: 4 }), (visits) => {
      const ranks = visits.map(
        (visit, i): SiteRank => ({ site: `S${i}`, file: `s${i}.yaml`, visit, noLog: false, problems: [] }),
      );
      const { visited } = rankSites(ranks);
      expect(visited).toHaveLength(visits.length);
      for (const site of visited) {
        const said = whyLine(site);
        expect(said).toMatch(/^[\p{Lu}\d].*\.$/u);
        expect(said).not.toMatch(/NaN|undefined|Infinity|null|\.\.|,,|(?<![\d.,])1 (?:days|others)/);
        if (!site.visit.parts.generator) expect(said).not.toMatch(/generator|tank|promise/);
      }
      expect(pageOf(ranks)).not.toMatch(/NaN|undefined|Infinity/);
    }),
    { numRuns: 40 },
  );
}, 120_000);
