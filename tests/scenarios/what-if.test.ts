/** Each what-if against the same site simulated with the change written into its site file, or made by hand. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runStudy } from '../../src/scenarios/run-study.ts';
import { type WhatIf, whatIfs } from '../../src/scenarios/what-if.ts';
import { simulate } from '../../src/sim/simulate.ts';

type DemoSite = 'farm' | 'hut' | 'workshop';

function run(name: DemoSite, edit: (text: string) => string = (text) => text) {
  const file = resolve(import.meta.dirname, `../../profiles/sites/${name}.yaml`);
  const { study, again, issues } = runStudy({
    text: edit(readFileSync(file, 'utf8').split('\nalternatives:')[0]),
    file,
    readFile: (path) => readFileSync(resolve(file, '..', path)),
    version: '0',
    stepMin: 60,
  });
  if (!study || !again) throw new Error(JSON.stringify(issues));
  const result = study.alternatives[0];
  return { result, again, cases: whatIfs(again.alternatives[0], result, again.maker) };
}

const caseOf = (cases: readonly WhatIf[], kind: WhatIf['kind']) => cases.find((each) => each.kind === kind);

describe('what if', () => {
  it('diesel doubles: the money of a site file with twice the price, and the same run', () => {
    const doubled = caseOf(run('farm').cases, 'fuelDoubles')!;
    const filed = run('farm', (text) => text.replace('fuelPerL: 1.6', 'fuelPerL: 3.2')).result;
    expect(doubled.money).toEqual(filed.money);
    expect(doubled.ledger.totals).toEqual(filed.ledger.totals);
  });

  it('the load grows: a site file with its load scaled by 1.2', () => {
    const grown = caseOf(run('farm').cases, 'loadGrows')!;
    const filed = run('farm', (text) =>
      text.replace('    unit: kW\n', '    unit: kW\n    scale: 1.2\n'),
    ).result;
    expect(grown.ledger.totals.loadKwh).toBeCloseTo(filed.ledger.totals.loadKwh, 6);
    expect(grown.ledger.totals.fuelL).toBeCloseTo(filed.ledger.totals.fuelL, 6);
    expect(grown.ledger.runs.length).toBe(filed.ledger.runs.length);
    expect(grown.money.lifeCycleCost).toBeCloseTo(filed.money.lifeCycleCost, 4);
  });

  it('the winter is dull: 0.7 of the arrays in the three months that have least', () => {
    const { result, cases } = run('farm');
    const dull = caseOf(cases, 'dullWinter')!;
    // the farm lies at 47° north: November, December and January have least, by the days of 2025
    const days = (month: number) =>
      [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31].slice(0, month).reduce((a, b) => a + b, 0);
    const dcArrayKw = result.inputs.dcArrayKw!.slice();
    for (const month of [10, 11, 0])
      for (let step = days(month) * 24; step < days(month + 1) * 24; step++) dcArrayKw[step] *= 0.7;
    const byHand = simulate(result.plant, result.controls, { ...result.inputs, dcArrayKw });
    expect(dull.ledger.totals.dcPotentialKwh).toBeCloseTo(byHand.totals.dcPotentialKwh, 6);
    expect(dull.ledger.totals.fuelL).toBeCloseTo(byHand.totals.fuelL, 6);
    expect(dull.ledger.totals.fuelL).toBeGreaterThan(result.ledger.totals.fuelL);
  });

  it('nobody is there: a generator that starts by itself does not care', () => {
    const { result, cases } = run('farm');
    const away = caseOf(cases, 'away')!;
    expect(away.ledger.totals.fuelL).toBe(result.ledger.totals.fuelL);
    const perDay = 24;
    expect(away.span!.toStep - away.span!.fromStep).toBe(14 * perDay);
    expect(away.span!.fromStep).toBeLessThanOrEqual(result.darkWeek!.fromStep);
    expect(away.span!.toStep).toBeGreaterThanOrEqual(result.darkWeek!.toStep);
  });

  it('nobody is there: one that is started by hand stands still, as with the days in the site file', () => {
    const byHand = (text: string) =>
      text.replace(
        '  charge: { startSoc: 0.25, delayMin: 5, stopSoc: 0.7 }\n',
        '  hand: { startSoc: 0.7, responseMin: 60, stopSoc: 0.95 }\n',
      );
    const { cases } = run('hut', byHand);
    const away = caseOf(cases, 'away')!;
    const day = (step: number) =>
      new Date(Date.UTC(2025, 0, 1) + step * 3_600_000).toISOString().slice(0, 10);
    const { fromStep, toStep } = away.span!;
    const filed = run(
      'hut',
      (text) => `${byHand(text)}\npeople: { away: [{ from: ${day(fromStep)}, to: ${day(toStep)} }] }\n`,
    ).result;
    expect(away.ledger.totals).toEqual(filed.ledger.totals);
    const within = away.ledger.runs.filter(({ startH }) => startH >= fromStep && startH < toStep);
    expect(within).toEqual([]);
    expect(
      run('hut', byHand).result.ledger.runs.some(({ startH }) => startH >= fromStep && startH < toStep),
    ).toBe(true);
  });

  it('leaves out what the site cannot have', () => {
    const none = run('hut', (text) =>
      text
        .replace(/^generator:[\s\S]*?\n\n/m, '')
        .replace(/^tank:.*\n/m, '')
        .replace(/^ {2}charge:.*\n/m, ''),
    );
    expect(none.result.plant.generator).toBeNull();
    expect(none.cases.map(({ kind }) => kind)).toEqual(['loadGrows', 'dullWinter', 'away']);
    const short = run('farm', (text) => text.replace('days: 365', 'days: 5'));
    expect(short.cases.map(({ kind }) => kind)).toEqual(['fuelDoubles', 'loadGrows']);
  });
});
