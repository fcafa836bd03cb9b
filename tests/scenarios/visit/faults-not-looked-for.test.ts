import { describe, expect, it } from 'vitest';
import { faultsNotLookedFor, findFaults } from '../../../src/scenarios/visit/faults/find-faults.ts';
import { farmGround, farmTruth, recorded } from './logged-farm.ts';

describe('faults that cannot be looked for', () => {
  const truth = farmTruth(3, [{ fromDay: 0, changes: {} }], 15);
  const ground = farmGround(recorded(truth, { stepMin: 15, columns: ['socFrac'], arraysAlone: false }));

  it('are told with the columns that they lack', () => {
    expect(findFaults(ground)).toEqual([]);
    const lacks = Object.fromEntries(faultsNotLookedFor(ground).map((each) => [each.kind, each.lacks]));
    expect(lacks).toEqual({
      'dead-string': 'sunWPerM2, cellC, each array by itself',
      'phase-missing': 'each phase by itself',
      'weak-charging': 'generatorKw, loadKw, cellC, cabinetC, batteryKw',
      'soc-drift': 'batteryKw',
      'soc-jump': 'batteryKw',
      'heater-off': 'cellC, outsideC',
      'cooler-off': 'cabinetC, outsideC',
      'night-load': 'loadKw',
      'fuel-loss': 'fuelL, the engine running',
    });
  });

  it('are told where three days are too little', () => {
    const all = farmGround(recorded(truth, { stepMin: 15 }));
    const few = faultsNotLookedFor(all).map(({ kind, lacks }) => `${kind}: ${lacks}`);
    expect(few).toContain('dead-string: enough days');
    expect(few).toContain('night-load: enough nights');
    expect(few).toContain('soc-drift: enough full charges');
  });

  it('are not told of parts that the site has not', () => {
    const { heater: _, ...cabinet } = ground.site.cabinet as NonNullable<typeof ground.site.cabinet>;
    const without = {
      ...ground,
      site: { ...ground.site, cabinet: { ...cabinet, heater: null }, tank: null },
    };
    const kinds = faultsNotLookedFor(without).map(({ kind }) => kind);
    expect(kinds).not.toContain('heater-off');
    expect(kinds).not.toContain('fuel-loss');
    expect(kinds).toContain('cooler-off');
  });
});
