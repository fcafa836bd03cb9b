/** A site on which every design check is fine, and what becomes of each check when the site is made worse. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { DesignCheck, Verdict } from '../../../src/scenarios/design-checks/check.ts';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { runStudy } from '../../../src/scenarios/run-study.ts';
import { smallSiteFile } from '../small-site.ts';

const SITE = readFileSync(new URL('../samples/checked-site.yaml', import.meta.url), 'utf8');

type Replacement = [from: string, to: string];

function checksWith(...replacements: Replacement[]): DesignCheck[] {
  let text = SITE;
  for (const [from, to] of replacements) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  const { study, issues } = runStudy({ text, file: 'site.yaml', readFile: smallSiteFile, version: '0' });
  if (study === null) throw new Error(issues.map(issueSentence).join('\n'));
  return study.alternatives[0].checks;
}

const named = (checks: DesignCheck[], key: string) => checks.find((check) => check.key === key);

describe('a site that is fine', () => {
  const checks = checksWith();

  it('is fine on every check, and each has a rule, a source and a margin on the good side', () => {
    expect(checks.filter(({ verdict }) => verdict !== 'fine')).toEqual([]);
    for (const { rule, source, title, unit, margin, missing } of checks) {
      expect(rule).toMatch(/^[A-Z].*\.$/);
      expect(source).toMatch(/common practice|memory|second hand|seen|site file/);
      expect(title.length).toBeLessThan(70);
      expect(unit).not.toBe('');
      expect(margin).toBeGreaterThanOrEqual(0);
      expect(missing).toEqual([]);
    }
  });

  it('is held against every rule once', () => {
    const keys = checks.map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys.length).toBe(39);
    for (const [key] of WORSE) expect(keys).toContain(key);
    const worsened = new Set(WORSE.map(([key]) => key));
    const untried = keys.filter((key) => !worsened.has(key) && !key.includes('shed'));
    expect(untried).toEqual([]);
  });

  // each worked by hand from the numbers of the site file
  it.each([
    ['strings.roof.cold', 5 * 38 * (1 + 0.003 * 35)],
    // cells 31.25 K above 30 °C
    ['strings.roof.heat', 5 * 32 * (1 - 0.004 * 36.25)],
    ['strings.roof.current', 1.25 * 4 * 13.5],
    // 160 A at 50 V
    ['array.roof.ratio', 100],
    ['acArray.inverter', 2],
    ['acArray.battery', 6 * 0.94],
    // 8 kW with 5 % of losses, 30 W idle on three phases and 30 W of standby
    ['battery.current', (3 * 8.4 + 0.12) / 0.05],
    // 16 kW: 2 % and twice 3 %
    ['battery.surge', (3 * 16 * 1.08 + 0.12) / 0.05],
    ['breaker.lights', (3 * 8000) / 230],
    ['charger.most', 60],
    ['charger.least', 60],
    // 25 kWh at 97 %, with 12 kW through 94 % less 0.12 kW
    ['generator.recharge', 25 / 0.97 / (12 * 0.94 - 0.12)],
    ['phases.peak', 1.6],
    ['phases.generator', 4.8],
    // 17.849 kVA against 25 kVA over 0.15
    ['motor.pump.generator', (100 * 17.849) / (17.849 + 25 / 0.15)],
  ])('%s', (key, value) => {
    expect(named(checks, key)?.value).toBeCloseTo(value, 2);
  });

  it('adds the start of a motor to the load of its phase as vectors', () => {
    const perPhase = (6 * 2.2) / 0.87 / 0.85 / 3;
    // half hours of 0.4 kW in 35 of 48 and of 1.2 kW in 13, times 4, on three phases
    const loadKw = ((35 * 0.4 + 13 * 1.2) / 48) * (4 / 3);
    const kw = perPhase * 0.4 + loadKw;
    const kvar = perPhase * Math.sqrt(1 - 0.16);
    expect(named(checks, 'motor.pump.inverter')?.value).toBeCloseTo(Math.hypot(kw, kvar), 6);
  });
});

/** Each check, what is changed in the site, and the verdict that it then has. */
const WORSE: [key: string, verdict: Verdict, ...replacements: Replacement[]][] = [
  ['strings.roof.cold', 'not acceptable', ['maxV: 250', 'maxV: 205']],
  ['strings.roof.cold', 'look at', ['maxV: 250', 'maxV: 212']],
  ['strings.roof.heat', 'not acceptable', ['minV: 100', 'minV: 140']],
  ['strings.roof.current', 'look at', ['maxInputA: 80', 'maxInputA: 60']],
  ['strings.roof.current', 'not acceptable', ['maxInputA: 80', 'maxInputA: 50']],
  ['array.roof.ratio', 'look at', ['controllerA: 160', 'controllerA: 100']],
  ['array.roof.ratio', 'not acceptable', ['controllerA: 160', 'controllerA: 70']],
  [
    'acArray.inverter',
    'not acceptable',
    ['inverterKw: 6', 'inverterKw: 6\n    phase: 2'],
    ['ratedKva: 8', 'ratedKva: 5'],
  ],
  ['acArray.battery', 'look at', ['moduleChargeKw: 2.5', 'moduleChargeKw: 0.5']],
  ['battery.current', 'look at', ['moduleDischargeKw: 3', 'moduleDischargeKw: 2']],
  ['battery.surge', 'not acceptable', ['modulePeakKw: 6', 'modulePeakKw: 5']],
  ['warranty.cycles', 'look at', ['cycles: 3650', 'cycles: 2000']],
  ['warranty.throughput', 'look at', ['PerModule: 15000', 'PerModule: 14000']],
  ['warranty.cold', 'not acceptable', ['lowestC: 0', 'lowestC: 20']],
  ['warranty.hot', 'not acceptable', ['highestC: 50', 'highestC: 25']],
  ['autonomy.worstMonth', 'look at', ['design: {', 'design: { autonomyDays: 1,']],
  ['autonomy.year', 'not acceptable', ['design: {', 'design: { autonomyDays: 2,']],
  ['phases.peak', 'look at', ['ratedKva: 8', 'ratedKva: 1.5']],
  [
    'phases.balance',
    'look at',
    [
      'columns: { house: all } }',
      'columns: { house: all } }\n  - { file: load.csv, unit: kW, stamp: start, columns: { house: 1 } }',
    ],
  ],
  ['phases.balance', 'not acceptable', ['house: all', 'house: 1']],
  ['phases.neutral', 'look at', ['house: all', 'house: 1'], ['ratedKva: 8', 'ratedKva: 4']],
  ['phases.generator', 'look at', ['scale: 4', 'scale: 18']],
  [
    'motor.pump.inverter',
    'not acceptable',
    ['surgeTimes: 2', 'surgeTimes: 1'],
    ['ratedKw: 2.2', 'ratedKw: 3'],
  ],
  ['motor.pump.generator', 'not acceptable', ['ratedKw: 2.2', 'ratedKw: 5.5']],
  ['breaker.lights', 'look at', ['curve: B', 'curve: C']],
  ['breaker.lights', 'not acceptable', ['curve: B', 'curve: D']],
  ['charger.most', 'look at', ['chargerKw: 4', 'chargerKw: 6']],
  ['charger.most', 'not acceptable', ['chargerKw: 4', 'chargerKw: 7']],
  ['charger.least', 'look at', ['chargerKw: 4', 'chargerKw: 2']],
  ['charger.least', 'not acceptable', ['chargerKw: 4', 'chargerKw: 1']],
  ['generator.recharge', 'look at', ['design: {', 'design: { rechargeH: 2,']],
  ['generator.recharge', 'not acceptable', ['stopSoc: 0.8 }', 'stopSoc: 0.8 }\n  maxRunH: 2']],
  ['generator.lowLoad', 'not acceptable', ['chargerKw: 4', 'chargerKw: 1.4']],
  ['generator.average', 'look at', ['ratingClass: continuous', 'ratingClass: prime']],
  ['starts.day', 'not acceptable', ['design: {', 'design: { mostStartsPerDay: 1,']],
  [
    'restricted.hours',
    'not acceptable',
    ['"04:00"', '"23:00"'],
    ['stopSoc: 0.8 }', 'stopSoc: 0.8 }\n  urgentSoc: 0.25'],
  ],
  [
    'tank.darkWeek',
    'look at',
    ['capacityL: 1000, initialL: 1000', 'capacityL: 190, initialL: 190'],
    ['orderAtL: 500, leadDays: 5', 'orderAtL: 150'],
  ],
  ['tank.order', 'not acceptable', ['orderAtL: 500', 'orderAtL: 150']],
  ['cabinet.hotAir', 'look at', ['hottestC: 30', 'hottestC: 42']],
  ['cabinet.hotAir', 'not acceptable', ['hottestC: 30', 'hottestC: 60']],
  ['cabinet.hotPower', 'not acceptable', ['hottestC: 30', 'hottestC: 65'], ['scale: 4', 'scale: 14']],
  ['cabinet.hotCells', 'look at', ['hottestC: 30', 'hottestC: 46']],
  ['cabinet.coldCells', 'look at', ['coldestC: 12', 'coldestC: -4']],
  ['cabinet.coldCells', 'not acceptable', ['coldestC: 12', 'coldestC: -25']],
  ['cabinet.coldCharge', 'not acceptable', ['coldestC: 12', 'coldestC: -25']],
];

describe('a site that is made worse', () => {
  it.each(WORSE)('%s is %s', (key, verdict, ...replacements) => {
    const check = named(checksWith(...replacements), key);
    expect(check?.verdict).toBe(verdict);
    // a voltage is worth a look before it is at its limit
    if (verdict === 'look at' && key === 'strings.roof.cold') expect(check?.margin).toBeCloseTo(2.05, 9);
    else expect(check?.margin).toBeLessThan(0);
  });
});

/** Each check that lacks a value of the site file, and the value. */
const WITHOUT: [key: string, missing: string[], ...replacements: Replacement[]][] = [
  ['strings.roof.cold', ['design.recordLowC'], ['recordLowC: -10, ', '']],
  [
    'strings.roof.cold',
    ['arrays.roof.controller'],
    ['    controller: { maxV: 250, minV: 100, maxInputA: 80 }\n', ''],
  ],
  ['strings.roof.current', ['arrays.roof.controller.maxInputA'], [', maxInputA: 80', '']],
  ['array.roof.ratio', ['arrays.roof.controllerA'], ['    controllerA: 160\n', '']],
  ['battery.surge', ['inverter.surgeTimes'], [', surgeTimes: 2', '']],
  ['battery.surge', ['battery.modulePeakKw'], ['  modulePeakKw: 6\n', '']],
  ['warranty.cycles', ['battery.warranty'], [/ {2}warranty.*\n/.exec(SITE)?.[0] ?? '', '']],
  ['motor.all.inverter', ['motors'], ['motors:\n  - { name: pump, ratedKw: 2.2, startMultiple: 6 }\n', '']],
  ['motor.pump.generator', ['generator.transientReactance'], ['  transientReactance: 0.15\n', '']],
  ['motor.pump.inverter', ['inverter.surgeTimes'], [', surgeTimes: 2', ''], ['ratedKw: 2.2', 'ratedKw: 4']],
  ['breaker.all', ['breakers'], ['breakers:\n  - { name: lights, ratedA: 16, curve: B }\n', '']],
  ['breaker.lights', ['inverter.faultTimes'], [', faultTimes: 3', '']],
  ['generator.average', ['generator.ratingClass'], ['  ratingClass: continuous\n', '']],
  ['tank.darkWeek', ['period.days'], ['days: 10', 'days: 6']],
];

describe('a site that does not say', () => {
  it.each(WITHOUT)('%s needs %j', (key, missing, ...replacements) => {
    expect(named(checksWith(...replacements), key)).toMatchObject({
      verdict: 'not known',
      missing,
      margin: null,
    });
  });

  it('is not called fine at record cold by the weather used, but not acceptable where that is too cold already', () => {
    const cold = checksWith(['recordLowC: -10, ', ''], ['maxV: 250', 'maxV: 190']);
    // 5 modules of 38 V at 18 °C: 194 V
    expect(named(cold, 'strings.roof.cold')).toMatchObject({ verdict: 'not acceptable', missing: [] });
  });

  it('takes the short overload of the site file where none is stated for seconds', () => {
    const overload: Replacement = [', surgeTimes: 2', ', overload: { to: 1.5, minutes: 5, recoveryMin: 30 }'];
    const checks = checksWith(overload);
    expect(named(checks, 'motor.pump.inverter')?.limit).toBeCloseTo(12, 9);
    // 12 kW: 2 % and 1.5 times 3 %
    expect(named(checks, 'battery.surge')?.value).toBeCloseTo((3 * 12 * 1.065 + 0.12) / 0.05, 9);
  });

  it('is fine with a motor that starts within the rating, whatever the overload', () => {
    expect(named(checksWith([', surgeTimes: 2', '']), 'motor.pump.inverter')?.verdict).toBe('fine');
  });
});

describe('checks about what a site has not', () => {
  it('are left out', () => {
    const keys = (...replacements: Replacement[]) => checksWith(...replacements).map(({ key }) => key);
    const cabinet = /cabinet:\n( {2}.*\n)+/.exec(SITE)?.[0] ?? '';
    expect(keys([cabinet, '']).filter((key) => key.startsWith('cabinet'))).toEqual([]);
    const motors = keys(['motors:\n  - { name: pump, ratedKw: 2.2, startMultiple: 6 }\n', 'motors: []\n']);
    expect(motors.filter((key) => key.startsWith('motor'))).toEqual([]);
    const hours = keys(['  restrictedHours: [{ from: "02:00", to: "04:00" }]\n', '']);
    expect(hours).not.toContain('restricted.hours');
  });
});
