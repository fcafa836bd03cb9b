/** The built command line as its user meets it. `npm test` builds it first. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { SMALL_SITE } from '../scenarios/small-site.ts';
import { CLI, inFolder, runIn, smallSiteFolder } from './built-command.ts';

let folder = '';

beforeAll(() => {
  folder = smallSiteFolder();
});

const run = (...args: string[]) => runIn(folder, ...args);

const YEAR = `
site: { name: Small house, latitudeDeg: -37, longitudeDeg: 145, timeZone: '+10:00' }
period: { start: 2025-01-01, days: 365, stepMin: 60 }
appliances: [{ name: house, watts: 800 }]
battery: { modules: 2, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }
inverter: { phases: 1, ratedKva: 5, chargerKw: 3 }
generator: { ratedKw: 5, fuel: [{ kW: 0, lPerH: 0.6 }, { kW: 5, lPerH: 1.9 }] }
control: { charge: { startSoc: 0.3, stopSoc: 0.8 } }
money: { fuelPerL: 1.5, years: 4 }
alternatives: [{ name: more modules, changes: { battery.modules: 4 } }]
`;

/** A site with far more alternatives than a busy machine gets through before a signal arrives. */
function writeLongWork(name: string): void {
  const many = Array.from(
    { length: 300 },
    (_, at) => `  - { name: m${at}, changes: { battery.modules: ${at + 3} } }`,
  );
  const site = YEAR.replace('stepMin: 60', 'stepMin: 5').replace('years: 4', 'years: 20');
  const kept = site.slice(0, site.indexOf('alternatives:'));
  writeFileSync(join(folder, name), `${kept}alternatives:\n${many.join('\n')}\n`);
}

describe('darkweek bound', () => {
  it('sets the least fuel beside what each alternative burns, or one', () => {
    const { status, stdout } = run('bound', 'site.yaml');
    expect(status).toBe(0);
    expect(stdout.match(/These thresholds burn/g)).toHaveLength(3);
    expect(stdout).toContain('How good could it be'.toLowerCase());
    const one = run('bound', 'site.yaml', '--alternative', 'more modules');
    expect(one.stdout.match(/These thresholds burn/g)).toHaveLength(1);
    expect(one.stdout).toContain('“more modules”');
    expect(run('bound', 'site.yaml', '--alternative', 'none such').status).toBe(1);
  });

  it('is on the page when simulate is asked for it', () => {
    expect(run('simulate', 'site.yaml', '--bound', '--out', 'bounded').status).toBe(0);
    expect(readFileSync(join(folder, 'bounded/report.html'), 'utf8')).toContain('How good could it be');
  });
});

describe('darkweek simulate', () => {
  it('prints table and sentences and writes the report page', () => {
    const { status, stdout } = run('simulate', 'site.yaml', '--out', 'first');
    expect(status).toBe(0);
    expect(stdout).toMatch(/Generator runs, h/);
    expect(stdout).toMatch(/Four battery modules instead of two/);
    const page = readFileSync(join(folder, 'first/report.html'), 'utf8');
    expect(page).toMatch(/^<!doctype html>/i);
    expect(page).not.toMatch(/(?:src|href)=["']?https?:/);
    expect(readdirSync(join(folder, 'first'))).toEqual(['report.html']);
  });

  it('gives a script everything as JSON, and the same figures as the table', () => {
    const { status, stdout } = run('simulate', 'site.yaml', '--json');
    expect(status).toBe(0);
    const study = JSON.parse(stdout);
    expect(study.alternatives).toHaveLength(3);
    expect(study.alternatives[0].ledger.totals.loadKwh).toBeCloseTo(148, 6);
    const again = JSON.parse(run('simulate', 'site.yaml', '--json').stdout);
    expect(again.alternatives).toEqual(study.alternatives);
  });

  it('writes the columns of every step', () => {
    expect(
      run('simulate', 'site.yaml', '--only', 'more modules', '--csv', 'steps.csv', '--out', 'second').status,
    ).toBe(0);
    const rows = readFileSync(join(folder, 'steps.csv'), 'utf8').trim().split('\n');
    expect(rows[0]).toMatch(/more modules/);
    expect(rows).toHaveLength(2 + 480);
    const load = rows.slice(2).reduce((sum, row) => sum + Number(row.split(',')[1]) / 2, 0);
    expect(load).toBeCloseTo(148, 6);
  });
});

describe('darkweek why', () => {
  it('tells runs and what would have avoided them', () => {
    const { status, stdout } = run('why', 'site.yaml');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Small site, “as filed”: why did the generator start\?/);
    expect(stdout).toMatch(/The longest run.*: run \d+, /);
    expect(stdout).toMatch(/would have avoided it|would only move it|Nothing that was tried/);
  });

  it('tells the run asked for, of the alternative asked for', () => {
    const { stdout } = run('why', 'site.yaml', '--alternative', 'bigger roof', '--run', '1');
    expect(stdout).toMatch(/“bigger roof”/);
    expect(stdout.match(/^Run \d+, /gm)).toEqual(['Run 1, ']);
    const [, day, time] = /^Run 1, \w+ (\d+) Mar, (\d\d:\d\d)/m.exec(stdout) ?? [];
    const at = `2025-03-${day.padStart(2, '0')}T${time}`;
    expect(run('why', 'site.yaml', '--alternative', 'bigger roof', '--at', at).stdout).toBe(stdout);
  });

  it('says that there is no such run, alternative or time', () => {
    const none = run('why', 'site.yaml', '--run', '999');
    expect(none.status).toBe(1);
    expect(none.stderr).toMatch(/--run 999: expected a run from 1 to \d+/);
    expect(run('why', 'site.yaml', '--alternative', 'small roof').status).toBe(1);
    const wrong = run('why', 'site.yaml', '--at', 'noon');
    expect(wrong.status).toBe(2);
    expect(wrong.stderr).toMatch(/'--at <time>' argument 'noon' is invalid\. Expected a local time such as/);
    expect(run('why', 'site.yaml', '--at', '2025-03-02T10:00', '--run', '1').status).toBe(2);
  });
});

describe('darkweek horizon', () => {
  it('prints every year of every alternative and writes a page', () => {
    writeFileSync(join(folder, 'year.yaml'), YEAR);
    const { status, stdout } = run('horizon', 'year.yaml', '--out', 'years');
    expect(status).toBe(0);
    expect(stdout.match(/^ {3}[1-4] /gm)).toHaveLength(8);
    expect(stdout).toMatch(/Small house: all years, one after the other/);
    expect(readFileSync(join(folder, 'years/horizon.html'), 'utf8')).toMatch(/id="alternative-2"/);
    const study = JSON.parse(run('horizon', 'year.yaml', '--only', 'more modules', '--json').stdout);
    expect(study.alternatives[1].years).toHaveLength(4);
  });

  it('refuses a site of ten days with exit code 1', () => {
    const { status, stderr, stdout } = run('horizon', 'site.yaml');
    expect(status).toBe(1);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/period\.days: found 10; expected 365/);
  });

  it('keeps what was finished when it is stopped', async () => {
    writeLongWork('many.yaml');
    const child = spawn(process.execPath, [CLI, 'horizon', 'many.yaml', '--out', 'half'], inFolder(folder));
    let said = '';
    let printed = '';
    child.stderr.on('data', (data) => {
      said += data;
    });
    child.stdout.on('data', (data) => {
      if (printed === '') child.kill('SIGINT');
      printed += data;
    });
    const code = await new Promise((done) => child.on('close', done));
    expect(code).toBe(130);
    expect(said).toMatch(/Stopped\. .* finished are on the page\./);
    expect(printed).toMatch(/^as filed/);
    expect(printed).not.toMatch(/all years, one after the other/);
    const page = readFileSync(join(folder, 'half/horizon.html'), 'utf8');
    expect(page).toMatch(/id="alternative-1"/);
    expect(page).toMatch(/Not simulated yet/);
    expect(readdirSync(join(folder, 'half'))).toEqual(['horizon.html']);
  });
});

describe('a wrong site file', () => {
  it('lists its problems, exits with 1 and leaves the old report whole', () => {
    mkdirSync(join(folder, 'old'), { recursive: true });
    writeFileSync(join(folder, 'old/report.html'), 'old');
    writeFileSync(
      join(folder, 'wrong.yaml'),
      SMALL_SITE.replace('modules: 2,', 'modlues: 2,').replace('startSoc: 0.3', 'startSoc: 30'),
    );
    const { status, stderr, stdout } = run('simulate', 'wrong.yaml', '--out', 'old');
    expect(status).toBe(1);
    expect(stdout).toBe('');
    expect(stderr).toMatch(
      /wrong\.yaml:8:\d+: battery\.modlues: found unknown key 'modlues'; expected 'modules'/,
    );
    expect(stderr).toMatch(
      /control\.charge\.startSoc: found 30; expected a share from 0 to 1: 0\.3 for 30 %/,
    );
    expect(readdirSync(join(folder, 'old'))).toEqual(['report.html']);
    expect(readFileSync(join(folder, 'old/report.html'), 'utf8')).toBe('old');
  });

  it('is told from a missing one', () => {
    const { status, stderr } = run('check', 'nowhere.yaml');
    expect(status).toBe(1);
    expect(stderr).toMatch(/nowhere\.yaml: no such file/);
  });
});

describe('the command line', () => {
  it('checks without simulating', () => {
    const { status, stdout } = run('check', 'site.yaml');
    expect(status).toBe(0);
    expect(stdout).toMatch(/load\.csv: csv/);
    expect(stdout).toMatch(/0 problems, 1 doubt/);
  });

  it('prints a JSON Schema with units and help', () => {
    const schema = JSON.parse(run('schema').stdout);
    expect(schema.properties.inverter.properties.ratedKva).toMatchObject({ unit: 'kVA', type: 'number' });
  });

  it.each([
    ['--nonsense'],
    ['simulte', 'site.yaml'],
    ['simulate'],
    ['simulate', 'site.yaml', '--stp', '5'],
    ['simulate', 'site.yaml', '--step', '7'],
  ])('refuses %s %s with a sentence and exit code 2', (...args) => {
    const { status, stderr } = run(...args.filter(Boolean));
    expect(status).toBe(2);
    expect(stderr).toMatch(/error: /);
  });

  it('colours what goes into a pipe only where colours are asked for', () => {
    const { NO_COLOR, FORCE_COLOR, ...bare } = process.env;
    const printed = (asked: Record<string, string>) =>
      spawnSync(process.execPath, [CLI, 'simulate', 'site.yaml', '--out', 'plain'], {
        ...inFolder(folder),
        env: { ...bare, ...asked },
      }).stdout;
    expect(printed({ CI: 'true' })).not.toContain('\u001b');
    expect(printed({ FORCE_COLOR: '1' })).toContain('\u001b[1m');
  });

  it('stops at once with a sentence', async () => {
    writeLongWork('long.yaml');
    const args = ['simulate', 'long.yaml', '--step', '1', '--out', 'stopped'];
    let said = '';
    const stoppedAfter = (ms: number) => {
      const child = spawn(process.execPath, [CLI, ...args], inFolder(folder));
      child.stderr.on('data', (data) => {
        said += data;
      });
      setTimeout(() => child.kill('SIGINT'), ms);
      return new Promise((done) => child.on('close', done));
    };
    let code: unknown = null;
    // on a busy machine it may not have begun by then, and ends without a code
    for (let ms = 2000; code === null && ms < 20_000; ms *= 2) code = await stoppedAfter(ms);
    expect(code).toBe(130);
    expect(said).toMatch(/Stopped\. Nothing was written half\./);
    expect(existsSync(join(folder, 'stopped/report.html'))).toBe(false);
  });
});
