/** A site over its whole horizon: from the file to the money. */
import { describe, expect, it } from 'vitest';
import type { HorizonStudy } from '../../src/scenarios/horizon-result.ts';
import { runHorizon } from '../../src/scenarios/horizon-study.ts';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { checkStudy, runStudy } from '../../src/scenarios/run-study.ts';
import { SMALL_SITE, smallSiteFile } from './small-site.ts';

const MONTHLY = `{ format: monthly, seed: first,
  globalKwh: [6.8, 6.1, 4.7, 3.2, 2.2, 1.8, 2.0, 2.8, 3.9, 5.1, 6.1, 6.7],
  lowC: [14, 14, 12, 9, 7, 5, 4, 5, 6, 8, 10, 12], highC: [27, 27, 24, 20, 16, 13, 13, 14, 17, 20, 22, 25] }`;

/** A small dairy, invented: no files but weather from means, and two alternatives. */
const YEAR = `
site: { name: Small dairy, latitudeDeg: -37, longitudeDeg: 145, timeZone: '+10:00' }
period: { start: 2025-01-01, days: 365, stepMin: 60 }
appliances:
  - { name: milking, watts: 3000, hours: [{ from: '05:30', to: '07:30' }, { from: '16:30', to: '18:30' }] }
  - { name: hot water, watts: 2000, hours: [{ from: '10:00', to: '13:00' }] }
weather: ${MONTHLY}
arrays: [{ name: shed, kWp: 5, tiltDeg: 30, azimuthDeg: 0, coupling: dc }]
battery: { modules: 3, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }
inverter: { phases: 1, ratedKva: 12, chargerKw: 6 }
generator: { ratedKw: 8, fuel: [{ kW: 0, lPerH: 1 }, { kW: 8, lPerH: 3 }] }
control: { charge: { startSoc: 0.3, stopSoc: 0.8 } }
money: { years: 5, fuelPerL: 1.5, serviceCost: 200, batteryPerModule: 1000, batteryYears: 2, discountRate: 0.04, capital: 20000 }
alternatives:
  - { name: five modules, capital: 2000, changes: { battery.modules: 5 } }
  - { name: more sun, capital: 3000, changes: { arrays.shed.kWp: 9 } }
`;

const request = (text: string, more = {}) => ({
  text,
  file: 'site.yaml',
  readFile: smallSiteFile,
  version: '0',
  ...more,
});

function horizonOf(text: string, more = {}) {
  const run = runHorizon(request(text, more));
  let next = run.next();
  while (!next.done) next = run.next();
  return next.value;
}

function studyOf(text: string, more = {}): HorizonStudy {
  const { study, issues } = horizonOf(text, more);
  if (study === null) throw new Error(issues.map(issueSentence).join('\n'));
  return study;
}

describe('a horizon', () => {
  const study = studyOf(YEAR);

  it('has every alternative and every year of its study', () => {
    expect(study.alternatives.map(({ name }) => name)).toEqual(['as filed', 'five modules', 'more sun']);
    expect(study.outstanding).toEqual([]);
    for (const { years } of study.alternatives)
      expect(years.map(({ year }) => year)).toEqual([1, 2, 3, 4, 5]);
    expect(study.alternatives[1].changes).toEqual([{ path: 'battery.modules', from: 3, to: 5 }]);
  });

  it('sums its years, and multiplies the first for the shortcut', () => {
    const once = runStudy(request(YEAR)).study!;
    for (const [i, { years, sums, shortcut }] of study.alternatives.entries()) {
      const { totals } = once.alternatives[i].ledger;
      expect(sums.fuelL).toBeCloseTo(
        years.reduce((sum, { fuelL }) => sum + fuelL, 0),
        9,
      );
      expect(years[0].fuelL).toBe(totals.fuelL);
      expect(shortcut.fuelL).toBeCloseTo(5 * totals.fuelL, 9);
      expect(shortcut.runH).toBeCloseTo(5 * totals.runH, 9);
      expect(shortcut.lifeCycleCost).toBe(once.alternatives[i].money.lifeCycleCost);
    }
    expect(study.alternatives[0].sums.fuelL).toBeGreaterThan(100);
  });

  it('pays in each year what the year was like', () => {
    const { years, money } = study.alternatives[0];
    for (const { year, fuelL, runH, battery } of years) {
      const paid = money.cashFlow[year];
      expect(paid.fuel).toBeCloseTo(1.5 * fuelL, 9);
      expect(paid.service).toBeCloseTo((200 * runH) / 250, 9);
      expect(paid.battery).toBe(3000 * battery!.replacedAt.length);
    }
    // by hand: two years each; half of the third one is left after year 5
    expect(money.batteryReplacedInYears).toEqual([2, 4]);
    expect(money.cashFlow[5].residual).toBeCloseTo(-1500, 9);
    const worth = money.cashFlow.reduce((sum, { total }, year) => sum + total / 1.04 ** year, 0);
    expect(money.lifeCycleCost).toBeCloseTo(worth, 6);
  });

  it('pays for what goes unserved and for who is called, by the year', () => {
    const dark = YEAR.replace(/generator: .*\n/, '')
      .replace(/control: .*\n/, 'control: { deadVisitH: 24 }\n')
      .replace('moduleDischargeKw: 3 }', 'moduleDischargeKw: 3, standbyW: 400 }')
      .replace('money: { ', 'money: { unservedPerKwh: 2, visitCost: 80, ');
    const { years, money } = studyOf(dark).alternatives[0];
    for (const { year, unservedKwh, visits } of years) {
      expect(money.cashFlow[year].unserved).toBeCloseTo(2 * unservedKwh, 9);
      expect(money.cashFlow[year].visits).toBe(80 * visits);
    }
    expect(years.every(({ unservedKwh, visits }) => unservedKwh > 100 && visits > 0)).toBe(true);
  });

  it('is what the shortcut says where every year is the same', () => {
    // no sun and no generator: nothing is left of the battery after a while, and nothing differs between years
    const dead = YEAR.replace('shed, kWp: 5', 'shed, kWp: 0').replace(/generator: .*\n/, '');
    const { sums, shortcut, years } = studyOf(dead.replace(/control: .*\n/, ''), { only: 'as filed' })
      .alternatives[0];
    expect(sums.fuelL).toBe(0);
    expect(years[1].unservedKwh).toBeCloseTo(years[4].unservedKwh, 9);
    expect(sums.lifeCycleCost).toBeCloseTo(shortcut.lifeCycleCost, 6);
    // a generator that always runs: the years differ by its first start alone
    const always = YEAR.replace('control: {', 'control: { continuous: true, ').replace(
      'moduleKwh: 5,',
      'moduleKwh: 5, initialSoc: 1, taperEnd: 1,',
    );
    const { alternatives } = studyOf(always.replace('shed, kWp: 5', 'shed, kWp: 0'), { only: 'as filed' });
    const [one] = alternatives;
    expect(one.sums.fuelL / one.shortcut.fuelL).toBeCloseTo(1, 5);
    expect(one.sums.lifeCycleCost / one.shortcut.lifeCycleCost).toBeCloseTo(1, 5);
    expect(one.money.batteryReplacedInYears).toEqual([2, 4]);
  });

  it('runs only what is asked for, beside the site as filed', () => {
    const only = studyOf(YEAR, { only: 'more sun' });
    expect(only.alternatives.map(({ name }) => name)).toEqual(['as filed', 'more sun']);
    expect(only.alternatives[1].years).toEqual(study.alternatives[2].years);
  });

  it('can be stopped between alternatives, and has those that are finished', () => {
    const run = runHorizon(request(YEAR));
    let seen: HorizonStudy | null = null;
    let yearsTold = 0;
    for (let next = run.next(); !next.done && seen === null; next = run.next()) {
      seen = next.value.study;
      yearsTold++;
    }
    expect(yearsTold).toBe(6);
    expect(seen?.alternatives).toHaveLength(1);
    expect(seen?.outstanding).toEqual(['five modules', 'more sun']);
  });
});

describe('weather years in turn', () => {
  const list = (seeds: string) => `${YEAR}horizon: { weatherYears: [${seeds}] }\n`;

  it('are those of the seeds, from the first again after the last', () => {
    const { years } = studyOf(list('a, b'), { only: 'as filed' }).alternatives[0];
    expect(years.map(({ weather }) => weather)).toEqual(['a', 'b', 'a', 'b', 'a']);
    const alone = runStudy(request(YEAR.replace('seed: first', 'seed: a'), { only: 'as filed' })).study!;
    expect(years[0].fuelL).toBe(alone.alternatives[0].ledger.totals.fuelL);
    const other = studyOf(list('b'), { only: 'as filed' }).alternatives[0];
    expect(years[0].fuelL).not.toBe(other.years[0].fuelL);
    expect(other.years[0].weather).toBe('b');
  });

  it('leave the shortcut as it is: the year of the site file', () => {
    const { shortcut } = studyOf(list('a, b'), { only: 'as filed' }).alternatives[0];
    expect(shortcut).toEqual(studyOf(YEAR, { only: 'as filed' }).alternatives[0].shortcut);
  });

  it('can be files, which must be there', () => {
    const files = SMALL_SITE.replace(
      'alternatives:',
      'horizon: { weatherYears: [sky.csv, cloud.csv] }\nalternatives:',
    );
    expect(checkStudy(request(files)).issues.map(issueSentence)).toEqual([
      "site.yaml:14:36: horizon.weatherYears.1: found no file 'cloud.csv'; expected a file that is there, by its path beside the site file",
      expect.stringMatching(/load\.csv: load: found load in steps of 30 min/),
    ]);
  });
});

describe('a horizon that cannot be', () => {
  const errorsOf = (text: string) =>
    horizonOf(text)
      .issues.filter(({ severity }) => severity === 'error')
      .map(issueSentence);

  it('is refused for a period that is no whole year, at its place', () => {
    expect(errorsOf(SMALL_SITE)).toEqual([
      'site.yaml:2:36: period.days: found 10; expected 365: years are simulated one after the other, each a whole one',
    ]);
  });

  it('is refused for weather years without weather', () => {
    const text = YEAR.replace(/weather: [^}]*}\n/, '').replace(/arrays: .*\n/, '');
    expect(
      errorsOf(`${text}horizon: { weatherYears: [a, b] }\n`.replace(/ {2}- \{ name: more sun.*\n/, '')),
    ).toEqual([
      expect.stringMatching(
        /horizon\.weatherYears: found 2 years of weather; expected 'repeat', or a weather of which these are years/,
      ),
    ]);
  });

  it('is refused for a resistance that leaves nothing', () => {
    const wear =
      'wear: { cycleLife: [{ depth: 0.2, cycles: 9000 }, { depth: 1, cycles: 3000 }], resistancePerAgeFade: 10 }';
    const lossy = (efficiency: number) =>
      YEAR.replace('modules: 3,', `modules: 3, chargeEfficiency: ${efficiency}, ${wear},`).replace(
        'batteryYears: 2, ',
        '',
      );
    // by hand: a fifth lost is three times the resistance: 1 − 0.2·3 = 0.4
    expect(errorsOf(lossy(0.8))).toEqual([
      expect.stringMatching(
        /resistancePerAgeFade: found 10 and 0, which bring a one-way efficiency down to 0\.40/,
      ),
    ]);
    expect(errorsOf(lossy(0.9))).toEqual([]);
  });

  it('is refused for another word than repeat', () => {
    expect(errorsOf(`${YEAR}horizon: { weatherYears: twice }\n`)[0]).toMatch(
      /horizon\.weatherYears: found 'twice'; expected "repeat"/,
    );
  });
});
