import { describe, expect, it } from 'vitest';
import { runStudy } from '../../../src/scenarios/run-study.ts';
import { compareWithLog } from '../../../src/scenarios/visit/compare/compare.ts';
import { estimateAll } from '../../../src/scenarios/visit/estimates/all.ts';
import { finerGround, hiddenPeaks } from '../../../src/scenarios/visit/finer-ground.ts';
import { visitFiles } from './changed-files.ts';
import { groundOf, logOf, thinFarm, truthOf } from './thin-farm.ts';

const sum = (values: ArrayLike<number>) => Array.from(values).reduce((all, one) => all + one, 0);

/** The same site where only the battery starts the engine. */
const withoutPeak = (files: ReturnType<typeof thinFarm>) => ({
  ...files,
  text: files.text.replace(/^ {2}peak: .*\n/m, ''),
});

describe('a log of longer steps than the design has', () => {
  const files = withoutPeak(thinFarm(20));
  const truth = truthOf(files, [{ fromDay: 0, changes: { 'load.0.scale': 1.3 } }]);
  const exact = { noiseFrac: 0, gapsADay: 0, quantum: { socFrac: 0, kw: 0, c: 0, l: 0, wPerM2: 0 } };
  const coarse = groundOf(files, logOf(truth, { ...exact, stepMin: 30 }));
  const finer = finerGround(files, coarse);

  it('is laid on those, each reading holding for its whole step', () => {
    expect(finer.record.axis).toEqual({ ...coarse.record.axis, stepMin: 5, count: 20 * 288 });
    expect(finer.designed.count).toBe(20 * 288);
    for (const [i, soc] of (finer.record.columns.socFrac as Float64Array).entries())
      expect(soc).toBe(coarse.record.columns.socFrac?.[Math.floor(i / 6)]);
  });

  it('has load within them as was designed, and its means as they were logged', () => {
    const within = finer.record.columns.load2Kw as Float64Array;
    // the truth is the design times 1.3, so its peaks come back, but for what was not served
    const back = within.filter((kw, i) => Math.abs(kw - truth.loadKw[1][i]) < 1e-9).length;
    expect(back).toBeGreaterThan(0.98 * within.length);
    const logged = coarse.record.columns.load2Kw as Float64Array;
    for (let i = 0; i < logged.length; i += 7)
      expect(sum(within.subarray(6 * i, 6 * i + 6)) / 6).toBeCloseTo(logged[i], 9);
    expect(Math.max(...within)).toBeGreaterThan(1.2 * Math.max(...logged));
  });

  it('stays as it is where it is as fine', () => {
    const fine = groundOf(files, logOf(truth, { ...exact, stepMin: 5 }));
    expect(finerGround(files, fine)).toBe(fine);
  });
});

describe('a log of a site whose engine is started by peaks', () => {
  const files = visitFiles('workshop', (site) => {
    site.period.days = 60;
  });
  const truth = truthOf(files, [{ fromDay: 0, changes: {} }], 1);
  const ground = groundOf(files, logOf(truth, { stepMin: 10 }));
  const finer = finerGround(files, ground);

  it('is laid on minutes, in which an unchanged plant runs as designed', () => {
    expect(finer.record.axis).toEqual({ ...ground.record.axis, stepMin: 1, count: 60 * 1440 });
    const asDesigned = (one: typeof ground) =>
      compareWithLog(one, estimateAll(ground), []).comparison.asDesigned;
    expect(asDesigned(finer)).toBe(true);
    // in the log's own steps the peaks that started it are gone
    expect(asDesigned(ground)).toBe(false);
  });

  it('tells what the design in its own steps promises less, where that is told apart', () => {
    const [{ got, want, path }, ...others] = hiddenPeaks(finer);
    expect([path, others]).toEqual(['period.stepMin', []]);
    const litres = (text: string) => Number(/burns (\d+) L/.exec(text)?.[1]);
    expect(litres(got)).toBeLessThan(0.97 * litres(want));
    // it is what simulating the site in either step says, which begins with another charge
    for (const [text, stepMin] of [
      [got, 5],
      [want, 1],
    ] as const) {
      const { study } = runStudy({ ...files, version: '', stepMin });
      expect(litres(text) / (study?.alternatives[0].ledger.totals.fuelL ?? 0)).toBeCloseTo(1, 1.5);
    }
    expect(hiddenPeaks(ground)).toEqual([]);
  });

  it('tells nothing of the kind where peaks start nothing, whatever the two steps', () => {
    const quiet = withoutPeak(thinFarm(20));
    const slow = { ...quiet, text: quiet.text.replace('stepMin: 5', 'stepMin: 15') };
    const record = logOf(truthOf(quiet, [{ fromDay: 0, changes: {} }]), { stepMin: 10 });
    const between = groundOf(slow, record);
    expect([between.site.period.stepMin, between.site.control.peak]).toEqual([15, null]);
    expect(hiddenPeaks(finerGround(slow, between))).toEqual([]);
  });
});
