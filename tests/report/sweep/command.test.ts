/** `darkweek sweep` as its user meets it. `npm test` builds it first. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { SMALL_SITE, smallSiteFile } from '../../scenarios/small-site.ts';
import { CLI, inFolder, runIn, smallSiteFolder } from '../built-command.ts';
import { until } from '../queue/until.ts';

const TABLES = ['sweep.arrow', 'sweep.csv', 'sweep.html', 'sweep.json'];
let folder = '';

beforeAll(() => {
  folder = smallSiteFolder();
});

const run = (...args: string[]) => runIn(folder, 'sweep', 'site.yaml', ...args);

/** Bytes of everything that a sweep has written, what is kept excepted: its lines come as they are done. */
const written = (out: string) =>
  TABLES.map((name) => readFileSync(join(folder, out, name)).toString('base64'));
const keptFile = (out: string) => {
  const names = readdirSync(join(folder, out));
  return join(folder, out, names.find((name) => name.endsWith('.jsonl')) ?? '');
};

const GRID = ['--vary', 'battery.modules=1:4:1', '--vary', 'control.charge.startSoc=0.2:0.4:0.1'];

describe('darkweek sweep', () => {
  it('prints the best and a map, and writes page and tables, the same for one and two workers', () => {
    const one = run(...GRID, '--workers', '1', '--out', 'one');
    expect(one.stderr).toMatch(/^doubt .*coarse|^doubt .*load in steps/);
    expect(one.status).toBe(0);
    expect(one.stdout).toContain(
      '12 variants were run: battery modules 1 to 4 and generator started at 20 to 40 %.',
    );
    expect(one.stdout).toMatch(/\n40 .*\n30 .*\n20 .*\n +1 +2 +3 +4/);
    const two = run(...GRID, '--workers', '2', '--out', 'two');
    expect(two.stdout.replaceAll('two/', 'one/')).toBe(one.stdout);
    expect(written('two')).toEqual(written('one'));
    expect(readdirSync(join(folder, 'one')).filter((name) => !name.endsWith('.jsonl'))).toEqual(TABLES);
  });

  it('refuses what cannot be varied, and wrong options', () => {
    const wrong = run('--vary', 'battery.modlues=1,2', '--vary', 'generator.ratedKw=5:1:1', '--out', 'wrong');
    expect(wrong.status).toBe(1);
    expect(wrong.stderr.split('\n').slice(0, 2)).toEqual([
      "problem --vary 'battery.modlues=1,2': battery.modlues: found 'battery.modlues'; expected 'battery.modules'",
      "problem --vary 'generator.ratedKw=5:1:1': generator.ratedKw: found 5:1:1; expected from, to and step with from <= to and a step above 0",
    ]);
    expect(existsSync(join(folder, 'wrong'))).toBe(false);
    expect(run().stderr).toContain('nothing to vary');
    for (const option of ['--workers', '--sample', '--unserved']) {
      const { status, stderr } = run(...GRID, option, '-1');
      expect(stderr).toMatch(new RegExp(`option '${option} <.*>' argument '-1' is invalid\\. Expected `));
      expect(status).toBe(2);
    }
  });

  it('keeps what is done when it is stopped, and goes on from there', async () => {
    const many = [
      '--vary',
      'battery.modules=1:30:1',
      '--vary',
      'arrays.roof.kWp=1:20:1',
      '--step',
      '5',
      '--workers',
      '2',
    ];
    const child = spawn(
      process.execPath,
      [CLI, 'sweep', 'site.yaml', ...many, '--out', 'stopped'],
      inFolder(folder),
    );
    let said = '';
    child.stderr.on('data', (text) => {
      said += text;
    });
    const ended = new Promise<number | null>((done) => child.on('exit', done));
    const lines = () => readFileSync(keptFile('stopped'), 'utf8').split('\n').length - 2;
    await until('five variants', () => existsSync(join(folder, 'stopped')) && lines() >= 5);
    child.kill('SIGINT');
    expect(await ended).toBe(130);
    expect(said).toContain('Variants that were finished are kept: the same command goes on from there.');
    const done = lines();
    expect(done).toBeLessThan(600);
    expect(existsSync(join(folder, 'stopped', 'sweep.csv'))).toBe(false);

    const on = run(...many, '--out', 'stopped');
    expect(on.status).toBe(0);
    const kept = readFileSync(keptFile('stopped'), 'utf8').trimEnd().split('\n');
    // every variant once: those of before were not run again
    const variants = kept
      .slice(1)
      .flatMap((line) => (line.startsWith('[{') ? line.slice(0, line.indexOf('}')) : []));
    expect(variants.length).toBe(600);
    expect(new Set(variants).size).toBe(600);
    expect(run(...many, '--out', 'whole').status).toBe(0);
    expect(written('stopped')).toEqual(written('whole'));
  });

  it('begins anew when the inputs have changed', () => {
    run(...GRID, '--out', 'changing');
    const before = keptFile('changing');
    const elsewhere = mkdtempSync(join(tmpdir(), 'sweep-other-'));
    writeFileSync(join(elsewhere, 'site.yaml'), SMALL_SITE);
    writeFileSync(join(elsewhere, 'sky.csv'), smallSiteFile('sky.csv'));
    const load = new TextDecoder().decode(smallSiteFile('load.csv')).replace('0.4', '0.5');
    writeFileSync(join(elsewhere, 'load.csv'), load);
    const { stderr, status } = spawnSync(
      process.execPath,
      [CLI, 'sweep', join(elsewhere, 'site.yaml'), ...GRID, '--out', 'changing'],
      inFolder(folder),
    );
    expect(status, stderr).toBe(0);
    const names = readdirSync(join(folder, 'changing')).filter((name) => name.endsWith('.jsonl'));
    expect(names).toHaveLength(2);
    expect(names.map((name) => join(folder, 'changing', name))).toContain(before);
  });
});
