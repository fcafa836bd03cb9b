import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseSite } from '../../src/scenarios/site-document.ts';
import { readSite } from '../../src/scenarios/site-file.ts';

const FARM = resolve(import.meta.dirname, '../../profiles/sites/farm.yaml');
const TEXT = readFileSync(FARM, 'utf8');
const LINES = TEXT.split('\n').length;

/** Issues of the farm with a log of these columns; lines count from the group `log`. */
function issuesOf(...columns: string[]) {
  const group = [
    'log:',
    '  file: log.csv',
    '  stamp: end',
    '  columns:',
    ...columns.map((column) => `    ${column}`),
  ];
  const { document } = parseSite(`${TEXT}\n${group.join('\n')}\n`, 'farm.yaml');
  if (document === null) throw new Error('no document');
  return readSite(document).issues.map(({ severity, path, got, want, at }) => ({
    ...{ severity, path, got, want },
    line: (at.line ?? 0) - LINES,
  }));
}

describe('the group log of a site file', () => {
  it('takes columns of every kind', () => {
    const columns = [
      "Charge %: { is: charge, unit: '%' }",
      'L1 W: { is: load phase 1, unit: W }',
      'Barn kW: { is: array, name: barn, unit: kW }',
      'Battery A: { is: battery current, unit: A, positive: discharging }',
      'Battery V: { is: battery voltage, unit: V }',
      'Set runs: { is: generator running, unit: 0/1 }',
      "Fuel: { is: fuel level, unit: '%' }",
    ];
    expect(issuesOf(...columns)).toEqual([]);
  });

  it.each([
    ['A: { is: array, name: roof, unit: kW }', 'error', "'roof'", 'one of barn, shed'],
    ['A: { is: charge, unit: kW }', 'error', "'kW'", '"%" or "0 to 1"'],
    ['A: { is: wind, unit: m/s }', 'error', "'wind'", '"charge" or "load"'],
    ['A: { is: charge }', 'error', 'nothing', '"%" or "0 to 1"'],
    [
      'A: { is: battery current, unit: A }',
      'doubt',
      'battery current without battery voltage',
      'the bus voltage',
    ],
  ])('%s: told at its line', (column, severity, got, want) => {
    const [issue, ...more] = issuesOf(column);
    expect(more).toEqual([]);
    expect(issue).toMatchObject({ severity, line: 5 });
    expect(issue.got).toContain(got);
    expect(issue.want).toContain(want);
  });

  it('refuses the same quantity twice, and power beside current, all at once', () => {
    const issues = issuesOf(
      'A: { is: load, unit: kW }',
      'B: { is: load, unit: W }',
      'C: { is: battery power, unit: kW }',
      'D: { is: battery current, unit: A }',
    );
    expect(issues.map(({ line, severity }) => [line, severity])).toEqual([
      [6, 'error'],
      [8, 'error'],
    ]);
  });
});
