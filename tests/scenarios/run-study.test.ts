import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { checkStudy, runStudy } from '../../src/scenarios/run-study.ts';
import { SMALL_SITE, smallSiteFile } from './small-site.ts';

const request = (text: string, more = {}) => ({
  text,
  file: 'site.yaml',
  readFile: smallSiteFile,
  version: '0',
  ...more,
});

describe('runStudy', () => {
  const { study, issues } = runStudy(request(SMALL_SITE));

  it('simulates the site as filed and every alternative', () => {
    expect(issues.map(({ code, severity }) => `${severity} ${code}`)).toEqual(['doubt coarse-load']);
    expect(study?.alternatives.map(({ name }) => name)).toEqual(['as filed', 'more modules', 'bigger roof']);
    expect(study?.alternatives[1].changes).toEqual([{ path: 'battery.modules', from: 2, to: 4 }]);
    expect(study?.alternatives[1].plant.battery?.capacityKwh).toBe(20);
    expect(study?.alternatives[2].controls.charge?.startSoc).toBe(0.4);
    expect(study?.axis.count).toBe(480);
  });

  it('keeps the energy of the files', () => {
    const ledger = study?.alternatives[0].ledger;
    // a day: 35 half hours of 0.4 kW and 13 of 1.2 kW, by the rows above
    expect(ledger?.totals.loadKwh).toBeCloseTo(10 * (35 * 0.2 + 13 * 0.6), 9);
    expect(ledger?.totals.dcPotentialKwh).toBeGreaterThan(50);
  });

  it('takes another step and conserves the load', () => {
    const fine = runStudy(request(SMALL_SITE, { stepMin: 5 })).study;
    const load = study?.alternatives[0].ledger.totals.loadKwh ?? 0;
    expect(fine?.axis.count).toBe(2880);
    expect(fine?.alternatives[0].ledger.totals.loadKwh).toBeCloseTo(load, 9);
  });

  it('runs only what is asked for, beside the site as filed', () => {
    const only = runStudy(request(SMALL_SITE, { only: 'bigger roof' })).study;
    expect(only?.alternatives.map(({ name }) => name)).toEqual(['as filed', 'bigger roof']);
    const wrong = runStudy(request(SMALL_SITE, { only: 'biger roof' }));
    expect(wrong.study).toBeNull();
    const errors = wrong.issues.filter(({ severity }) => severity === 'error');
    expect(errors.map(issueSentence)).toEqual([
      "site.yaml: alternatives: found no alternative 'biger roof'; expected 'as filed' or 'more modules' or 'bigger roof'",
    ]);
  });

  it('names the inputs by a hash that follows them', () => {
    const again = runStudy(request(SMALL_SITE)).study;
    const other = runStudy(request(SMALL_SITE.replace('fuelPerL: 1.5', 'fuelPerL: 1.6'))).study;
    expect(again?.made.inputsHash).toBe(study?.made.inputsHash);
    expect(other?.made.inputsHash).not.toBe(study?.made.inputsHash);
  });
});

/** Sentences of all issues of the small site with pieces of its text replaced. */
function issuesWith(...replacements: [string, string][]): string[] {
  let text = SMALL_SITE;
  for (const [from, to] of replacements) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  return checkStudy(request(text)).issues.map(issueSentence);
}

describe('a wrong site file', () => {
  it('lists every problem at once, with its place, what was found and what would be right', () => {
    expect(
      issuesWith(
        ['modules: 2,', 'modlues: 2,'],
        ['ratedKva: 5', 'ratedKva: 5 kVA'],
        ['startSoc: 0.3', 'startSoc: 30'],
        ['stepMin: 30', 'stepMin: 7'],
        [', azimuthDeg: 0', ''],
      ),
    ).toMatchSnapshot();
  });

  it('refuses a stop below the start, and other contradictions', () => {
    expect(
      issuesWith(
        ['stopSoc: 0.8', 'stopSoc: 0.2'],
        ['moduleDischargeKw: 3', 'moduleDischargeKw: 3, deadSoc: 0.2'],
        ['{ kW: 5, lPerH: 1.9 }', '{ kW: 0, lPerH: 1.9 }'],
        ['house: 1', 'house: 2'],
      ),
    ).toMatchSnapshot();
  });

  it('points at the change of an alternative', () => {
    expect(
      issuesWith(['battery.modules: 4', 'battery.moduls: 4'], ['startSoc: 0.4', 'startSoc: 0.9']),
    ).toMatchSnapshot();
  });

  it('says which column, file and span are missing', () => {
    expect(issuesWith(['columns: { house: 1 }', 'columns: { home: 1 }'])).toMatchSnapshot();
    expect(issuesWith(['file: sky.csv', 'file: cloud.csv'])).toMatchSnapshot();
    expect(issuesWith(['days: 10', 'days: 20'])).toMatchSnapshot();
  });

  it('reports broken YAML with line and column', () => {
    expect(issuesWith(['money: { fuelPerL: 1.5 }', 'money: { fuelPerL: 1.5'])).toMatchSnapshot();
  });
});
