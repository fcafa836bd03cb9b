/**
 * A small invented farm, simulated: the study that the report floor's tests look at. Load, weather, prices and
 * machines are made up with a seeded generator; nothing here is measured anywhere.
 */
import seedrandom from 'seedrandom';
import { findDarkWeek } from '../../src/scenarios/dark-week.ts';
import type { Change, Study } from '../../src/scenarios/study.ts';
import { makeColumns } from '../../src/sim/columns.ts';
import type { Controls } from '../../src/sim/controls.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { Plant } from '../../src/sim/plant.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { inventedChecks } from './fixture-checks.ts';
import { plainMoney } from './fixture-money.ts';
import { inventedControls, inventedPlant } from './fixture-site.ts';
import { inventedInputs } from './fixture-weather.ts';

export interface FixtureOptions {
  stepMin?: number;
  days?: number;
  /** of four */
  alternatives?: number;
}

interface Variant {
  name: string;
  note: string;
  changes: Change[];
  capital: number;
  plant: Plant;
  controls: Controls;
}

/** The farm with up to four alternatives over whole days from 1 January 2025, local time (UTC+10). */
export function fixtureStudy(options: FixtureOptions = {}): Study {
  const { stepMin = 5, days = 365, alternatives = 4 } = options;
  const startS = Date.UTC(2024, 11, 31, 14) / 1000;
  const inputs = inventedInputs(stepMin, days, seedrandom('invented farm'));
  const axis = { startS, stepMin, count: inputs.count };
  return {
    site: {
      name: 'Invented farm',
      note: 'A made-up dairy farm on three phases, 24 kVA; load and weather are invented.',
      latDeg: -36.5,
      lonDeg: 147.5,
      currency: 'AUD',
    },
    axis,
    timeZone: '+10:00',
    alternatives: variants()
      .slice(0, alternatives)
      .map((variant) => resultOf(variant, inputs)),
    sheets: [
      {
        file: 'farm-load.csv',
        reader: 'plain CSV',
        chosenBecause: 'the site file names its columns',
        timeZone: 'UTC+10 all year, stamp at interval start',
        axis,
        series: [{ name: 'load', quantity: 'loadKw', total: 22000, peak: 24.1, loadFactor: 0.11 }],
        gaps: [{ startS: startS + 86400 * 40, steps: 12, filledBy: 'a straight line' }],
        duplicates: 0,
        estimated: 0,
        filled: 12,
      },
    ],
    doubts: [
      {
        severity: 'doubt',
        code: 'gap',
        path: 'load kW',
        got: '12 missing steps from 2025-02-10 00:00',
        want: 'a value for every step; a straight line was drawn across',
        at: { file: 'farm-load.csv', line: 11522 },
      },
    ],
    made: { version: '0.1.0', inputsHash: '3f9a0c51d2e87b64' },
  };
}

function variants(): Variant[] {
  const filed = { plant: inventedPlant(12), controls: inventedControls(0.3, 0.8) };
  return [
    { name: 'as filed', note: '', changes: [], capital: 96_000, ...filed },
    {
      name: 'Twice the battery',
      note: 'A second cabinet row of the same modules.',
      changes: [{ path: 'battery.modules', from: 12, to: 24 }],
      capital: 121_000,
      plant: inventedPlant(24),
      controls: filed.controls,
    },
    {
      name: 'Start at 50 %',
      note: '',
      changes: [{ path: 'control.charge.startSoc', from: 0.3, to: 0.5 }],
      capital: 96_000,
      plant: filed.plant,
      controls: inventedControls(0.5, 0.8),
    },
    {
      name: 'No cabinet heater',
      note: '',
      changes: [{ path: 'cabinet.heater', from: { ratedW: 500, onC: 5, offC: 8, minSoc: 0.2 }, to: null }],
      capital: 95_400,
      plant: inventedPlant(12, 0),
      controls: filed.controls,
    },
  ];
}

function resultOf(variant: Variant, inputs: Inputs): Study['alternatives'][number] {
  const { name, note, changes, plant, controls } = variant;
  const columns = makeColumns(inputs.count);
  const ledger = simulate(plant, controls, inputs, { columns, periodEnds: monthEnds(inputs) });
  const money = plainMoney(ledger, variant.capital, plant.battery?.capacityKwh ?? 0);
  return {
    name,
    note,
    changes,
    plant,
    controls,
    inputs,
    ledger,
    columns,
    money,
    batteryLifeYears: plant.battery ? 11.4 : null,
    yields: [],
    efficiencyFit: null,
    darkWeek: findDarkWeek(inputs, columns),
    checks: inventedChecks(plant.battery?.capacityKwh ?? 0),
  };
}

/** Ends of the calendar months of 2025 that the run holds, and its end. */
function monthEnds(inputs: Inputs): number[] {
  const stepsPerDay = (24 * 60) / inputs.stepMin;
  const ends = [31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365].map((day) => day * stepsPerDay);
  return [...ends.filter((end) => end < inputs.count), inputs.count];
}
