import { describe, expect, it } from 'vitest';
import {
  faultCheck,
  faultEvidence,
  faultTermsWords,
  faultTitle,
} from '../../../src/report/visit/fault-words.ts';
import { findFaults } from '../../../src/scenarios/visit/faults/find-faults.ts';
import { FAULTS, type Fault } from '../../../src/scenarios/visit/visit.ts';
import { faultyCase } from '../../scenarios/visit/fault-cases.ts';

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

  it('name the size from which on a fault is found', () => {
    expect(faultTermsWords('dead-string')).toBe(
      'from 12 % of the array or one of its strings on, with 7 days on either side on which it is not held back',
    );
  });

  it.each(FAULTS)('have a title, and say what is work for licensed people: %s', (kind) => {
    expect(faultTitle(kind)).toMatch(/^[a-z].*[^.]$/);
    expect(faultCheck(kind)).toMatch(/licensed people/);
    expect(faultTermsWords(kind)).toMatch(/^from \d/);
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
