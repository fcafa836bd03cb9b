/** A folder of sites by the command line: the same however it is done. `npm test` builds the command first. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keptVisits } from '../../../src/scenarios/sites/kept-visits.ts';
import type { SiteRank } from '../../../src/scenarios/visit/site-rank.ts';
import { runIn } from '../built-command.ts';
import { endAll, startIn } from '../queue/command.ts';
import { until } from '../queue/until.ts';
import { ALL_SITES, folderOfSites, LOGGED, MADE_FOLDER, manyCopies } from './made-folder.ts';
import { pagesOf } from './written-pages.ts';

let folder = '';
const run = (...args: string[]) => runIn(folder, 'sites', ...args);

beforeAll(() => {
  folder = folderOfSites(MADE_FOLDER);
});
afterAll(endAll);

describe('darkweek sites', () => {
  it('visits those with a log, says of the others why not, and writes a page for each', () => {
    const { status, stdout, stderr } = run('sites', '--out', 'one', '--workers', '1');
    expect(status, stderr).toBe(0);
    const said = stdout.replaceAll(/\s+/g, ' ');
    expect(said).toMatch(
      /^Which site needs somebody, and why\? Of 3 sites looked at, \S+ runs? as designed and \S+ burns? more than was promised\./,
    );
    expect(said).toContain('1 battery holds less than named');
    expect(said).toContain(
      '1 site has no log. 2 sites could not be looked at; they are listed with the reason.',
    );
    expect(said).toContain('Without a log (fine/no-log.yaml): It has no log: nothing tells how it runs.');
    expect(said).toMatch(
      /Broken \(fine\/broken\.yaml\): fine\/broken\.yaml:\d+:\d+: control\.charge\.startSoc: found 30/,
    );
    expect(said).toMatch(/Gone \(fine\/gone\.yaml\): fine\/gone\.yaml:\d+:\d+: log\.file: found .*gone\.csv/);
    expect(said).toMatch(/Made site 001 .*mostly more load than planned/);
    const pages = pagesOf(join(folder, 'one'));
    expect([...pages.keys()]).toEqual([
      ...LOGGED.map((file) => file.replace('.yaml', '/visit.html')),
      'sites.html',
    ]);
    for (const file of LOGGED)
      expect(pages.get('sites.html')).toContain(`href="${file.replace('.yaml', '/visit.html')}"`);
  }, 200_000);

  it('gives the same bytes on two threads, and from wherever it is called', () => {
    const { status, stderr } = run('./sites/', '--out', 'two', '--workers', '2');
    expect(status, stderr).toBe(0);
    expect(pagesOf(join(folder, 'two'))).toEqual(pagesOf(join(folder, 'one')));
  }, 200_000);

  it('gives the same bytes in parts, and lists a part that is missing', () => {
    const first = run('sites', '--out', 'parts', '--shard', '1/2');
    expect(first.stdout).toMatch(
      /^Part 1 of 2 is finished: 3 of 6 sites, in parts\/visits\.part-1-of-2\.jsonl\./,
    );
    expect(first.status, first.stderr).toBe(0);
    const early = run('sites', '--out', 'merged', '--merge', 'parts');
    expect(early.stderr).toContain('found no part 2; expected what --shard 2/2 makes');
    expect(early.status).toBe(1);
    expect(existsSync(join(folder, 'merged'))).toBe(false);
    expect(run('sites', '--out', 'parts', '--shard', '2/2').status).toBe(0);
    const merged = run('sites', '--out', 'merged', '--merge', 'parts');
    expect(merged.status, merged.stderr).toBe(0);
    expect(pagesOf(join(folder, 'merged'))).toEqual(pagesOf(join(folder, 'one')));
  }, 200_000);

  it('takes what is finished, and visits only the site whose inputs are others, as JSON', () => {
    const site = join(folder, 'sites/fine/site.yaml');
    const text = readFileSync(site, 'utf8');
    writeFileSync(site, text.replace('fuelPerL: 1.9', 'fuelPerL: 2.1'));
    const { status, stdout, stderr } = run('sites', '--out', 'one', '--json');
    writeFileSync(site, text);
    expect(status).toBe(0);
    expect(stderr).toContain(`${ALL_SITES - 1} finished visits are known from one/visits.jsonl`);
    const ranks = JSON.parse(stdout) as SiteRank[];
    expect(ranks.map(({ file, visit }) => [file, visit?.fuelPerL])).toEqual([
      ['faded/site.yaml', 1.9],
      ['fine/broken.yaml', undefined],
      ['fine/gone.yaml', undefined],
      ['fine/no-log.yaml', undefined],
      ['fine/site.yaml', 2.1],
      ['loaded/site.yaml', 1.9],
    ]);
  }, 200_000);

  it('says what is wrong with a folder', () => {
    mkdirSync(join(folder, 'empty'));
    writeFileSync(join(folder, 'empty/notes.yaml'), 'fuel: 2\n');
    for (const [name, said] of [
      ['nowhere', 'nowhere: no such folder; expected one with site files\n'],
      ['sites/prices.yaml', 'sites/prices.yaml: no such folder; expected one with site files\n'],
      ['empty', "empty: no site file in it; expected YAML or JSON with a 'site' at its top\n"],
    ]) {
      const { status, stdout, stderr } = run(name, '--out', 'not');
      expect([status, stdout, stderr]).toEqual([1, '', said]);
    }
    expect(existsSync(join(folder, 'not'))).toBe(false);
  });
});

it('goes on where it was stopped, and ends as if it had not been', async () => {
  const copies = folderOfSites(manyCopies(60));
  const kept = join(copies, 'stopped/visits.jsonl');
  const known = () => (existsSync(kept) ? [...keptVisits(readFileSync(kept, 'utf8')).values()] : []);
  const first = startIn(copies, 'sites', 'sites', '--out', 'stopped', '--workers', '1');
  await until('two visits', () => known().length >= 2);
  first.child.kill('SIGINT');
  expect(await first.ended).toBe(130);
  expect(first.said()).toContain('Visits that were finished are kept');
  const done = known().map(({ file }) => file);
  expect(done.length).toBeLessThan(60);
  // those that are finished, and two more, are enough to see it go on
  const sites = readdirSync(join(copies, 'sites')).filter((name) => name.endsWith('.yaml'));
  const open = sites.filter((name) => !done.includes(name));
  for (const name of open.slice(2)) rmSync(join(copies, 'sites', name));
  const again = runIn(copies, 'sites', 'sites', '--out', 'stopped');
  expect(again.status, again.stderr).toBe(0);
  expect(again.stderr).toContain(`${done.length} finished visits are known from stopped/visits.jsonl`);
  expect(known()).toHaveLength(Math.min(60, done.length + 2));
  expect(runIn(copies, 'sites', 'sites', '--out', 'whole').status).toBe(0);
  expect(pagesOf(join(copies, 'stopped'))).toEqual(pagesOf(join(copies, 'whole')));
}, 300_000);
