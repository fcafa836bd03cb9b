/** Ranges that stand in the form before anybody has typed. */
import { describe, expect, it } from 'vitest';
import { fieldTree } from '../../../src/report/workbench/worker/field-tree.ts';
import { rangeAround, varyChoices } from '../../../src/report/workbench/worker/vary-choices.ts';

const share = { least: 0, most: 1, whole: false };

describe('a range around a number', () => {
  it('goes in even steps, and not beyond what is allowed', () => {
    expect(rangeAround(0.3, share)).toBe('0.15:0.45:0.05');
    expect(rangeAround(0.8, share)).toBe('0.2:1:0.2');
    expect(rangeAround(20, { least: 0.1, most: 10_000, whole: false })).toBe('5:35:5');
    expect(rangeAround(0, share)).toBe('0:0.6:0.2');
  });

  it('counts in whole numbers', () => {
    expect(rangeAround(12, { least: 1, most: 10_000, whole: true })).toBe('6:18:2');
    expect(rangeAround(1, { least: 1, most: 10_000, whole: true })).toBe('1:4:1');
  });
});

describe('numbers that may be varied', () => {
  it('are those that the site has, by name and unit; the place is none of them', () => {
    const raw = {
      site: { latitudeDeg: 45 },
      battery: { modules: 12 },
      arrays: [{ name: 'roof', kWp: 6 }],
      control: { charge: { startSoc: 0.3 } },
    };
    const choices = varyChoices(fieldTree({ raw, changed: new Set() }));
    const of = (path: string) => choices.find((one) => one.path === path);
    expect(of('battery.modules')).toEqual({
      path: 'battery.modules',
      label: 'battery modules',
      values: '6:18:2',
    });
    expect(of('arrays.roof.kWp')).toEqual({
      path: 'arrays.roof.kWp',
      label: 'roof array, kWp',
      values: '3:9:1',
    });
    expect(of('control.charge.startSoc')?.values).toBe('0.15:0.45:0.05');
    expect(choices.some(({ path }) => path.startsWith('site.'))).toBe(false);
  });
});
