import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { makeEvaluator } from '../../../src/scenarios/many/evaluate.ts';
import { CAPITAL } from '../../../src/scenarios/many/ground.ts';
import { OUTCOME_KEYS, type Outcome } from '../../../src/scenarios/many/outcome.ts';
import { WrongVariants } from '../../../src/scenarios/many/wrong-variants.ts';
import { runStudy } from '../../../src/scenarios/run-study.ts';
import type { AlternativeResult } from '../../../src/scenarios/study.ts';
import { SMALL_SITE, smallSiteFile } from '../small-site.ts';
import { farmByHours, small } from './small-requests.ts';

/** What a report says of an alternative, in the words of an outcome. */
function reported({ ledger, money, batteryLifeYears }: AlternativeResult): Omit<Outcome, 'mostStartsADay'> {
  const { totals, extremes } = ledger;
  return {
    fuelL: totals.fuelL,
    runH: totals.runH,
    starts: totals.starts,
    lowLoadH: totals.lowLoadH,
    nightH: totals.nightH,
    unservedKwh: totals.unservedKwh,
    unservedH: totals.unservedH,
    outages: totals.outages,
    curtailedKwh: totals.curtailedKwh,
    minSoc: extremes.minSoc,
    batteryYears: batteryLifeYears,
    capital: money.capital,
    runningFirstYear: money.runningFirstYear,
    lifeCycleCost: money.lifeCycleCost,
    levelised: money.levelisedCostPerKwh,
    co2Kg: money.co2FirstYearKg,
    visits: totals.visits,
  };
}

describe('makeEvaluator', () => {
  it('says of variants what a study says of the same alternatives', async () => {
    const request = farmByHours();
    const { study } = runStudy({ ...request, version: '' });
    const alternatives = study?.alternatives ?? [];
    expect(alternatives).toHaveLength(6);
    const { evaluate } = makeEvaluator(request);
    const [filed] = alternatives;
    const outcomes = await evaluate(
      alternatives.map(({ changes, money }) => ({
        ...Object.fromEntries(changes.map(({ path, to }) => [path, to])),
        [CAPITAL]: money.capital - filed.money.capital,
      })),
    );
    for (const [i, alternative] of alternatives.entries())
      expect(outcomes[i]).toMatchObject(reported(alternative));
    expect(Object.keys(outcomes[0])).toEqual(OUTCOME_KEYS);
    expect(outcomes[0].fuelL).toBe(filed.ledger.totals.fuelL);
    expect(new Set(outcomes.map(({ fuelL }) => fuelL)).size).toBe(6);
    // by days of 24 hours from the first midnight
    for (const [i, { ledger }] of alternatives.entries()) {
      const days = ledger.runs.map(({ startH }) => Math.floor(startH / 24));
      const most = Math.max(...days.map((day) => days.filter((other) => other === day).length));
      expect(outcomes[i].mostStartsADay).toBe(most);
    }
  });

  it('gives the same whatever was run before', async () => {
    const variants = [
      {},
      { 'battery.modules': 3 },
      { 'arrays.roof.kWp': 5 },
      { 'load.0.scale': 1.5 },
      { 'control.charge.startSoc': 0.5 },
      { 'weather.file': 'nowhere.csv' },
      { generator: null, 'control.charge': null },
      { battery: null, 'control.charge': null, 'arrays.roof.coupling': 'ac' },
      { 'control.restrictedHours': [{ from: '17:00', to: '23:00' }] },
      { 'arrays.roof.azimuthDeg': 90 },
    ];
    const { tryEach } = makeEvaluator(small());
    const there = await tryEach(variants);
    const back = await tryEach([...variants].reverse());
    expect(back.reverse()).toEqual(there);
    for (const [i, changes] of variants.entries())
      expect((await makeEvaluator(small()).tryEach([changes]))[0]).toEqual(there[i]);
    const different = there.map((one) => JSON.stringify(one));
    expect(new Set(different).size).toBe(variants.length);
  });

  it('throws every problem of every variant that contradicts itself, named after its changes', async () => {
    const { evaluate, tryEach } = makeEvaluator(small());
    const variants = [
      { 'control.charge.stopSoc': 0.2 },
      { 'battery.modules': 4 },
      { 'generator.ratedKw': 'big', 'battery.modlues': 3 },
    ];
    const error = await evaluate(variants).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(WrongVariants);
    expect((error as WrongVariants).issues.map(issueSentence)).toMatchInlineSnapshot(`
      [
        "site.yaml:12:37: control.charge.stopSoc = 0.2: control.charge.stopSoc: found 0.2; expected above startSoc, 0.3",
        "site.yaml:1:1: generator.ratedKw = "big", battery.modlues = 3: battery.modlues: found 'battery.modlues'; expected 'battery.modules'",
        "site.yaml:10:23: generator.ratedKw = "big", battery.modlues = 3: generator.ratedKw: found 'big'; expected a number",
      ]
    `);
    const attempts = await tryEach(variants);
    expect(attempts.map(Array.isArray)).toEqual([true, false, true]);
  });

  it('refuses a wrong site file with its problems', () => {
    expect(() => makeEvaluator(small(SMALL_SITE.replace('kWp: 3', 'kWp: x')))).toThrow(
      /arrays.0.kWp: found 'x'/,
    );
    expect(() => makeEvaluator(small('{'))).toThrow(WrongVariants);
    const readFile = (path: string) => {
      if (path === 'sky.csv') throw new Error('gone');
      return smallSiteFile(path);
    };
    expect(() => makeEvaluator({ ...small(), readFile })).toThrow(/no file 'sky.csv'/);
  });

  it('runs at another step', async () => {
    const { evaluate } = makeEvaluator(small());
    const [fine] = await evaluate([{}], 5);
    const { study } = runStudy({ ...small(), version: '', stepMin: 5 });
    expect(fine.fuelL).toBe(study?.alternatives[0].ledger.totals.fuelL);
    const [coarse] = await evaluate([{}]);
    expect(coarse.fuelL).not.toBe(fine.fuelL);
  });
});
