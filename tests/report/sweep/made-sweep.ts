import type { Axis } from '../../../src/scenarios/many/axes.ts';
import { allCells, gridSize } from '../../../src/scenarios/many/cells.ts';
import type { Outcome } from '../../../src/scenarios/many/outcome.ts';
import { bestCell, type Sweep, type SweepCell } from '../../../src/scenarios/many/sweep.ts';

/** An outcome with made-up figures that follow from its cost, its fuel and what it leaves unserved. */
export function madeOutcome(lifeCycleCost: number, fuelL: number, unservedKwh = 0): Outcome {
  return {
    fuelL,
    runH: fuelL / 5,
    starts: Math.round(fuelL / 10),
    mostStartsADay: 2,
    lowLoadH: 12,
    nightH: 0,
    unservedKwh,
    unservedH: unservedKwh / 2,
    outages: Math.ceil(unservedKwh / 3),
    curtailedKwh: 4000,
    minSoc: 0.21,
    batteryYears: 12.5,
    capital: 90_000,
    runningFirstYear: fuelL * 1.6,
    lifeCycleCost,
    levelised: 0.5,
    co2Kg: fuelL * 2.7,
    visits: 0,
  };
}

export const KW: Axis = { path: 'generator.ratedKw', values: [10, 15, 20, 25], filed: 20 };
export const SOC: Axis = { path: 'control.charge.startSoc', values: [0.2, 0.3, 0.4], filed: 0.35 };
export const CHOICE: Axis = { path: 'alternative', values: ['as filed', '24 modules'], filed: 'as filed' };
export const MODULES: Axis = { path: 'battery.modules', values: [6, 12], filed: 12 };

/** A sweep over some axes, its figures made by arithmetic: a bowl of cost, with fuel falling along the first axis. */
export function madeSweep(axes: Axis[], more: Partial<Sweep> = {}): Sweep {
  const sizes = axes.map(({ values }) => values.length);
  const cells = allCells(sizes).map((at): SweepCell => {
    const far = at.reduce((sum, place, i) => sum + (place - 1) ** 2 / (i + 1), 0);
    return { at, outcome: madeOutcome(150_000 + 4000 * far, 3000 - 200 * at[0]), problems: [] };
  });
  return {
    site: { name: 'Invented site', note: 'made up', latDeg: 0, lonDeg: 0, currency: '$' },
    stepMin: 5,
    days: 365,
    axes,
    prices: axes.map(() => 0),
    gridSize: gridSize(sizes),
    cells,
    filed: madeOutcome(156_000, 2600),
    mostUnservedKwh: 0,
    best: bestCell(cells, 0),
    made: { version: '0', inputsHash: 'abc' },
    ...more,
  };
}
