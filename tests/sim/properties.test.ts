/** What must hold of every run, on random complete systems. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeColumns } from '../../src/sim/columns.ts';
import { fuelRateLPerH, fuelStretches } from '../../src/sim/fuel.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { featuredSystem, type RandomSystem } from '../naive/random-system.ts';

/** Systems with every feature on now and then: each test meets its own five hundred, or fewer where it is slow. */
function forAllSystems(property: (system: RandomSystem) => void, numRuns = 500): void {
  fc.assert(fc.property(featuredSystem, property), { numRuns, endOnFailure: true });
}

describe('every run', () => {
  it('closes the energy account of every segment, and over the whole run: sources = loads + losses + stored', () => {
    forAllSystems(({ plant, controls, inputs }) => {
      const result = simulate(plant, controls, inputs, { check: true });
      const { totals: t, storedStartKwh, storedEndKwh } = result;
      const sources = t.generatorKwh + t.dcUsedKwh + t.acUsedKwh;
      const largestStep = Math.max(sources + t.dischargeKwh, 1);
      expect(result.extremes.residualKwh).toBeLessThan(
        1e-9 * Math.min(1, largestStep / inputs.count) + 1e-12,
      );
      const battery = t.batteryLossKwh + t.standbyKwh;
      const inverters = t.idleKwh + t.inverterLossKwh + t.chargerLossKwh;
      const losses = battery + inverters + t.climateKwh + t.ownKwh;
      const residual = sources - t.servedKwh - losses - (storedEndKwh - storedStartKwh);
      expect(Math.abs(residual)).toBeLessThan(1e-9 * Math.max(1, sources));
    });
  });

  it('gives the same bits with quiet steps as without', () => {
    forAllSystems(({ plant, controls, inputs }) => {
      const quick = makeColumns(inputs.count);
      const slow = makeColumns(inputs.count);
      const fast = simulate(plant, controls, inputs, { columns: quick });
      const general = simulate(plant, controls, inputs, { columns: slow, check: true });
      expect(fast.totals).toEqual(general.totals);
      expect(fast.runs).toEqual(general.runs);
      expect(fast.outages).toEqual(general.outages);
      expect({ ...fast.extremes, residualKwh: 0 }).toEqual({ ...general.extremes, residualKwh: 0 });
      for (const name of Object.keys(quick) as (keyof typeof quick)[])
        expect(same(quick[name], slow[name]), name).toBe(true);
    });
  });

  it('keeps the state of charge in its window and the tank above nothing', () => {
    forAllSystems(({ plant, controls, inputs }) => {
      const columns = makeColumns(inputs.count);
      const { extremes, tankEndL } = simulate(plant, controls, inputs, { columns });
      if (plant.battery) {
        const lowest = Math.min(plant.battery.initialSoc, Math.max(0, plant.battery.deadSoc));
        expect(Math.max(...columns.socFrac)).toBeLessThanOrEqual(1 + 1e-12);
        expect(Math.min(...columns.socFrac)).toBeGreaterThanOrEqual(lowest - 1e-9);
      }
      if (plant.tank && extremes.lowestTankL !== null) {
        const floor = Math.min(plant.tank.initialL, plant.tank.reserveL);
        expect(extremes.lowestTankL).toBeGreaterThanOrEqual(floor - 1e-9);
        expect(tankEndL).toBeLessThanOrEqual(plant.tank.capacityL + 1e-9);
      }
    });
  });

  it('sums run hours, energy and fuel from its list of runs', () => {
    forAllSystems(({ plant, controls, inputs }) => {
      const { totals, runs, outages } = simulate(plant, controls, inputs);
      const sum = (values: number[]) => values.reduce((total, value) => total + value, 0);
      expect(sum(runs.map((run) => run.endH - run.startH))).toBeCloseTo(totals.runH, 8);
      expect(sum(runs.map((run) => run.kwh))).toBeCloseTo(totals.generatorKwh, 8);
      expect(sum(runs.map((run) => run.litres))).toBeCloseTo(totals.fuelL, 8);
      expect(runs.length).toBe(totals.starts);
      expect(outages.length).toBe(totals.outages);
      expect(sum(totals.loadingH)).toBeCloseTo(totals.onLoadH, 8);
      expect(sum(totals.unservedByPhaseKwh)).toBeCloseTo(sum(Object.values(totals.unservedByCauseKwh)), 8);
    });
  });

  it('starts no charge run in restricted hours, but at the urgent threshold', () => {
    let restrictedStarts = 0;
    forAllSystems(({ plant, controls, inputs }) => {
      const { runs } = simulate(plant, controls, inputs);
      const stepH = inputs.stepMin / 60;
      for (const run of runs) {
        if (run.cause !== 'charge' || !inputs.restricted || !plant.battery || !plant.generator) continue;
        // the decision was taken a start delay and the threshold's delay before the engine ran
        const { startDelayH, retries = 0, retryH = 0 } = plant.generator;
        const longestStartH = Math.max(
          startDelayH + retries * retryH,
          plant.secondGenerator?.generator.startDelayH ?? 0,
        );
        const waitH = longestStartH + (controls.charge?.delayH ?? 0) + controls.leastRestH;
        const first = Math.max(0, Math.floor((run.startH - waitH) / stepH - 1e-6));
        const last = Math.min(inputs.count - 1, Math.floor(run.startH / stepH + 1e-6));
        const allRestricted = inputs.restricted.subarray(first, last + 1).every((flag) => flag === 1);
        if (!allRestricted) continue;
        // the meter may err, and another set of thresholds may hold
        const mostUrgent = Math.max(controls.urgentSoc, ...(controls.sets ?? []).map((set) => set.urgentSoc));
        const errs = plant.battery.display?.mostFrac ?? 0;
        restrictedStarts++;
        const drawn = (waitH + stepH) * plant.battery.maxDischargeKw;
        const slack = drawn / plant.battery.dischargeEff / plant.battery.capacityKwh;
        const charged = ((waitH + stepH) * plant.battery.maxChargeKw) / plant.battery.capacityKwh;
        expect(run.socStart).toBeLessThanOrEqual(mostUrgent + errs + slack + charged + 1e-9);
      }
    });
    expect(restrictedStarts).toBeGreaterThan(0);
  });

  it('burns the fuel line integrated over its columns, when the line is straight and every hour on load', () => {
    let compared = 0;
    forAllSystems(({ plant, controls, inputs }) => {
      if (!plant.generator) return;
      const generator = { ...plant.generator, warmUpH: 0, coolDownH: 0, fuelKw: [0, 10], fuelLPerH: [1, 4] };
      const columns = makeColumns(inputs.count);
      const { totals } = simulate({ ...plant, generator, secondGenerator: null }, controls, inputs, {
        columns,
      });
      if (totals.runH === 0) return;
      compared++;
      const { breaks, lines } = fuelStretches(generator.fuelKw, generator.fuelLPerH);
      const stepH = inputs.stepMin / 60;
      // the constant part by hours, the slope by energy
      const standing = fuelRateLPerH(0, breaks[0], breaks[1], ...lines) * totals.runH;
      const energy = columns.generatorKw.reduce((sum, kw) => sum + kw * stepH, 0);
      expect(totals.fuelL).toBeCloseTo(standing + 0.3 * energy, 7);
    });
    expect(compared).toBeGreaterThan(100);
  });

  it('keeps every run at its minimum on load, unless the tank, the longest run or the series ends it', () => {
    let compared = 0;
    forAllSystems(({ plant, controls, inputs }) => {
      const stepH = inputs.stepMin / 60;
      const endH = inputs.count * stepH;
      for (const minRunH of [0.5, 1.5]) {
        const longest = Math.max(minRunH, controls.maxRunH);
        const { runs } = simulate(plant, { ...controls, minRunH, maxRunH: longest }, inputs);
        for (const run of runs) {
          const brokeDown = inputs.outOfOrder?.[Math.round(run.endH / stepH)] === 1;
          if (run.ranDry || brokeDown || run.endH > endH - 1e-6) continue;
          compared++;
          expect(run.onLoadH).toBeGreaterThanOrEqual(minRunH - 1e-6);
        }
      }
    });
    expect(compared).toBeGreaterThan(1000);
  });

  it('gives the same bits again', () => {
    fc.assert(
      fc.property(featuredSystem, ({ plant, controls, inputs }) => {
        expect(simulate(plant, controls, inputs)).toEqual(simulate(plant, controls, inputs));
      }),
      { numRuns: 50 },
    );
  });
});

function same(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i]) && a[i] !== b[i]) return false;
  return a.length === b.length;
}
