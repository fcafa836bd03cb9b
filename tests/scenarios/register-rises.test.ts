import { describe, expect, it } from 'vitest';
import { ESTIMATED, MEASURED, SPREAD } from '../../src/scenarios/metered.ts';
import { looksRunning, type Rises, registerRises } from '../../src/scenarios/register-rises.ts';
import { codes, doubts, errors, espi, feed, hourly, kw, kwh } from './small-greenbutton.ts';

const DAY_S = 86_400;

/** Readings hour after hour; null where one is missing. */
function rises(values: (number | null)[], nominalS: number | null = 3600, isNet = false): Rises {
  const there = values.flatMap((kwhAt, i) => (kwhAt === null ? [] : [{ atS: i * 3600, kwhAt }]));
  const instants = {
    atS: there.map(({ atS }) => atS),
    value: there.map(({ kwhAt }) => kwhAt),
    estimated: there.map(() => false),
  };
  return registerRises(instants, nominalS, 2 * DAY_S, isNet, (rise) => rise);
}

/** Energy hour by hour: 'kWh mark', or null where there is none. */
function hours({ blocks }: Rises, count: number): ([number, number] | null)[] {
  const out: ([number, number] | null)[] = new Array(count).fill(null);
  for (const { startS, durationS, kwh: energies, marks } of blocks) {
    expect(durationS).toBe(3600);
    for (const [i, energy] of energies.entries())
      out[startS / 3600 + i] = [energy, marks === null ? MEASURED : marks[i]];
  }
  return out;
}

describe('the energy between readings of a register', () => {
  it('is that of the time from reading to reading', () => {
    const result = rises([10, 12, 15, 15]);
    expect(hours(result, 3)).toEqual([
      [2, MEASURED],
      [3, MEASURED],
      [0, MEASURED],
    ]);
    expect(result).toMatchObject({ falls: [], holes: [] });
    expect(result.blocks.length).toBe(1);
  });

  it('over a hole is spread evenly, all of it', () => {
    // 18 - 12 kWh in three hours, two readings missing
    for (const nominalS of [3600, null])
      expect(hours(rises([10, 12, null, null, 18, 19], nominalS), 5)).toEqual([
        [2, MEASURED],
        [2, SPREAD],
        [2, SPREAD],
        [2, SPREAD],
        [1, MEASURED],
      ]);
  });

  it('over a hole longer than allowed is missing', () => {
    const hole = (length: number) => rises([10, 11, ...new Array(length).fill(null), 100, 101]);
    expect(hours(hole(48), 51).filter((hour) => hour === null).length).toBe(0);
    const long = hole(49);
    expect(hours(long, 52).filter((hour) => hour === null).length).toBe(50);
    expect(long.holes).toEqual([2]);
  });

  it('around one bad reading, too low or too high, is known from those on either side', () => {
    for (const bad of [
      [10, 11, 1, 16, 17],
      [10, 99, 14, 16, 17],
    ]) {
      const result = rises(bad);
      const total = hours(result, 4).reduce((sum, hour) => sum + (hour?.[0] ?? Number.NaN), 0);
      expect(total).toBeCloseTo(7, 12);
      expect(result.falls).toEqual([2]);
    }
  });

  it('where the register begins anew is missing, and no more than that', () => {
    const result = rises([1000, 1001, 0, 2, 3]);
    expect(hours(result, 4)).toEqual([[1, MEASURED], null, [2, MEASURED], [1, MEASURED]]);
    expect(result.falls).toEqual([2]);
  });

  it('falls where the register is net', () => {
    expect(hours(rises([10, 8, 9], 3600, true), 2)).toEqual([
      [-2, MEASURED],
      [1, MEASURED],
    ]);
  });

  it('is estimated where a reading on either side is', () => {
    const instants = { atS: [0, 3600, 7200, 10_800], value: [1, 2, 3, 4], estimated: [0, 1, 0, 0] };
    const result = registerRises(instants, 3600, DAY_S, false, (rise) => rise);
    expect(hours(result, 3).map((hour) => hour?.[1])).toEqual([ESTIMATED, ESTIMATED, MEASURED]);
  });

  it('a register is told from energies by many rises and no fall', () => {
    expect(looksRunning(Array.from({ length: 21 }, (_, i) => i))).toBe(true);
    expect(looksRunning(Array.from({ length: 20 }, (_, i) => i))).toBe(false);
    expect(looksRunning([...Array.from({ length: 30 }, (_, i) => i), 0])).toBe(false);
    expect(looksRunning(new Array(100).fill(1))).toBe(false);
  });
});

describe('a running register in a Green Button feed', () => {
  const register = (values: (number | null)[], codesToChange = {}) =>
    espi(feed(hourly('U/MeterReading/1', { accumulationBehaviour: 1, ...codesToChange }, values)));

  it('is differenced, each value read at the start of its period', () => {
    const result = register([1000, 1500, 1600, 2600]);
    expect(kw(result)).toEqual([0.5, 0.1, 1]);
    expect(doubts(result)).toEqual([
      'f.xml:4:129: accumulationBehaviour of U/MeterReading/1: found a running register (1); expected 4; each value read as the register at the start of its period',
    ]);
  });

  it('spreads a hole, counts it as filled, and doubts it', () => {
    const result = register([1000, 1500, null, null, 3000, 3200]);
    expect(kw(result)).toEqual([0.5, 0.5, 0.5, 0.5, 0.2]);
    expect(kwh(result)).toBeCloseTo(2.2, 12);
    expect(result.sheet).toMatchObject({ filled: 3, estimated: 0 });
    expect(result.sheet?.gaps).toMatchObject([{ steps: 3, filledBy: /register on either side/ }]);
    expect(codes(result)).toEqual(['reading-type', 'register-hole']);
    expect(doubts(result)[1]).toMatch(/^f\.xml:6:1: .*1 readings of a register after a hole/);
  });

  it('doubts a fall', () => {
    const result = register([1000, 1500, 1600, 200, 300, 500]);
    expect(codes(result)).toEqual(['reading-type', 'register-reset']);
    expect(doubts(result)[1]).toMatch(/^f\.xml:7:1: .*1 readings of a register below the one before/);
    // the hour of the fall by a straight line between 0.1 and 0.1
    expect(kw(result)).toEqual([0.5, 0.1, 0.1, 0.1, 0.2]);
    expect(result.sheet?.filled).toBe(1);
  });

  it('refuses a hole that is too long', () => {
    const result = register([1000, 1500, ...new Array(60).fill(null), 9000, 9100]);
    expect(errors(result)[0]).toMatch(/no values for 61 h/);
    expect(codes(result)).toContain('register-hole');
  });

  it('doubts two readings of one instant that differ', () => {
    const text = feed(hourly('U/MeterReading/1', { accumulationBehaviour: 1 }, [1000, 1500, 1600]));
    const [twice] = /<IntervalReading>(?:(?!<\/Int).)*>1500<.*?<\/IntervalReading>/.exec(text)!;
    const same = espi(text.replace(twice, `${twice}${twice}`));
    expect(codes(same)).toEqual(['reading-type']);
    const other = espi(text.replace(twice, `${twice}${twice.replace('1500', '1550')}`));
    expect(codes(other)).toEqual(['reading-type', 'duplicates']);
    expect(kwh(other)).toBeCloseTo(0.6, 12);
  });
});
