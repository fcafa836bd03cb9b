/** Break-even, sensitivity and stress of the built command line. `npm test` builds it first. */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { DAIRY } from '../scenarios/many/small-dairy.ts';
import { CLI, folderWith, inFolder, runIn } from './built-command.ts';

let folder = '';

beforeAll(() => {
  folder = folderWith({
    'dairy.yaml': DAIRY,
    'stressed.yaml': `${DAIRY}stress: { weatherYears: 3 }\n`,
  });
});

const run = (...args: string[]) => runIn(folder, ...args);

describe('darkweek break-even', () => {
  it('prints the values and writes a page', () => {
    const { status, stdout } = run(
      'break-even',
      'dairy.yaml',
      'as filed',
      'five modules',
      '--value',
      'fuelPrice',
    );
    expect(status).toBe(0);
    expect(stdout.replaceAll(/\s+/g, ' ')).toMatch(
      /Fuel price: “five modules” costs less above \$1\.02\/L, “as filed” below it/,
    );
    expect(readFileSync(join(folder, 'out/break-even.html'), 'utf8')).toMatch(/^<!doctype html>/i);
  });

  it('gives a script the same as JSON', () => {
    const { stdout } = run(
      'break-even',
      'dairy.yaml',
      'as filed',
      'five modules',
      '--value',
      'fuelPrice',
      '--from',
      '1',
      '--to',
      '1.1',
      '--json',
    );
    const { values } = JSON.parse(stdout);
    expect(values).toHaveLength(1);
    expect([values[0].from, values[0].to]).toEqual([1, 1.1]);
    expect(values[0].crossings[0].value).toBeCloseTo(1.01939, 4);
  });

  it.each([
    [
      ['as filed', 'six modules'],
      1,
      /found no alternative 'six modules'; expected 'as filed' or 'five modules'/,
    ],
    [['as filed', 'five modules', '--from', '1'], 1, /expected --value too/],
    [
      ['as filed', 'five modules', '--value', 'fuelPrice', '--from', '-1'],
      1,
      /expected 0 to 100 for fuelPrice/,
    ],
    [['as filed', 'five modules', '--value', 'fuel'], 2, /Allowed choices are fuelPrice/],
    [
      ['as filed', 'five modules', '--value', 'fuelPrice', '--to', 'x'],
      2,
      /'--to <number>' argument 'x' is invalid\. Expected a number/,
    ],
  ])('refuses %j', (args, code, words) => {
    const { status, stderr } = run('break-even', 'dairy.yaml', ...args);
    expect(status).toBe(code);
    expect(stderr).toMatch(words);
  });
});

describe('darkweek sensitivity', () => {
  it('prints the values by effect and writes a page', () => {
    const { status, stdout } = run('sensitivity', 'dairy.yaml', '--against', 'five modules', '--out', 'two');
    expect(status).toBe(0);
    expect(stdout).toMatch(/Fuel price, \$1\.13\/L to \$3\.00\/L/);
    expect(stdout.replaceAll(/\s+/g, ' ')).toMatch(/“five modules” costs \$1,104 less than “as filed”\./);
    expect(readFileSync(join(folder, 'two/sensitivity.html'), 'utf8')).toContain(
      'What could turn the choice',
    );
  });
});

describe('darkweek stress', () => {
  it('goes on where it was stopped, and ends as if it had not been', async () => {
    const args = ['stress', 'stressed.yaml', '--only', 'as filed', '--runs', '100'];
    const kept = join(folder, 'stopped/stress-runs.jsonl');
    const lines = () => (existsSync(kept) ? readFileSync(kept, 'utf8').trim().split('\n').length : 0);
    const first = spawn(process.execPath, [CLI, ...args, '--out', 'stopped'], inFolder(folder));
    let told = '';
    first.stderr.on('data', (data) => {
      told += data;
    });
    const ended = new Promise((done) => first.on('exit', done));
    while (lines() < 4) await pause(5);
    first.kill('SIGINT');
    expect(await ended).toBe(130);
    expect(told).toMatch(/Runs that were finished are kept/);
    const before = lines() - 1;
    expect(before).toBeGreaterThanOrEqual(3);
    expect(before).toBeLessThan(100);
    const again = run(...args, '--out', 'stopped');
    expect(again.status).toBe(0);
    expect(again.stderr).toMatch(/\d+ finished runs are known/);
    const whole = run(...args, '--out', 'whole');
    const figures = (text: string) => text.slice(0, text.indexOf('Page:'));
    expect(figures(again.stdout)).toBe(figures(whole.stdout));
    expect(readFileSync(join(folder, 'stopped/stress.html'), 'utf8')).toBe(
      readFileSync(join(folder, 'whole/stress.html'), 'utf8'),
    );
  }, 180_000);
});
