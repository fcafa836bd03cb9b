/** Values of design checks worked by hand, on runs of which only what a check looks at is written. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrayChecks } from '../../../src/scenarios/design-checks/array-ratio.ts';
import { autonomyChecks } from '../../../src/scenarios/design-checks/autonomy.ts';
import { chargerChecks } from '../../../src/scenarios/design-checks/charger.ts';
import type { CheckedRun, DesignCheck } from '../../../src/scenarios/design-checks/check.ts';
import { percentile } from '../../../src/scenarios/design-checks/measures.ts';
import { motorChecks } from '../../../src/scenarios/design-checks/motors.ts';
import { phaseChecks } from '../../../src/scenarios/design-checks/phases.ts';
import { warrantyChecks } from '../../../src/scenarios/design-checks/warranty.ts';

const made = (run: object) => run as unknown as CheckedRun;
const figureOf = (checks: DesignCheck[], key: string) => checks.find((check) => check.key === key)?.value;
const series = (...values: number[]) => Float64Array.from(values);

describe('a percentile', () => {
  it('is the value that a share of all does not exceed', () => {
    const values = Float64Array.from({ length: 200 }, (_, i) => 200 - i);
    expect(percentile(values, 0.99)).toBe(198);
    expect(percentile(values, 0.5)).toBe(100);
    expect(percentile(values, 1)).toBe(200);
    expect(percentile(series(7), 0.01)).toBe(7);
    expect(values[0]).toBe(200);
  });

  it('is that of the sorted values, whatever they are', () => {
    const values = fc.array(fc.constantFrom(0, 0.5, 1, 1, 2, 7), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(values, fc.double({ min: 0.01, max: 1, noNaN: true }), (list, share) => {
        const sorted = [...list].sort((a, b) => a - b);
        const place = Math.ceil(share * list.length - 1e-9) - 1;
        expect(percentile(Float64Array.from(list), share)).toBe(sorted[Math.max(0, place)]);
      }),
    );
  });
});

describe('the phases', () => {
  /** A hundred steps of 1, 1, 1 kW, but two on which the phases carry 10, 6, 2 and 9, 9, 9 kW. */
  const loadKw = [10, 6, 2].map((kw) => Float64Array.from({ length: 100 }, (_, i) => [kw, 9][i] ?? 1));
  const checks = phaseChecks(
    made({
      site: { inverter: { powerFactor: 0.8, phaseV: 230 } },
      plant: { inverter: { ratedKw: 8 }, generator: { ratedKw: 20 } },
      inputs: { loadKw },
    }),
  );

  it('have their worst neutral current where they differ most, at the power factor of the load', () => {
    // 10, 6, 2 kW give 30.1226 A at 230 V and power factor 1: derived
    expect(figureOf(checks, 'phases.neutral')).toBeCloseTo(30.1226 / 0.8, 3);
    // 8 kW at 0.8 are 10 kVA
    expect(checks.find(({ key }) => key === 'phases.neutral')?.limit).toBeCloseTo(10_000 / 230, 9);
  });

  it('count with the load that 99 % of the time is not above, and the generator with three times the highest', () => {
    expect(figureOf(checks, 'phases.peak')).toBe(9);
    expect(figureOf(checks, 'phases.generator')).toBe(27);
  });

  it('are balanced by their energies', () => {
    // 117, 113 and 109 kW steps: 113 on average
    expect(figureOf(checks, 'phases.balance')).toBeCloseTo(400 / 113, 9);
  });

  it('of a single-phase set count alone', () => {
    const single = phaseChecks(
      made({
        site: { inverter: { powerFactor: 0.8, phaseV: 230 } },
        plant: { inverter: { ratedKw: 8 }, generator: { ratedKw: 8, phase: 1 } },
        inputs: { loadKw: [series(5, 5), series(3, 3), series(4, 4)] },
      }),
    );
    expect(figureOf(single, 'phases.generator')).toBe(3);
  });

  it('are one where there is one', () => {
    const one = phaseChecks(
      made({
        site: {},
        plant: { inverter: { ratedKw: 8 }, generator: null },
        inputs: { loadKw: [loadKw[0]] },
      }),
    );
    expect(one.map(({ key }) => key)).toEqual(['phases.peak']);
  });
});

describe('a motor', () => {
  const run = (phase: 1 | 2 | 3 | 'all', more: object = {}, set: object = {}) =>
    motorChecks(
      made({
        site: {
          // 10 kVA running, 60 kVA locked
          motors: [
            {
              ...{ name: 'm', ratedKw: 8, efficiency: 1, powerFactor: 0.8, startMultiple: 6 },
              ...{ startPowerFactor: 1, method: 'direct', phase, ...more },
            },
          ],
          inverter: { surgeTimes: 2, powerFactor: 1, phases: 3 },
          generator: { ratedKw: 80, powerFactor: 0.8, transientReactance: 0.2, performanceClass: 'G3' },
        },
        plant: { phases: 3, battery: {}, generator: set, inverter: { ratedKw: 30 } },
        inputs: { loadKw: [series(1, 1), series(4, 6), series(3, 3)] },
      }),
    );

  it('on three phases starts beside the highest of them, on one beside its own', () => {
    expect(figureOf(run('all'), 'motor.m.inverter')).toBeCloseTo(20 + 5, 9);
    expect(figureOf(run(1), 'motor.m.inverter')).toBeCloseTo(60 + 1, 9);
    expect(figureOf(run(3), 'motor.m.inverter')).toBeCloseTo(60 + 3, 9);
  });

  it('on one phase of three pulls a generator down like one three times as large', () => {
    expect(figureOf(run('all'), 'motor.m.generator')).toBeCloseTo((100 * 60) / (60 + 500), 9);
    expect(figureOf(run(2), 'motor.m.generator')).toBeCloseTo((100 * 180) / (180 + 500), 9);
  });

  it('hangs on a single-phase set only where that is on its phase', () => {
    expect(figureOf(run(2, {}, { phase: 1 }), 'motor.m.generator')).toBeCloseTo((100 * 60) / (60 + 500), 9);
    expect(run(3, {}, { phase: 1 }).map(({ key }) => key)).toEqual(['motor.m.inverter']);
    expect(run('all', {}, { phase: 1 }).map(({ key }) => key)).toEqual(['motor.m.inverter']);
  });

  it('is judged by its class, and by its code letter where its plate has one', () => {
    // class G3 allows 15 % (from memory), and 60 kVA pull 10.7 %
    expect(run('all').map(({ verdict }) => verdict)).toEqual(['fine', 'fine']);
    expect(run('all')[1].limit).toBe(15);
    // letter G: 6.29 kVA for each of 10.73 hp (seen second hand)
    const kva = (6.29 * 8) / 0.745699872;
    expect(figureOf(run('all', { codeLetter: 'G' }), 'motor.m.generator')).toBeCloseTo(
      (100 * kva) / (kva + 500),
      9,
    );
    expect(figureOf(run('all', { method: 'starDelta' }), 'motor.m.inverter')).toBeCloseTo(20 / 3 + 5, 9);
  });
});

describe('the warranty', () => {
  const checks = (days: number) =>
    warrantyChecks(
      made({
        site: {
          battery: { modules: 10, warranty: { years: 10, cycles: 3650, throughputKwhPerModule: 7300 } },
        },
        plant: { battery: { capacityKwh: 50, dischargeEff: 0.95 } },
        ledger: { count: days * 24, stepMin: 60, totals: { dischargeKwh: 38 * days }, extremes: {} },
      }),
    );

  it('is used by what leaves the store over its capacity, and by what leaves the battery', () => {
    // 38 kWh a day out of 40 in the store: 0.8 of 50 kWh
    const [cycles, energy] = checks(365);
    expect(cycles).toMatchObject({ limit: 365, verdict: 'fine', note: '' });
    expect(cycles.value).toBeCloseTo(0.8 * 365, 9);
    expect(energy).toMatchObject({ limit: 7300, verdict: 'look at' });
    expect(energy.value).toBeCloseTo(38 * 365, 9);
    expect(energy.note).toBe('Used up after 5.26 years instead of 10.');
  });

  it('is scaled up from a part of a year, which is said', () => {
    const [cycles] = checks(73);
    expect(cycles.value).toBeCloseTo(0.8 * 365, 9);
    expect(cycles.note).toBe('Scaled up from 73 days.');
  });
});

describe('autonomy', () => {
  const month = (loadKwh: number, climateKwh: number) => ({ loadKwh, climateKwh });
  /** Thirty days and thirty days and three days, of which the last is no month. */
  const checks = autonomyChecks(
    made({
      site: { design: {} },
      plant: {
        phases: 3,
        battery: { capacityKwh: 100, cutoffSoc: 0.1, dischargeEff: 0.9, standbyKw: 0.1 },
        inverter: { lossLinear: 0.05, lossQuadraticPerKw: 0.1, idleKw: 0.05 },
        generator: {},
      },
      controls: { charge: {} },
      ledger: {
        ...{ count: 63 * 24, stepMin: 60, totals: month(1890, 0) },
        periods: [month(720, 0), month(1000, 80), month(500, 0)],
      },
      monthEnds: [720, 1440, 1512],
    }),
  );

  it('is that of the worst whole month, climate control included, through inverters, idle and standby', () => {
    // 1080 kWh in 720 h: 0.5 kW a phase, with 5 % and 0.1 · 0.5 of it lost, and 0.15 + 0.1 kW always
    const drawKw = 3 * 0.5 * (1 + 0.05 + 0.05) + 0.25;
    expect(figureOf(checks, 'autonomy.worstMonth')).toBeCloseTo((90 * 0.9) / drawKw / 24, 9);
    const meanKw = 1890 / 1512 / 3;
    const yearKw = 3 * meanKw * (1.05 + 0.1 * meanKw) + 0.25;
    expect(figureOf(checks, 'autonomy.year')).toBeCloseTo((90 * 0.9) / yearKw / 24, 9);
  });
});

describe('AC-coupled arrays', () => {
  it('put out no more than their inverter or their rating, each on its phase', () => {
    const array = (kWp: number, inverterKw: number | undefined, phase: 1 | 'all') => ({
      ...{ name: `${kWp}`, coupling: 'ac', kWp, inverterKw, phase },
    });
    const checks = arrayChecks(
      made({
        site: {
          arrays: [array(9, 6, 'all'), array(3, 5, 1), array(1.5, undefined, 'all')],
          inverter: { powerFactor: 0.8 },
        },
        plant: {
          phases: 3,
          battery: { maxChargeKw: 50 },
          inverter: { ratedKw: 4, chargerKw: 4, chargerEff: 0.9 },
        },
      }),
    );
    // 6/3 + 3 + 1.5/3 kW on phase 1, of 5 kVA
    expect(checks.find(({ key }) => key === 'acArray.inverter')).toMatchObject({ value: 5.5, limit: 5 });
    expect(figureOf(checks, 'acArray.battery')).toBeCloseTo(10.5 * 0.9, 9);
    expect(checks.find(({ key }) => key === 'acArray.battery')?.limit).toBeCloseTo(10.8, 9);
    expect(checks.find(({ key }) => key === 'array.1.5.ratio')).toMatchObject({
      verdict: 'not known',
      missing: ['arrays.1.5.inverterKw'],
    });
  });
});

describe('the recharge by the generator', () => {
  /** 10 kWh, 5 kW up to 80 % and falling to 0.5 kW at full, no losses. */
  const checks = (controls: object, generator: object = {}, loads = [0]) =>
    chargerChecks(
      made({
        site: { design: { rechargeH: 8 } },
        plant: {
          phases: loads.length,
          battery: {
            ...{ capacityKwh: 10, maxChargeKw: 5, taperStartSoc: 0.8, taperEndFrac: 0.1 },
            ...{ chargeEff: 1, standbyKw: 0.5 },
          },
          inverter: { chargerKw: 9, chargerEff: 1, acInputLimitKw: 100, idleKw: 0.5 },
          generator: { ratedKw: 20, ...generator },
        },
        controls: { charge: null, maxRunH: 24, ...controls },
        inputs: { loadKw: loads.map((kw) => series(kw)) },
      }),
    );
  const recharge = (found: DesignCheck[]) => found.find(({ key }) => key === 'generator.recharge');
  const hours = (stopSoc: number, absorptionMaxH: number, ratedKw = 20, loadKw = 0) =>
    recharge(checks({ charge: { startSoc: 0.3, stopSoc, absorptionMaxH } }, { ratedKw }, [loadKw]));

  it('takes an hour for half the battery, and longer on its taper', () => {
    expect(hours(0.8, 9)?.value).toBeCloseTo(1, 6);
    // dE/dt = 5 (1 − 0.45 (E − 8)): a tenth of the power is left after ln 10 / (5 · 0.45) h
    expect(hours(1, 9)?.value).toBeCloseTo(1 + Math.log(10) / 2.25, 6);
  });

  it('ends after the longest time above the start of the taper', () => {
    expect(hours(1, 0.5)?.value).toBeCloseTo(1.5, 6);
  });

  it('is slower beside a load, and never ends where the load takes everything', () => {
    // 6 kW less 3 kW of load and 1 kW of idle and standby
    expect(hours(0.8, 9, 6, 3)?.value).toBeCloseTo(2.5, 6);
    expect(hours(0.8, 9, 6, 5.5)).toMatchObject({
      value: Number.POSITIVE_INFINITY,
      verdict: 'not acceptable',
    });
  });

  it('is that of a start by hand where nothing else charges', () => {
    const hand = { startSoc: 0.3, stopSoc: 0.8, absorptionMaxH: 4 };
    expect(recharge(checks({ hand }))?.value).toBeCloseTo(1, 6);
    expect(recharge(checks({}))).toBeUndefined();
  });

  it('aims at the output that suits the engine, and counts one phase of a single-phase set', () => {
    const charge = { startSoc: 0.3, stopSoc: 0.8, absorptionMaxH: 9 };
    // 4 kW aimed at, less 1 kW of load and 1 kW of idle and standby
    const aimed = checks({ charge, chargeTargetKw: 4 }, {}, [1]);
    expect(recharge(aimed)?.value).toBeCloseTo(2.5, 6);
    expect(figureOf(aimed, 'charger.most')).toBeCloseTo(20, 9);
    // one of three chargers of 9 kW, of a set of 6 kW, beside 2 kW of load on its phase; 2 kW of idle and standby
    const single = checks({ charge }, { ratedKw: 6, phase: 2 }, [7, 7, 2]);
    expect(recharge(single)?.value).toBeCloseTo(2.5, 6);
    expect(figureOf(single, 'charger.least')).toBeCloseTo((100 * 5) / 6, 9);
  });
});
