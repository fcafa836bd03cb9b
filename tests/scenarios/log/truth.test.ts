import { readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { recordTruth, USUAL_RECORDER } from '../../../src/scenarios/log/recorder.ts';
import { simulateTruth, type Truth, type TruthRequest } from '../../../src/scenarios/log/truth.ts';
import { runStudy } from '../../../src/scenarios/run-study.ts';

const FARM = resolve(import.meta.dirname, '../../../profiles/sites/farm.yaml');
const TEXT = readFileSync(FARM, 'utf8').replace('days: 365', 'days: 30');
const ASKED: TruthRequest = {
  text: TEXT,
  file: FARM,
  readFile: (path) => readFileSync(join(dirname(FARM), path)),
  stepMin: 5,
  stretches: [{ fromDay: 0, changes: {} }],
};

function truthOf(asked: TruthRequest): Truth {
  const truth = simulateTruth(asked);
  if (Array.isArray(truth)) throw new Error(JSON.stringify(truth));
  return truth;
}

const sum = (values: ArrayLike<number>) => Array.from(values).reduce((all, one) => all + one, 0);

describe('a site as it really is', () => {
  it('is the simulated one where nothing differs', () => {
    const { study } = runStudy({ ...ASKED, version: '', only: 'as filed' });
    const [{ ledger, columns }] = study?.alternatives ?? [];
    const truth = truthOf(ASKED);
    expect(truth.socFrac).toEqual(columns.socFrac);
    expect(truth.generatorKw).toEqual(columns.generatorKw);
    expect(sum(truth.loadKw.map(sum)) / 12).toBeCloseTo(ledger.totals.servedKwh, 6);
    expect(sum(Object.values(truth.arraysKw).map(sum)) / 12).toBeCloseTo(ledger.totals.dcUsedKwh, 6);
  });

  it('burns what the ledger says, but for part steps', () => {
    const { study } = runStudy({ ...ASKED, stepMin: 1, version: '', only: 'as filed' });
    const totals = study?.alternatives[0].ledger.totals;
    const { fuelL } = truthOf({ ...ASKED, stepMin: 1 });
    const delivered = (totals?.deliveredL ?? 0) * Number((totals?.deliveries ?? 0) > 0);
    expect(900 + delivered - (fuelL?.at(-1) ?? 0)).toBeGreaterThan(0.99 * (totals?.fuelL ?? 0));
    expect(900 + delivered - (fuelL?.at(-1) ?? 0)).toBeLessThan(1.02 * (totals?.fuelL ?? 0));
  });

  it('goes on from where it was when something changes, and differs only from then on', () => {
    const plain = truthOf(ASKED);
    const changed = truthOf({
      ...ASKED,
      stretches: [...ASKED.stretches, { fromDay: 10, changes: { 'arrays.barn.kWp': 4 } }],
    });
    const at = (10 * 1440) / 5;
    expect(changed.socFrac?.subarray(0, at)).toEqual(plain.socFrac?.subarray(0, at));
    expect(sum(changed.arraysKw.barn.subarray(at))).toBeLessThan(0.5 * sum(plain.arraysKw.barn.subarray(at)));
    expect(changed.socFrac?.[at]).toBeCloseTo(plain.socFrac?.[at] ?? 0, 1);
  });

  it('shows a charge that drifts, as the thresholds see it', () => {
    const truth = truthOf({
      ...ASKED,
      stretches: [{ fromDay: 0, changes: { 'battery.display': { driftPerDay: 0.01 } } }],
    });
    const plain = truthOf(ASKED);
    expect(truth.generatorKw).not.toEqual(plain.generatorKw);
  });

  it('lists what is wrong with a change', () => {
    const wrong = simulateTruth({
      ...ASKED,
      stretches: [{ fromDay: 0, changes: { 'battery.modules': -1 } }],
    });
    expect(wrong).toMatchObject([{ severity: 'error' }]);
  });
});

describe('a recorder', () => {
  it('sees means and levels, rounded, off by chance, with holes', () => {
    const truth = truthOf(ASKED);
    const record = recordTruth(truth, { ...USUAL_RECORDER, stepMin: 15, gapsADay: 1, seed: 'seen' });
    expect(record.axis).toMatchObject({ stepMin: 15, count: 30 * 96 });
    const { socFrac, load1Kw } = record.columns;
    const soc = socFrac as Float64Array;
    const missing = Array.from(soc).filter(Number.isNaN).length;
    expect(missing).toBe(record.sheet.gaps.reduce((all, gap) => all + gap.steps, 0));
    expect(missing).toBeGreaterThan(100);
    for (const [i, seen] of soc.entries())
      if (!Number.isNaN(seen))
        expect(Math.abs(seen - (truth.socFrac?.[3 * i + 2] ?? 0))).toBeLessThan(0.00501);
    const errors = Array.from(load1Kw as Float64Array, (seen, i) => {
      const exact = sum(truth.loadKw[0].subarray(3 * i, 3 * i + 3)) / 3;
      return (seen - exact) / exact;
    }).filter((error) => !Number.isNaN(error));
    expect(Math.abs(sum(errors) / errors.length)).toBeLessThan(0.003);
    expect(Math.sqrt(sum(errors.map((error) => error ** 2)) / errors.length)).toBeGreaterThan(0.008);
  });

  it('makes the same log from the same seed', () => {
    const truth = truthOf(ASKED);
    const one = recordTruth(truth, { ...USUAL_RECORDER, seed: 'a' });
    expect(recordTruth(truth, { ...USUAL_RECORDER, seed: 'a' })).toEqual(one);
    expect(recordTruth(truth, { ...USUAL_RECORDER, seed: 'b' })).not.toEqual(one);
  });
});
