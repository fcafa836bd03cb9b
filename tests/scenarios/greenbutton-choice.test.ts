import { describe, expect, it } from 'vitest';
import { codes, doubts, espi, feed, hourly, kw, kwh } from './small-greenbutton.ts';

const point = (...entries: string[]) => espi(feed(...entries));
const HOURS = [400, 800, 1200, 1600];
const QUARTERS = HOURS.flatMap((wh) => [wh / 4 - 10, wh / 4 + 10, wh / 4, wh / 4]);
const asQuarters = (href: string, values: (number | null)[] = QUARTERS) => hourly(href, {}, values, 0.25);

describe('energy that a usage point gives in several ways counts once', () => {
  it('at two interval lengths: the shorter', () => {
    const result = point(hourly('U/1/MeterReading/1', {}, HOURS), asQuarters('U/1/MeterReading/2'));
    expect(kwh(result)).toBeCloseTo(4, 12);
    expect(result.sheet).toMatchObject({ duplicates: 0, axis: { stepMin: 15, count: 16 } });
    expect(kw(result)[0]).toBeCloseTo(0.36, 12);
    expect(doubts(result)).toEqual([
      'f.xml:4:133: U/1/MeterReading/1: found the same energy again (energy of 60 min, flowDirection 1); expected only U/1/MeterReading/2 (energy of 15 min, flowDirection 1); used only where it has nothing',
    ]);
  });

  it('the longer where the shorter has nothing, also in part of an hour', () => {
    // an hour and a quarter missing at 15 minutes: only of the whole hour is the energy known
    const holed = QUARTERS.map((value, i) => ((i >= 4 && i < 8) || i === 9 ? null : value));
    const result = point(hourly('U/1/MeterReading/1', {}, HOURS), asQuarters('U/1/MeterReading/2', holed));
    expect(kw(result).slice(4, 8)).toEqual([0.8, 0.8, 0.8, 0.8]);
    expect(result.sheet).toMatchObject({ filled: 1, duplicates: 0 });
  });

  it('as power or demand beside energy', () => {
    const power = { uom: 38, kind: 37 };
    const result = point(hourly('U/1/MeterReading/1', power, HOURS), hourly('U/1/MeterReading/2', {}, HOURS));
    expect(kwh(result)).toBeCloseTo(4, 12);
    expect(codes(result)).toEqual(['reading-type', 'same-energy']);
    const demand = { uom: 38, kind: 8 };
    const both = point(hourly('U/1/MeterReading/1', demand, [9000]), hourly('U/1/MeterReading/2', {}, HOURS));
    expect(kwh(both)).toBeCloseTo(4, 12);
  });

  it('as a register beside its steps', () => {
    const register = { accumulationBehaviour: 1 };
    const result = point(
      hourly('U/1/MeterReading/1', register, [0, 400, 1200, 2400, 4000]),
      hourly('U/1/MeterReading/2', {}, HOURS),
    );
    expect(kwh(result)).toBeCloseTo(4, 12);
    expect(codes(result)).toEqual(['reading-type', 'same-energy']);
  });

  it('net beside delivered and received', () => {
    const result = point(
      hourly('U/1/MeterReading/1', { flowDirection: 4 }, [300, 800, 1200, -600]),
      hourly('U/1/MeterReading/2', {}, [400, 800, 1200, 0]),
      hourly('U/1/MeterReading/3', { flowDirection: 19 }, [100, 0, 0, 600]),
    );
    expect(kwh(result)).toBeCloseTo(2.4, 12);
    expect(kwh(result, 'generationKw')).toBeCloseTo(0.7, 12);
    expect(codes(result)).toEqual(['reading-type', 'same-energy']);
  });

  it('by conductor beside the whole; by conductor alone the sum', () => {
    const conductors = [128, 64, 32].map((phase, i) =>
      hourly(`U/1/MeterReading/${i}`, { phase }, [100, 200]),
    );
    expect(kwh(point(...conductors))).toBeCloseTo(0.9, 12);
    expect(point(...conductors).issues).toEqual([]);
    const whole = hourly('U/1/MeterReading/9', { phase: 224 }, [300, 600]);
    const both = point(...conductors, whole);
    expect(kwh(both)).toBeCloseTo(0.9, 12);
    expect(codes(both)).toEqual(['same-energy', 'same-energy', 'same-energy']);
  });

  it('a copy', () => {
    const result = point(...['1', '2'].map((k) => hourly(`U/1/MeterReading/${k}`, {}, HOURS)));
    expect(kwh(result)).toBeCloseTo(4, 12);
    expect(result.sheet?.duplicates).toBe(4);
    expect(codes(result)).toEqual(['duplicates']);
  });
});

describe('what is not the same energy is added up', () => {
  it('readings of the same kind with other values, with a doubt', () => {
    const result = point(
      hourly('U/1/MeterReading/1', {}, HOURS),
      hourly('U/1/MeterReading/2', {}, [1, 2, 3, 4]),
    );
    expect(kwh(result)).toBeCloseTo(4.01, 12);
    expect(codes(result)).toEqual(['added-up']);
  });

  it('several usage points, with a doubt', () => {
    const result = point(hourly('U/1/MeterReading/1', {}, HOURS), hourly('U/2/MeterReading/1', {}, HOURS));
    expect(kwh(result)).toBeCloseTo(8, 12);
    expect(doubts(result)).toEqual(['f.xml: usage points: found U/1, U/2; expected one; all were added up']);
  });

  it('one meter reading after the other is one register', () => {
    const first = hourly('U/1/MeterReading/1', {}, [...HOURS, null, null, null]);
    const second = hourly('U/1/MeterReading/2', {}, [null, null, null, null, 100, 200, 300]);
    const result = point(first, second);
    expect(result.issues).toEqual([]);
    expect(kwh(result)).toBeCloseTo(4.6, 12);
    expect(result.sheet?.filled).toBe(0);
  });
});
