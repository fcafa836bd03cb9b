import { describe, expect, it } from 'vitest';
import { withValue } from '../../../src/scenarios/edit-site.ts';
import { logCsv } from '../../../src/scenarios/log/write-log.ts';
import type { Visit } from '../../../src/scenarios/visit/visit.ts';
import { VISIT_STAGES, type VisitRequest, visitSite } from '../../../src/scenarios/visit/visit-site.ts';
import { underTrueSun } from '../log/true-sun.ts';
import { withoutLog } from './logged-farm.ts';
import { logOf, thinFarm, truthOf } from './thin-farm.ts';

const DAYS = 70;
const SUNNY = underTrueSun('farm');
/** Under a sun that keeps its time: the clock of a log is held against it. */
const FARM = thinFarm(DAYS, { ...SUNNY, text: withoutLog(SUNNY.text) });
const RECORD = logOf(
  truthOf(FARM, [{ fromDay: 0, changes: { 'load.0.scale': 1.2, 'control.charge.startSoc': 0.4 } }]),
);
const WRITTEN = logCsv(RECORD, {
  ...{ seed: 'visit', stamp: 'start', offsetH: 1, watts: true, percent: true, battery: 'charging' },
  ...{
    decimalComma: false,
    aheadH: 0,
    aheadHPerDay: 0,
    missingShare: 0,
    shuffled: false,
    headerAgain: false,
  },
});
const LOGGED: VisitRequest = {
  ...FARM,
  text: withValue(FARM.text.replace(`days: ${DAYS}`, 'days: 365'), ['log'], {
    file: 'farm-log.csv',
    ...WRITTEN.log,
  }),
  readFile: (path) => (path === 'farm-log.csv' ? Buffer.from(WRITTEN.csv) : FARM.readFile(path)),
  version: 'test',
};

async function visited(request: Partial<VisitRequest>): Promise<Visit> {
  const { visit, issues } = await visitSite({ ...LOGGED, ...request });
  if (visit === null) throw new Error(JSON.stringify(issues, null, 1));
  return visit;
}

describe('a visit', () => {
  it('reads the log that the site file names, and says what was changed', async () => {
    const stages: string[] = [];
    const visit = await visited({ mostRuns: 20, onProgress: (stage) => stages.push(stage) });
    expect([...new Set(stages)]).toEqual([...VISIT_STAGES]);
    const valueFor = (key: string) => visit.estimates.find((one) => one.key === key)?.value;
    expect(valueFor('loadFactor')).toBeCloseTo(1.2, 2);
    expect(valueFor('startSoc')).toBeCloseTo(0.4, 2);
    const [load] = visit.comparison.causes.filter(({ kind }) => kind === 'load');
    expect(load.generatorKwh).toBeGreaterThan(200);
    expect(visit.calibration).toMatchObject({
      'control.charge.startSoc': 0.4,
      'load.0.scale': expect.closeTo(1.2, 2),
    });
    expect(visit.extensions).toHaveLength(5);
    expect(visit.tank?.litresADay).toBeGreaterThan(1);
    expect(visit).toMatchObject({
      invented: true,
      stepMin: 5,
      fuelPerL: 1.6,
      toS: visit.fromS + DAYS * 86_400,
    });
    expect(visit.comparison.asDesigned).toBe(false);
  }, 300_000);

  it('runs the design in its own step, however long those of the log are', async () => {
    const truth = truthOf(FARM, [{ fromDay: 0, changes: {} }]);
    const exact = { gapsADay: 0, noiseFrac: 0, quantum: { socFrac: 0, kw: 0, c: 0, l: 0, wPerM2: 0 } };
    const promised = async (stepMin: number) => {
      const record = logOf(truth, { ...exact, stepMin });
      const { designed } = (await visited({ record, retunes: false })).comparison;
      return designed.starts as number;
    };
    const fine = await promised(5);
    expect(fine).toBeGreaterThan(20);
    expect(Math.abs((await promised(60)) - fine)).toBeLessThanOrEqual(1);
  });

  it('explains by a fault what no estimate tells: chargers that are weak', async () => {
    const weak = { 'inverter.chargerKw': 3 };
    const columns = [
      'socFrac',
      'load1Kw',
      'load2Kw',
      'load3Kw',
      'loadKw',
      'batteryKw',
      'generatorKw',
      'cabinetC',
      'cellC',
    ] as const;
    const record = logOf(truthOf(FARM, [{ fromDay: 0, changes: weak }]), { columns, arraysAlone: false });
    const visit = await visited({ record, retunes: false });
    expect(visit.faults.map(({ kind }) => kind)).toContain('weak-charging');
    expect(visit.estimates.find(({ key }) => key === 'chargeKw')?.value).toBe(null);
    expect(visit.calibration['inverter.chargerKw']).toBeCloseTo(3, 1);
    const charging = visit.comparison.causes.find(({ kind }) => kind === 'charging');
    expect(charging?.runH).toBeGreaterThan(20);
  });

  it('is the same as JSON, and the same from the same bytes', async () => {
    const visit = await visited({ retunes: false });
    expect(visit.retune.why).toBe('not-asked');
    expect(JSON.parse(JSON.stringify(visit))).toEqual(visit);
    expect(JSON.stringify(await visited({ retunes: false }))).toBe(JSON.stringify(visit));
    const text = LOGGED.text.replace('fuelPerL: 1.6', 'fuelPerL: 1.7');
    expect((await visited({ retunes: false, text })).made.inputsHash).not.toBe(visit.made.inputsHash);
  }, 300_000);

  it('takes a log that is handed in', async () => {
    const given = await visited({ retunes: false, record: RECORD, text: FARM.text });
    const other = {
      ...RECORD,
      columns: { ...RECORD.columns, cellC: RECORD.columns.cellC?.map((c) => c + 0.5) },
    };
    const changed = await visited({ retunes: false, record: other, text: FARM.text });
    expect(given.comparison.ran.generatorKwh).toBeGreaterThan(500);
    expect(given.doubts).toContainEqual(expect.objectContaining({ path: 'period.days', code: 'visit' }));
    expect(changed.made.inputsHash).not.toBe(given.made.inputsHash);
  }, 300_000);

  it('can be stopped at every stage', async () => {
    for (const stage of VISIT_STAGES) {
      const onProgress = (now: string) => {
        if (now === stage) throw new Error(`stopped at ${stage}`);
      };
      const request = { ...LOGGED, retunes: false, record: RECORD, onProgress };
      await expect(visitSite(request)).rejects.toThrow(`stopped at ${stage}`);
    }
  }, 300_000);

  it('lists what is wrong instead', async () => {
    const wrong = async (change: (text: string) => string) => {
      const { visit, issues } = await visitSite({ ...LOGGED, text: change(LOGGED.text) });
      expect(visit).toBeNull();
      return issues.filter(({ severity }) => severity === 'error');
    };
    const file = await wrong((text) =>
      text.replace('modules: 12', 'modlues: 12').replace('startSoc: 0.3', 'startSoc: 30'),
    );
    expect(file.length).toBeGreaterThanOrEqual(2);
    expect(file[0].at.line).toBeGreaterThan(0);
    expect(await wrong((text) => text.replace('farm-log.csv', 'none.csv'))).toHaveLength(1);
    expect(await wrong((text) => withValue(text, ['log'], null))).toMatchObject([{ code: 'no-log' }]);
    const short = await wrong((text) => text.replace('days: 365', 'days: 30'));
    expect(short).toMatchObject([{ code: 'log-not-designed' }]);
  }, 300_000);
});
