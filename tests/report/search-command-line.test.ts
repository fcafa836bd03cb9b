import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { SMALL_SITE } from '../scenarios/small-site.ts';
import { runIn, smallSiteFolder } from './built-command.ts';

let folder = '';

beforeAll(() => {
  folder = smallSiteFolder();
});

const run = (...args: string[]) => runIn(folder, ...args);

describe('darkweek tune', () => {
  it('prints settings and sentences, writes the page, and its alternative can be simulated', () => {
    const { status, stdout } = run('tune', 'site.yaml', '--runs', '120', '--out', 'tuned');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Small site: start and stop the generator at what\?/);
    expect(readFileSync(join(folder, 'tuned/tune.html'), 'utf8')).toMatch(/^<!doctype html>/i);
    const lines = stdout.split('\n');
    const from = lines.findIndex((line) => line.startsWith('  - name: "tuned"'));
    const snippet = lines.slice(from, lines.indexOf('', from));
    writeFileSync(join(folder, 'with.yaml'), `${SMALL_SITE.trimEnd()}\n${snippet.join('\n')}\n`);
    const again = run('simulate', 'with.yaml', '--only', 'tuned', '--json');
    expect(again.status).toBe(0);
    const [, tuned] = JSON.parse(again.stdout).alternatives;
    const fuel = lines.find((line) => line.startsWith('Fuel a year'))?.split(/ {2,}/)[2];
    // ten days, shown by the year
    expect(fuel).toBe(Math.round(tuned.ledger.totals.fuelL * 36.5).toLocaleString('en-US'));
  });

  it('gives the same bytes with one worker and with two', () => {
    const json = (workers: string) =>
      run(
        'tune',
        'site.yaml',
        '--rules',
        'startSoc,stopSoc',
        '--runs',
        '100',
        '--workers',
        workers,
        '--json',
      );
    const [one, two] = [json('1'), json('2')];
    expect(one.status).toBe(0);
    expect(two.stdout).toBe(one.stdout);
    expect(JSON.parse(one.stdout).settings).toHaveLength(2);
  });

  it('refuses what it does not know, in a sentence', () => {
    const refused = (...args: string[]) => {
      const { status, stderr } = run('tune', 'site.yaml', ...args);
      return `${status} ${stderr}`;
    };
    expect(refused('--rules', 'startSoc,stopsoc')).toMatch(
      /^2 .*No rule stopsoc\. Expected some of startSoc/s,
    );
    expect(refused('--season', 'winter=13')).toMatch(/^2 .*months 1 to 12/s);
    expect(refused('--step', '7')).toMatch(/^2 .*divide 60/s);
    expect(refused('--alternative', 'none such')).toMatch(
      /^1 .*no alternative 'none such'; expected 'as filed' or/s,
    );
  });

  it('says so where there is nothing to tune', () => {
    writeFileSync(
      join(folder, 'always.yaml'),
      SMALL_SITE.slice(0, SMALL_SITE.indexOf('alternatives:')).replace(
        /control:\n.*\n/,
        'control: { continuous: true }\n',
      ),
    );
    const { status, stderr } = run('tune', 'always.yaml');
    expect(status).toBe(1);
    expect(stderr).toMatch(/no rule starts the generator by a number/);
  });
});

describe('darkweek size', () => {
  it('gives the same bytes with one worker and with two, of an alternative too', () => {
    const json = (workers: string) =>
      run('size', 'site.yaml', '--alternative', 'more modules', '--workers', workers, '--json');
    const [one, two] = [json('1'), json('2')];
    expect(one.status).toBe(0);
    expect(two.stdout).toBe(one.stdout);
    const result = JSON.parse(one.stdout);
    expect(result.alternative).toBe('more modules');
    expect(result.own.size.modules).toBe(4);
    expect(result.own.outcome.capital).toBe(3000);
    expect(result.effort.choices).toBeGreaterThan(200);
  });

  it('writes the page, among the sizes asked for', () => {
    const { status, stdout } = run(
      ...[
        'size',
        'site.yaml',
        '--generators',
        '3,8',
        '--inverters',
        '5',
        '--modules',
        '2,3',
        '--arrays',
        '3',
      ],
      ...['--out', 'sized'],
    );
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Small site: how large should each part be\?/);
    expect(stdout).toMatch(/There are 6 choices of sizes/);
    expect(readFileSync(join(folder, 'sized/size.html'), 'utf8')).toMatch(/^<!doctype html>/i);
  });

  it('refuses a catalogue with every problem, and choices without end', () => {
    writeFileSync(join(folder, 'wrong.yaml'), 'currency: $\ngenerators: 3\n');
    const wrong = run('size', 'site.yaml', '--catalogue', 'wrong.yaml');
    expect(wrong.status).toBe(1);
    expect(wrong.stderr).toMatch(/problem wrong\.yaml:2:\d+: generators: found 3/);
    expect(wrong.stderr).toMatch(/problem .*: battery: found nothing/);
    const many = Array.from({ length: 80 }, (_, i) => String(i + 1)).join(',');
    const endless = run('size', 'site.yaml', '--modules', many, '--arrays', many);
    expect(endless.status).toBe(1);
    expect(endless.stderr).toMatch(/found \d+ choices of sizes; expected at most 50000/);
  });
});
