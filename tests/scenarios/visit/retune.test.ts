import { describe, expect, it } from 'vitest';
import { withValue } from '../../../src/scenarios/edit-site.ts';
import { compareWithLog } from '../../../src/scenarios/visit/compare/compare.ts';
import { retune } from '../../../src/scenarios/visit/retune.ts';
import type { Estimate, Retune } from '../../../src/scenarios/visit/visit.ts';
import { estimated } from './estimated.ts';
import { groundOf, logOf, thinFarm, truthOf } from './thin-farm.ts';

const DAYS = 90;
const POOR = { 'control.charge.startSoc': 0.6, 'control.charge.stopSoc': 0.95 };
const RUNS = 100;
const NOTHING = { value: 0, low: 0, high: 0 };

type Files = ReturnType<typeof thinFarm>;

/** A log of a site, and what is to be set. */
async function retuned(
  files: Files,
  changes: Record<string, unknown> = {},
  extra: Estimate['key'][] = [],
): Promise<Retune> {
  const record = logOf(truthOf(files, [{ fromDay: 0, changes }]));
  const ground = groundOf(files, record);
  const known: Partial<Record<Estimate['key'], Estimate>> = {
    startSoc: estimated(record, 'startSoc', 0.6, 0.3, 0.008),
    stopSoc: estimated(record, 'stopSoc', 0.95, 0.8, 0.005),
    usableKwh: estimated(record, 'usableKwh', 60, 60, 0.1),
  };
  const estimates = extra.flatMap((key) => known[key] ?? []);
  const compared = compareWithLog(ground, estimates, []);
  return retune({ ground, compared, estimates, mostRuns: RUNS });
}

describe('settings for the plant as its log shows it', () => {
  it('burn less where the ones in force are poor, and nothing less where they are these', async () => {
    let files = thinFarm(DAYS);
    let found = await retuned(files, POOR, ['startSoc', 'stopSoc', 'usableKwh']);
    expect(found.why).toBe('found');
    const { litresAMonth, hoursAMonth, changes } = found;
    expect(litresAMonth.value).toBeGreaterThan(20);
    expect(litresAMonth.low).toBeGreaterThan(0);
    expect(litresAMonth.low).toBeLessThan(litresAMonth.value);
    expect(litresAMonth.high).toBeGreaterThanOrEqual(litresAMonth.value);
    expect(hoursAMonth.value).toBeGreaterThan(0);
    // what is told as old is what is in force, not what the file says
    expect(changes?.find(({ path }) => path === 'control.charge.startSoc')?.from).toBe(0.6);
    // a search with so few runs may find a little more from where it ended, but not for ever
    for (let round = 0; found.changes !== null && round < 3; round++) {
      let { text } = files;
      for (const { path, to } of found.changes) text = withValue(text, path.split('.'), to);
      files = { ...files, text };
      found = await retuned(files);
    }
    expect(found).toEqual({
      changes: null,
      why: 'nothing-better',
      litresAMonth: NOTHING,
      hoursAMonth: NOTHING,
      startsAMonth: NOTHING,
    });
  }, 600_000);

  it('save what a run of the changed plant saves', async () => {
    const files = thinFarm(DAYS);
    const { changes, litresAMonth } = await retuned(files, POOR, ['startSoc', 'stopSoc']);
    const litres = (all: Record<string, unknown>) => {
      const { comparison } = compareWithLog(
        groundOf(files, logOf(truthOf(files, [{ fromDay: 0, changes: all }]), { gapsADay: 0 })),
        [],
        [],
      );
      return comparison.ran.fuelL as number;
    };
    const to = Object.fromEntries((changes ?? []).map((change) => [change.path, change.to]));
    const saved = ((litres(POOR) - litres({ ...POOR, ...to })) / DAYS) * 30.44;
    expect(Math.abs(litresAMonth.value - saved)).toBeLessThan(0.1 * saved);
  }, 600_000);

  it('are not looked for in a short log', async () => {
    expect(await retuned(thinFarm(59))).toMatchObject({ changes: null, why: 'too-short' });
  });

  it('are not looked for where the log is of another plant than the calibrated one', async () => {
    // nothing says that half of the arrays are gone
    const half = { 'arrays.0.kWp': 8, 'arrays.1.kWp': 4 };
    expect(await retuned(thinFarm(DAYS), half)).toMatchObject({ changes: null, why: 'not-calibrated' });
  });

  it('are not looked for without a generator', async () => {
    const files = thinFarm(DAYS);
    const none = { ...files, text: files.text.replace(/^generator:[\s\S]*?^tank:.*\n/m, '') };
    const record = logOf(truthOf(files, [{ fromDay: 0, changes: {} }]));
    const ground = groundOf(
      {
        ...none,
        text: none.text.replace(/^control:[\s\S]*?^# What/m, '# What').replace(/^alternatives:[\s\S]*/m, ''),
      },
      record,
    );
    const compared = compareWithLog(ground, [], []);
    expect(await retune({ ground, compared, estimates: [] })).toMatchObject({
      changes: null,
      why: 'no-generator',
    });
  });
});
