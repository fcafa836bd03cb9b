import { describe, expect, it } from 'vitest';
import { faultLines } from '../../../src/report/visit/fault-lines.ts';
import {
  faultCheck,
  faultEvidence,
  faultTermsWords,
  faultTitle,
} from '../../../src/report/visit/fault-words.ts';
import { findFaults } from '../../../src/scenarios/visit/faults/find-faults.ts';
import { FAULTS, type Fault } from '../../../src/scenarios/visit/visit.ts';
import { faultyCase } from '../../scenarios/visit/fault-cases.ts';
import { richVisit } from './fixture-visit.ts';

const NIGHT: Fault = {
  ...{ kind: 'night-load', part: null, fromS: 0, toS: 864_000, size: 0.35, unit: 'kW' },
  evidence: { beforeKw: 0.46, afterKw: 0.81, nights: 12, kwhADay: 8.4 },
};

describe('the words of faults', () => {
  it('tell what is seen against what is expected', () => {
    expect(faultEvidence(NIGHT)).toBe(
      'the least load of nights rose from 0.46 kW to 0.81 kW and has stayed for 12 nights; if it is on all day it takes 8.4 kWh a day',
    );
  });

  it('tell one string and one day in the singular', () => {
    const evidence = { shareBefore: 0.97, shareAfter: 0.01, stringsLost: 1, strings: 1, days: 1 };
    const words = faultEvidence({ ...NIGHT, kind: 'dead-string', evidence });
    expect(words).toContain('on 1 day on which');
    expect(words).toContain('1.0 of its 1 string would give');
  });

  it('give fuel that left at once in litres, and a leak in litres a day', () => {
    const visit = richVisit();
    const when = (unit: Fault['unit']) =>
      faultLines({ ...NIGHT, kind: 'fuel-loss', size: 40, unit }, visit).when;
    expect(when('L')).toMatch(/about 40 L at once$/);
    expect(when('L/day')).toMatch(/about 40 L a day$/);
  });

  it('name the size from which on a fault is found', () => {
    expect(faultTermsWords('dead-string')).toBe(
      'from one of its strings on, or 12 % of the array where a string is less, with 7 days on either side on which it is not held back',
    );
  });

  it.each(FAULTS)('have a title, and say what is work for licensed people: %s', (kind) => {
    expect(faultTitle(kind)).toMatch(/^[a-z].*[^.]$/);
    expect(faultCheck(kind)).toMatch(/licensed people/);
    expect(faultTermsWords(kind)).toMatch(/^from (\d|one of)/);
  });

  it.each(FAULTS)('have a figure for everything that a found fault tells: %s', (kind) => {
    const faults = findFaults(faultyCase(kind, 2, 0, 'words').ground).filter((fault) => fault.kind === kind);
    expect(faults.length).toBeGreaterThan(0);
    for (const fault of faults) {
      const words = faultEvidence(fault);
      expect(words).not.toMatch(/undefined|NaN|–|null/);
      for (const value of Object.values(fault.evidence)) expect(Number.isFinite(value)).toBe(true);
    }
  });
});
