import { tableFromIPC } from '@uwdata/flechette';
import { describe, expect, it } from 'vitest';
import { sweepArrow, sweepCsv, sweepJson } from '../../../src/report/sweep/tables.ts';
import { OUTCOME_KEYS } from '../../../src/scenarios/many/outcome.ts';
import { CHOICE, madeOutcome, madeSweep, SOC } from './made-sweep.ts';

const sweep = madeSweep([CHOICE, { ...SOC, values: [0.2, null] }]);
sweep.cells[1].outcome = { ...madeOutcome(0.1 + 0.2, 1e-7), minSoc: null, visits: -0 };
sweep.cells[2] = { at: [1, 0], outcome: null, problems: ['a, "b"', 'c'] };

describe('tables of a sweep', () => {
  it('hold every figure as it is, as CSV', () => {
    const lines = sweepCsv(sweep).trimEnd().split('\n');
    expect(lines[0]).toBe(`alternative,control.charge.startSoc,${OUTCOME_KEYS.join(',')},problem`);
    expect(lines).toHaveLength(5);
    expect(lines[3]).toBe(`24 modules,0.2,${','.repeat(OUTCOME_KEYS.length)}"a, ""b""; c"`);
    const fields = lines[2].split(',');
    const field = (key: (typeof OUTCOME_KEYS)[number]) => fields[2 + OUTCOME_KEYS.indexOf(key)];
    expect(fields.slice(0, 2)).toEqual(['as filed', '']);
    expect([field('lifeCycleCost'), field('fuelL'), field('minSoc'), field('visits')]).toEqual([
      '0.30000000000000004',
      '1e-7',
      '',
      '0',
    ]);
  });

  it('the same as Arrow, read back', () => {
    const columns = tableFromIPC(sweepArrow(sweep)).toColumns() as Record<string, ArrayLike<unknown>>;
    expect(Object.keys(columns)).toEqual([
      'alternative',
      'control.charge.startSoc',
      ...OUTCOME_KEYS,
      'problem',
    ]);
    expect([...Array.from(columns.alternative)]).toEqual([
      'as filed',
      'as filed',
      '24 modules',
      '24 modules',
    ]);
    expect(Array.from(columns['control.charge.startSoc'])).toEqual([0.2, null, 0.2, null]);
    for (const key of OUTCOME_KEYS)
      expect(Array.from(columns[key]), key).toEqual(
        sweep.cells.map(({ outcome }) => (outcome === null ? null : outcome[key] === 0 ? 0 : outcome[key])),
      );
    expect(columns.problem[2]).toBe('a, "b"; c');
  });

  it('and as JSON, with the axes and the best', () => {
    const read = JSON.parse(sweepJson(sweep));
    expect(read.axes[0]).toEqual(CHOICE);
    expect(read.variants).toHaveLength(4);
    expect(read.variants[1].values).toEqual({ alternative: 'as filed', 'control.charge.startSoc': null });
    expect(read.variants[1].outcome.lifeCycleCost).toBe(0.1 + 0.2);
    expect(read.variants[2]).toEqual({
      values: { alternative: '24 modules', 'control.charge.startSoc': 0.2 },
      problems: ['a, "b"', 'c'],
    });
    expect(read.best).toBe(sweep.best);
  });
});
