import { describe, expect, it } from 'vitest';
import { winter, winterSaid } from './winter-site.ts';

const SHARES = [0.05, 0.1, 0.2, 0.4, 0.7, 1];
/** Points of a curve of 40 W idle, 1.5 % and 4 % at the rating of 4.5 kW, to nine digits. */
const POINTS = SHARES.map((share) => {
  const drawn = 0.04 / 4.5 + share * (1 + 0.015) + 0.04 * share * share;
  return `{ share: ${share}, efficiency: ${(share / drawn).toFixed(9)} }`;
});
const byPoints = `efficiency: [${POINTS.join(', ')}]`;

describe('an inverter by points of efficiency', () => {
  it('gets the losses that the points were made from', () => {
    const { result, said } = winter({ inverter: byPoints });
    const { inverter } = result.plant;
    expect(inverter.idleKw).toBeCloseTo(0.04, 6);
    expect(inverter.lossLinear).toBeCloseTo(0.015, 6);
    expect(inverter.lossQuadraticPerKw * 4.5).toBeCloseTo(0.04, 6);
    expect(result.efficiencyFit?.worst).toBeLessThan(1e-8);
    expect(said.filter((sentence) => sentence.includes('efficiency'))).toEqual([]);
    const byLosses = winter({ inverter: 'idleW: 40, lossLinear: 0.015, lossAtRated: 0.04' }).result;
    expect(byLosses.efficiencyFit).toBeNull();
    expect(result.ledger.totals.fuelL).toBeCloseTo(byLosses.ledger.totals.fuelL, 4);
  });

  it('tells points that no such curve meets, and refuses what contradicts', () => {
    const odd =
      'efficiency: [{ share: 0.1, efficiency: 0.9 }, { share: 0.5, efficiency: 0.8 }, { share: 1, efficiency: 0.96 }]';
    expect(winterSaid({ inverter: odd })).toMatchSnapshot();
    const few = 'idleW: 25, efficiency: [{ share: 0.5, efficiency: 0.9 }, { share: 0.2, efficiency: 0.95 }]';
    expect(winterSaid({ inverter: few })).toMatchSnapshot();
    const twice =
      'lossLinear: 0.01, efficiency: [{ share: 0.1, efficiency: 0.9 }, { share: 0.1, efficiency: 0.95 }, { share: 1, efficiency: 0.93 }]';
    expect(winterSaid({ inverter: twice })).toMatchSnapshot();
  });
});

describe('units in parallel', () => {
  it('carry, draw, charge and pass together; each loses by its own part of the power', () => {
    const one = winter({ inverter: 'acInputA: 30' }).result.plant.inverter;
    const two = winter({ inverter: 'acInputA: 30, unitsPerPhase: 2' }).result.plant.inverter;
    for (const key of ['ratedKw', 'idleKw', 'chargerKw', 'acInputLimitKw'] as const)
      expect(two[key]).toBeCloseTo(2 * one[key], 12);
    expect(two.lossLinear).toBe(one.lossLinear);
    // 3 kW by two units are 1.5 kW by each, twice
    const loss = (kw: number, { lossLinear, lossQuadraticPerKw }: typeof one) =>
      lossLinear * kw + lossQuadraticPerKw * kw * kw;
    expect(loss(3, two)).toBeCloseTo(2 * loss(1.5, one), 12);
    const fitted = winter({ inverter: `unitsPerPhase: 2, ${byPoints}` }).result.plant.inverter;
    expect(fitted.idleKw).toBeCloseTo(0.08, 6);
    expect(loss(9, fitted)).toBeCloseTo(2 * (0.015 + 0.04) * 4.5, 5);
  });

  it('takes a charging current as that of each unit', () => {
    const amps = (units: number) =>
      winter({ inverter: `unitsPerPhase: ${units}`, instead: [['chargerKw: 3', 'chargerA: 40']] }).result
        .plant.inverter.chargerKw;
    expect(amps(3)).toBeCloseTo(3 * amps(1), 12);
  });
});
