import { beforeAll, describe, expect, it } from 'vitest';
import type { Recorded, SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import type { Truth } from '../../../src/scenarios/log/truth.ts';
import { compareWithLog } from '../../../src/scenarios/visit/compare/compare.ts';
import type { Cause, Comparison, Estimate, Fault } from '../../../src/scenarios/visit/visit.ts';
import { estimated } from './estimated.ts';
import { FARM_FILES } from './logged-farm.ts';
import { groundOf, logOf, thinFarm, truthOf } from './thin-farm.ts';

/** A year, so that every season is in it. */
const DAYS = 365;
/** What is left unexplained where the truth was put in: starts moved by noise and rounding move those after them. */
const LEFT_FRAC = 0.02;

const FARM = thinFarm(DAYS);

type Changes = Record<string, unknown>;
type MadeEstimates = (record: ReturnType<typeof logOf>) => Estimate[];

function compared(
  changes: Changes,
  estimates: MadeEstimates = () => [],
  columns?: readonly Recorded[],
  faults: Fault[] = [],
  truthMin = 5,
) {
  const truth = truthOf(FARM, [{ fromDay: 0, changes }], truthMin);
  const record = logOf(truth, columns && { columns, arraysAlone: false });
  return compareWithLog(groundOf(FARM, record), estimates(record), faults);
}

function causeOf({ causes }: Comparison, kind: Cause['kind']): Cause {
  const found = causes.find((cause) => cause.kind === kind);
  if (!found) throw new Error(`no cause ${kind}`);
  return found;
}

/** One cause carries nearly all of what the log has more or less than designed; nothing else matters. */
function expectOnly(
  comparison: Comparison,
  kind: Cause['kind'],
  key: 'generatorKwh' | 'fuelL' | 'runH' = 'generatorKwh',
) {
  const { designed, ran, causes } = comparison;
  const whole = (ran[key] as number) - (designed[key] as number);
  const part = causeOf(comparison, kind)[key] as number;
  expect(Math.sign(part)).toBe(Math.sign(whole));
  expect(Math.abs(part - whole)).toBeLessThan(
    LEFT_FRAC * Math.max(ran[key] as number, designed[key] as number),
  );
  for (const other of causes)
    if (other.kind !== kind)
      expect(Math.abs(other[key] as number)).toBeLessThan(LEFT_FRAC * (designed[key] as number));
  expectSum(comparison);
}

/** From designed to ran: every bit of it is under some cause. */
function expectSum({ designed, ran, causes }: Comparison) {
  for (const key of ['generatorKwh', 'fuelL', 'runH'] as const) {
    if (ran[key] === null) continue;
    const sum = causes.reduce((total, cause) => total + (cause[key] as number), designed[key] as number);
    expect(sum).toBeCloseTo(ran[key] as number, 6);
  }
}

describe('a log against the design, over a year of the farm', () => {
  it('finds more load', () => {
    const { comparison } = compared({ 'load.0.scale': 1.15 });
    expect(comparison.asDesigned).toBe(false);
    expect((comparison.ran.loadKwh as number) / (comparison.designed.loadKwh as number)).toBeCloseTo(1.15, 2);
    expectOnly(comparison, 'load');
    expect(causeOf(comparison, 'load').fuelL).toBeGreaterThan(900);
  });

  it('finds weak arrays where the sun was logged', () => {
    const { comparison } = compared({ 'arrays.0.kWp': 12.8, 'arrays.1.kWp': 6.4 }, (record) => [
      estimated(record, 'arrayFactor', 0.8, 1),
    ]);
    expectOnly(comparison, 'array');
    expect(comparison.asDesigned).toBe(false);
  });

  it('says sun or array where the sun was not logged', () => {
    const columns = ['socFrac', 'loadKw', 'arrayKw', 'generatorKw', 'generatorOn', 'cellC'] as const;
    const { comparison } = compared({ 'arrays.0.kWp': 12.8, 'arrays.1.kWp': 6.4 }, () => [], columns);
    expectOnly(comparison, 'sun-or-array');
    expect(comparison.causes.map(({ kind }) => kind)).not.toContain('sun');
    expect(comparison.causes.map(({ kind }) => kind)).not.toContain('array');
    // without a tank, litres are by the curve
    expect(comparison.fuelFrom).toBe('curve');
  });

  it('finds a small battery', () => {
    const { comparison } = compared({ 'battery.moduleKwh': 4 }, (record) => [
      estimated(record, 'usableKwh', 48, 60),
    ]);
    expectOnly(comparison, 'battery');
    expect(comparison.asDesigned).toBe(false);
  });

  it('finds other thresholds', () => {
    const { comparison } = compared({ 'control.charge.startSoc': 0.5 }, (record) => [
      estimated(record, 'startSoc', 0.501, 0.3),
    ]);
    expectOnly(comparison, 'thresholds');
    expect(causeOf(comparison, 'thresholds').generatorKwh).toBeGreaterThan(2000);
  });

  it('finds weak charging by its hours, part steps counted as such', () => {
    const weak = { 'inverter.chargerKw': 3 };
    const estimates = (record: SiteRecord) => [estimated(record, 'chargeKw', 9, 18)];
    const { comparison } = compared(weak, estimates, undefined, [], 1);
    expectOnly(comparison, 'charging', 'runH');
    expect(causeOf(comparison, 'charging').runH).toBeGreaterThan(100);
  });

  it('does not believe an estimate that takes the run far away from the log', () => {
    const { comparison, believed, doubts } = compared({}, (record) => [
      estimated(record, 'standbyKw', 1.12, 0.12),
      estimated(record, 'usableKwh', 60, 60),
    ]);
    expect(believed.map(({ key }) => key)).toEqual(['usableKwh']);
    expect(comparison.causes.some(({ kind }) => kind === 'standby')).toBe(false);
    expect(doubts).toMatchObject([{ path: 'log: standby', severity: 'doubt' }]);
    expect(Math.abs(causeOf(comparison, 'unexplained').generatorKwh as number)).toBeLessThan(300);
  });

  it('finds a larger standby draw', () => {
    const { comparison } = compared({ 'battery.standbyW': 330 }, (record) => [
      estimated(record, 'standbyKw', 0.42, 0.12),
    ]);
    expectOnly(comparison, 'standby');
  });

  it('finds an engine that burns more, by the tank', () => {
    const fuel = [
      { kW: 0, lPerH: 1.5 },
      { kW: 20, lPerH: 8 },
    ];
    const { comparison } = compared({ 'generator.fuel': fuel }, (record) => [
      estimated(record, 'fuelAtRest', 1.5, 1.1),
      estimated(record, 'fuelPerKwh', 0.325, 0.26),
    ]);
    expect(comparison.fuelFrom).toBe('tank');
    expectOnly(comparison, 'engine', 'fuelL');
  });

  it('tells that a log has only what was served, where the design leaves load unserved', () => {
    const weak = thinFarm(30, { ...FARM_FILES, text: FARM_FILES.text.replace('ratedKva: 8', 'ratedKva: 4') });
    const doubtsOf = (files: ReturnType<typeof thinFarm>) => {
      const record = logOf(truthOf(files, [{ fromDay: 0, changes: {} }]));
      return compareWithLog(groundOf(files, record), [], []).doubts.map(({ code }) => code);
    };
    expect(doubtsOf(weak)).toEqual(['served-only']);
    expect(doubtsOf(thinFarm(30))).toEqual([]);
  });

  it('finds restricted hours that are not in force', () => {
    const { comparison, always } = compared({ 'control.restrictedHours': [] });
    expect(always['control.restrictedHours']).toEqual([]);
    expect(comparison.asDesigned).toBe(false);
    expectSum(comparison);
  });

  it('takes hours that are set from half past an hour for in force when they are', () => {
    // every start that waited comes at half past six, in an hour of which only half is restricted
    const farm = { ...FARM, text: FARM.text.replace("to: '05:00'", "to: '06:30'") };
    expect(farm.text).not.toBe(FARM.text);
    for (const stepMin of [5, 60]) {
      const record = logOf(truthOf(farm, [{ fromDay: 0, changes: {} }]), { stepMin });
      const { always } = compareWithLog(groundOf(farm, record), [], []);
      expect([stepMin, always]).toEqual([stepMin, {}]);
    }
  });

  it('finds exercise runs that are not set', () => {
    const { comparison, always } = compared({ 'control.exercise': { everyDays: 7, at: '11:00' } });
    expect(always['control.exercise']).toMatchObject({ everyDays: 7, at: '11:00' });
    expect(causeOf(comparison, 'hours').runH).toBeGreaterThan(25);
    expectSum(comparison);
  });

  it('puts in a heater that does not work', () => {
    const columns = ['socFrac', 'loadKw', 'generatorKw', 'generatorOn', 'outsideC', 'sunWPerM2'] as const;
    const whole = { fromS: 0, toS: 4e9, size: 8, unit: '°C' as const, evidence: {} };
    const fault: Fault = { kind: 'heater-off', part: null, ...whole };
    const { comparison, always } = compared({ 'cabinet.heater': null }, () => [], columns, [fault]);
    expect(always).toMatchObject({ 'cabinet.heater': null });
    const { generatorKwh } = causeOf(comparison, 'cabinet');
    const less = (comparison.ran.generatorKwh as number) - (comparison.designed.generatorKwh as number);
    expect(Math.abs((generatorKwh as number) - less)).toBeLessThan(
      LEFT_FRAC * (comparison.ran.generatorKwh as number),
    );
  });

  it('puts an estimate in only while it holds', () => {
    const half = Math.round(DAYS / 2);
    const truth = truthOf(FARM, [
      { fromDay: 0, changes: {} },
      { fromDay: half, changes: { 'control.charge.startSoc': 0.5 } },
    ]);
    const record = logOf(truth);
    const fromS = record.axis.startS + half * 86_400;
    const { comparison } = compareWithLog(
      groundOf(FARM, record),
      [{ ...estimated(record, 'startSoc', 0.5, 0.3), fromS }],
      [],
    );
    expectOnly(comparison, 'thresholds');
  });
});

describe('what is compared', () => {
  const FARM_30 = thinFarm(30);
  let truth: Truth;
  beforeAll(() => {
    truth = truthOf(FARM_30, [{ fromDay: 0, changes: {} }]);
  });

  it('is only what the log knows, day by day too', () => {
    const record = logOf(truth, { gapsADay: 0 });
    for (const values of Object.values(record.columns)) values.fill(Number.NaN, 3 * 288, 5 * 288);
    const { comparison } = compareWithLog(groundOf(FARM_30, record), [], []);
    expect(comparison.coverage).toBeCloseTo(28 / 30, 6);
    expect(comparison.days.startS).toHaveLength(30);
    const { days } = comparison;
    for (const sums of [days.designedKwh, days.ranKwh, days.calibratedKwh])
      expect(sums.map((kwh) => kwh === null)).toEqual(sums.map((_, i) => i === 3 || i === 4));
    const sum = days.ranKwh.reduce((total: number, kwh) => total + (kwh ?? 0), 0);
    expect(sum).toBeCloseTo(comparison.ran.generatorKwh as number, 6);
    expect(comparison.filled.loadSteps).toBe(2 * 288);
  });

  it('leaves a column out that hardly ever has a value', () => {
    const record = logOf(truth, { gapsADay: 0 });
    record.columns.arrayKw?.fill(Number.NaN, 500);
    for (const kw of Object.values(record.arraysKw)) kw.fill(Number.NaN, 500);
    const { comparison } = compareWithLog(groundOf(FARM_30, record), [], []);
    expect(comparison.ran.arrayKwh).toBeNull();
    expect(comparison.coverage).toBe(1);
  });

  it('is not known where the log says nothing of the generator', () => {
    const record = logOf(truth, { columns: ['loadKw', 'socFrac', 'fuelL'], arraysAlone: false });
    const { comparison } = compareWithLog(groundOf(FARM_30, record), [], []);
    expect(comparison.ran).toMatchObject({
      generatorKwh: null,
      runH: null,
      starts: null,
      fuelL: null,
      arrayKwh: null,
    });
    expect(comparison.causes.at(-1)).toEqual({
      kind: 'unexplained',
      generatorKwh: null,
      fuelL: null,
      runH: null,
    });
    expect(comparison.days.ranKwh.every((kwh) => kwh === null)).toBe(true);
    expect(comparison.fuelFrom).toBeNull();
  });

  it('does not put in estimates that contradict each other', () => {
    const record = logOf(truth);
    const estimates = [estimated(record, 'startSoc', 0.9, 0.3), estimated(record, 'stopSoc', 0.5, 0.8)];
    const { doubts } = compareWithLog(groundOf(FARM_30, record), estimates, []);
    expect(doubts.length).toBeGreaterThan(0);
    for (const doubt of doubts) expect(doubt).toMatchObject({ severity: 'doubt', code: 'estimate-left-out' });
  });
});
