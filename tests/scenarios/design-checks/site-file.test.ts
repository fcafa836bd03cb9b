import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { checkStudy } from '../../../src/scenarios/run-study.ts';
import { smallSiteFile } from '../small-site.ts';

const SITE = readFileSync(new URL('../samples/checked-site.yaml', import.meta.url), 'utf8');

function sentencesWith(...replacements: [string, string][]): string[] {
  let text = SITE;
  for (const [from, to] of replacements) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  const { issues } = checkStudy({ text, file: 'site.yaml', readFile: smallSiteFile, version: '0' });
  return issues.filter(({ code }) => code !== 'coarse-load').map(issueSentence);
}

describe('values for the design checks in a site file', () => {
  it('have nothing against them where they fit together', () => {
    expect(sentencesWith()).toEqual([]);
  });

  it('are refused or doubted where they do not, all at once and each at its place', () => {
    expect(
      sentencesWith(
        ['minV: 100', 'minV: 300'],
        ['strings: 4,', 'strings: 5,'],
        ['vocV: 38,', 'vocV: 32,'],
        ['iscA: 13.5, impA: 12.5 }', 'iscA: 12.5, impA: 12.5 }'],
        ['coldestC: 12', 'coldestC: 31'],
        ['startMultiple: 6 }', 'startMultiple: 6, phase: 3 }\n  - { name: pump, ratedKw: 1 }'],
      ),
    ).toEqual([
      'site.yaml:25:36: arrays.0.controller.minV: found 300 V; expected below the highest, 250 V',
      'site.yaml:19:15: arrays.0.strings.vmpV: found 32 V; expected below the open-circuit voltage, 32 V',
      'site.yaml:14:5: arrays.0.strings: found 5 strings of 5 modules, 10.0 kW; expected strings that add up to kWp, 8 kWp',
      'site.yaml:32:87: arrays.1.strings.impA: found 12.5 A; expected below the short-circuit current, 12.5 A',
      "site.yaml:63:13: motors.1.name: found a second 'pump'; expected names of their own",
      'site.yaml:60:52: design.coldestC: found 31 °C; expected below hottestC, 30 °C',
    ]);
  });

  it('are doubted where a record is no record, and refused on a phase that is not there', () => {
    expect(
      sentencesWith(
        ['recordLowC: -10', 'recordLowC: 15'],
        ['phases: 3', 'phases: 1'],
        ['startMultiple: 6 }', 'startMultiple: 6, phase: 2 }'],
      ),
    ).toEqual([
      "site.yaml:62:58: motors.0.phase: found phase 2; expected a phase of 1, or 'all'",
      'site.yaml:60:23: design.recordLowC: found 15 °C; expected at most coldestC, 12 °C',
    ]);
  });

  it('names a key that is misspelt, and one that is out of its range', () => {
    expect(
      sentencesWith(
        ['modulePeakKw', 'modulePeakkW'],
        ['curve: B', 'curve: E'],
        ['ratingClass: continuous', 'ratingClass: primary'],
      ),
    ).toEqual([
      "site.yaml:39:3: battery.modulePeakkW: found unknown key 'modulePeakkW'; expected 'modulePeakKw'",
      'site.yaml:54:16: generator.ratingClass: found \'primary\'; expected "continuous" or "prime" or "limitedTime" or "standby"',
      'site.yaml:64:40: breakers.0.curve: found \'E\'; expected "B" or "C" or "D"',
    ]);
  });
});
