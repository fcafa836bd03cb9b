/** Sweeps and stresses in parts, put together. `npm test` builds the command first. */
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { DAIRY } from '../scenarios/many/small-dairy.ts';
import { runIn, smallSiteFolder } from './built-command.ts';

let folder = '';

beforeAll(() => {
  folder = smallSiteFolder();
  writeFileSync(join(folder, 'dairy.yaml'), `${DAIRY}stress: { weatherYears: 3 }\n`);
});

const run = (...args: string[]) => runIn(folder, ...args);
const written = (out: string) =>
  readdirSync(join(folder, out))
    .filter((name) => !name.endsWith('.jsonl'))
    .map((name) => [name, readFileSync(join(folder, out, name)).toString('base64')]);

describe('a sweep in parts', () => {
  const SWEEP = ['sweep', 'site.yaml', '--vary', 'battery.modules=0:4:1', '--vary', 'arrays.roof.kWp=1:4:1'];

  it('gives the bytes of the whole one, problems of variants too', () => {
    const whole = run(...SWEEP, '--out', 'whole');
    expect(whole.status, whole.stderr).toBe(0);
    for (const [part, out] of [
      ['1/3', 'here'],
      ['2/3', 'there'],
      ['3/3', 'here'],
    ]) {
      const { status, stdout } = run(...SWEEP, '--shard', part, '--out', out, '--workers', '1');
      expect(stdout).toMatch(/^Part \d of 3 is finished: [67] of 20 variants, in .*part-\d-of-3\.jsonl\./);
      expect(status).toBe(0);
    }
    expect(written('here')).toEqual([]);
    const merged = run(...SWEEP, '--out', 'merged', '--merge', 'here', 'there');
    expect(merged.stderr).toBe(whole.stderr);
    expect(merged.stdout.replaceAll('merged/', 'whole/')).toBe(whole.stdout);
    expect(written('merged')).toHaveLength(4);
    expect(written('merged')).toEqual(written('whole'));
  });

  it('goes on with a part that was stopped', () => {
    const [name] = readdirSync(join(folder, 'there'));
    const file = join(folder, 'there', name);
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.slice(0, -20));
    const missing = run(...SWEEP, '--out', 'not', '--merge', 'here', 'there');
    expect(missing.stderr).toContain('found 6 of 7 variants of part 2; expected what --shard 2/3 makes');
    expect(missing.status).toBe(1);
    expect(run(...SWEEP, '--shard', '2/3', '--out', 'there').status).toBe(0);
    const lines = (all: string) => all.trimEnd().split('\n').length;
    // the line that was cut off, and the one variant again
    expect(lines(readFileSync(file, 'utf8'))).toBe(lines(text) + 1);
    expect(run(...SWEEP, '--out', 'again', '--merge', 'here', 'there').status).toBe(0);
    expect(written('again')).toEqual(written('whole'));
  });

  it('lists the parts that are missing or of other inputs, and writes nothing', () => {
    rmSync(join(folder, 'there'), { recursive: true });
    const missing = run(...SWEEP, '--out', 'not', '--merge', 'here', 'there');
    expect(missing.stderr).toContain(
      'problem here, there: --merge: found no part 2; expected what --shard 2/3',
    );
    expect(missing.status).toBe(1);
    const other = run(...SWEEP, '--step', '60', '--out', 'not', '--merge', 'here');
    expect(other.stderr).toContain('found no part of this work');
    expect(other.status).toBe(1);
    expect(existsSync(join(folder, 'not'))).toBe(false);
  });
});

describe('a stress in parts', () => {
  const STRESS = ['stress', 'dairy.yaml', '--only', 'five modules', '--runs', '3'];

  it('gives the bytes of the whole one, on however many threads, and lists what is missing', () => {
    const whole = run(...STRESS, '--out', 'whole-years', '--workers', '1');
    expect(whole.status, whole.stderr).toBe(0);
    for (const part of ['1/2', '2/2']) {
      const { status, stdout, stderr } = run(...STRESS, '--shard', part, '--out', 'years', '--workers', '2');
      expect(status, stderr).toBe(0);
      expect(stdout).toContain('3 of 6 runs, in years/stress-runs.part-');
    }
    const merged = run(...STRESS, '--out', 'merged-years', '--merge', 'years');
    expect(merged.status, merged.stderr).toBe(0);
    expect(written('merged-years')).toEqual(written('whole-years'));
    const figures = (text: string) => text.slice(0, text.indexOf('Page:'));
    expect(figures(merged.stdout)).toBe(figures(whole.stdout));

    const more = run(...STRESS, '--seed', 'other', '--out', 'none', '--merge', 'years');
    expect(more.stderr).toContain('found nothing in part 1');
    expect(more.stderr).toContain('of the same inputs and by the same version');
    expect(more.status).toBe(1);
    rmSync(join(folder, 'years/stress-runs.part-1-of-2.jsonl'));
    const missing = run(...STRESS, '--out', 'none', '--merge', 'years');
    expect(missing.stderr).toContain('found no part 1; expected what --shard 1/2 makes');
    expect(missing.status).toBe(1);
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });
});
