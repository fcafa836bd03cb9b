/** Sites so plain that the least fuel can be worked out by hand; each derivation stands beside its value. */
import { beforeAll, describe, expect, it } from 'vitest';
import { type Foresight, foresightOf } from '../../../src/scenarios/bound/foresight.ts';
import { loadSolver, type Solver } from '../../../src/scenarios/bound/solver.ts';
import { makeColumns } from '../../../src/sim/columns.ts';
import type { Controls } from '../../../src/sim/controls.ts';
import type { Inputs } from '../../../src/sim/inputs.ts';
import type { Plant } from '../../../src/sim/plant.ts';
import { simulate } from '../../../src/sim/simulate.ts';
import {
  chargeBetween,
  plainBattery,
  plainControls,
  plainGenerator,
  plainInverter,
  plainPlant,
} from '../../references/plain-site.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

interface Case {
  plant: Partial<Plant>;
  controls?: Partial<Controls>;
  inputs: Omit<Inputs, 'stepMin' | 'count'>;
  stepMin?: number;
}

/** The bound of a case, what it burnt, and what it had stored at the end beyond the start. */
function solved({ plant: parts, controls: set = {}, inputs: series, stepMin = 60 }: Case): {
  least: Foresight;
  ranL: number;
  gainedKwh: number;
} {
  const plant = plainPlant(parts);
  const controls = plainControls(set);
  const inputs = { ...series, stepMin, count: series.loadKw[0].length };
  const columns = makeColumns(inputs.count);
  const ledger = simulate(plant, controls, inputs, { columns });
  const least = foresightOf({ plant, controls, inputs, columns, ledger }, solver);
  return { least, ranL: ledger.totals.fuelL, gainedKwh: ledger.storedEndKwh - ledger.storedStartKwh };
}

const constant = (kw: number, count: number) => new Float64Array(count).fill(kw);
/** fuel of every case: 2 L/h + 0.25 L/kWh */
const rate = (kw: number) => 2 + 0.25 * kw;

describe('the bound equals the least fuel by hand', () => {
  it('generator at its rating: each kWh at its best litres a kWh', () => {
    const { least, ranL, gainedKwh } = solved({
      plant: { battery: plainBattery(48, 1), generator: plainGenerator(20) },
      controls: chargeBetween(0.5, 0.9),
      inputs: { loadKw: [constant(5, 240)] },
    });
    // nothing is lost: 240·5 kWh and what is stored, all at 20 kW
    expect(least.fuelL).toBeCloseTo(((240 * 5 + gainedKwh) * rate(20)) / 20, 6);
    expect(least.fuelL).toBeLessThanOrEqual(ranL + 1e-6);
  });

  it('charger and losses: a share of the time at load plus charger', () => {
    const [load, charger, eff, chargerEff, linear, quadratic] = [5, 6, 0.9, 0.95, 0.04, 0.002];
    const { least, gainedKwh } = solved({
      plant: {
        battery: plainBattery(60, eff),
        inverter: plainInverter({
          chargerKw: charger,
          chargerEff,
          lossLinear: linear,
          lossQuadraticPerKw: quadratic,
        }),
        generator: plainGenerator(20),
      },
      controls: chargeBetween(0.5, 0.9),
      inputs: { loadKw: [constant(load, 240)] },
    });
    // on: chargerEff·charger·eff into the store; off: (load·(1 + linear) + quadratic·load²)/eff out of it
    const gain = chargerEff * charger * eff;
    const draw = (load * (1 + linear) + quadratic * load * load) / eff;
    const share = (gainedKwh / 240 + draw) / (gain + draw);
    expect(least.fuelL).toBeCloseTo(240 * share * rate(load + charger), 6);
  });

  it('the same in blocks of an hour from steps of five minutes', () => {
    const { least, gainedKwh } = solved({
      plant: { battery: plainBattery(48, 1), generator: plainGenerator(20) },
      controls: chargeBetween(0.5, 0.9),
      inputs: { loadKw: [constant(5, 12 * 48)] },
      stepMin: 5,
    });
    expect(least.fuelL).toBeCloseTo(((48 * 5 + gainedKwh) * rate(20)) / 20, 6);
  });

  it('no battery: the rules are the best there is', () => {
    const { least, ranL } = solved({
      plant: { generator: plainGenerator(20) },
      controls: { continuous: true },
      inputs: { loadKw: [Float64Array.from({ length: 48 }, (_, i) => 1 + (i % 7))] },
    });
    expect(ranL).toBeGreaterThan(0);
    expect(least.fuelL).toBeCloseTo(ranL, 9);
  });

  it('sun enough, but a load above the inverters: the generator must carry the rest of it', () => {
    const load = Float64Array.from({ length: 48 }, (_, i) => (i % 24 >= 8 && i % 24 < 12 ? 8 : 1));
    const { least, ranL } = solved({
      plant: {
        battery: plainBattery(100, 1),
        inverter: plainInverter({ ratedKw: 5 }),
        generator: plainGenerator(3),
      },
      controls: {
        peakAssist: true,
        peak: { startKw: 5, delayH: 0, stopKw: 2, holdH: 0, charges: false },
      },
      inputs: { loadKw: [load], dcArrayKw: constant(12, 48) },
    });
    // 8 hours at 8 kW, of which the inverters carry 5 and the set its 3
    expect(least.fuelL).toBeCloseTo(8 * rate(3), 5);
    expect(ranL).toBeCloseTo(8 * rate(3), 6);
  });

  it('per phase: one phase above its inverter needs the generator, whatever the others have to spare', () => {
    const { least } = solved({
      plant: {
        phases: 3,
        acArrayShare: [1, 0, 0],
        battery: plainBattery(200, 1),
        inverter: plainInverter({ ratedKw: 2, chargerKw: 0 }),
        generator: plainGenerator(9),
      },
      controls: { continuous: true, peakAssist: true },
      inputs: { loadKw: [constant(4, 24), constant(0, 24), constant(0, 24)], dcArrayKw: constant(20, 24) },
    });
    // the inverter of phase 1 carries 2 kW and the generator the other 2, all day; together they could carry 6
    expect(least.fuelL).toBeCloseTo(24 * rate(2), 4);
  });

  it('the second set, where the first is out of order: its own curve', () => {
    const count = 96;
    const thrifty = plainGenerator(20, { fuelLPerH: [1, 4] });
    const { least, ranL, gainedKwh } = solved({
      plant: {
        battery: plainBattery(48, 1),
        generator: plainGenerator(20),
        secondGenerator: { generator: thrifty, connectH: 0 },
      },
      controls: chargeBetween(0.5, 0.9),
      inputs: { loadKw: [constant(5, count)], outOfOrder: new Uint8Array(count).fill(1) },
    });
    // 4 L/h at 20 kW, where the first would take 7
    expect(least.fuelL).toBeCloseTo(((count * 5 + gainedKwh) * 4) / 20, 6);
    expect(least.fuelL).toBeLessThanOrEqual(ranL + 1e-9);
  });

  it('sun that comes later: the battery is emptied first and not a litre is burnt', () => {
    const dc = Float64Array.from({ length: 24 }, (_, i) => (i < 12 ? 0 : 4));
    const { least, ranL } = solved({
      plant: { battery: plainBattery(40, 1, { initialSoc: 0.7 }), generator: plainGenerator(20) },
      controls: chargeBetween(0.5, 0.7),
      inputs: { loadKw: [constant(2, 24)], dcArrayKw: dc },
    });
    // 24 kWh until noon from 28 stored, then 2 kW to spare for twelve hours; the run ended at 100 %, with its fuel
    expect(ranL).toBeGreaterThan(0);
    const endKwh = 28 - 24 + 24;
    const missing = Math.max(0, solvedEnd(dc) - endKwh);
    expect(least.fuelL).toBeCloseTo((missing * rate(20)) / 20, 6);
  });
});

/** What the run of the last case has stored at the end [kWh]. */
function solvedEnd(dcArrayKw: Float64Array): number {
  const plant = plainPlant({
    battery: plainBattery(40, 1, { initialSoc: 0.7 }),
    generator: plainGenerator(20),
  });
  const inputs = { stepMin: 60, count: 24, loadKw: [constant(2, 24)], dcArrayKw };
  return simulate(plant, plainControls(chargeBetween(0.5, 0.7)), inputs).storedEndKwh;
}
