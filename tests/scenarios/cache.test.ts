import { describe, expect, it } from 'vitest';
import { Cache, seriesBytes } from '../../src/scenarios/cache.ts';

describe('Cache', () => {
  /** A series made for a key, and how often it was made. */
  function counted(cache: Cache) {
    const made: number[] = [];
    const series = (key: number) =>
      cache.once(['series', key], () => {
        made.push(key);
        return { values: new Float64Array(100).fill(key) };
      });
    return { series, made };
  }

  it('makes what it is asked for once', () => {
    const { series, made } = counted(new Cache());
    expect(series(1)).toBe(series(1));
    expect(series(2)).not.toBe(series(1));
    expect(made).toEqual([1, 2]);
  });

  it('forgets what it has made when that is more than it may keep, and makes it again', () => {
    const { series, made } = counted(new Cache(new Map(), 2000));
    for (const key of [1, 2, 1, 2]) expect(series(key).values[0]).toBe(key);
    expect(made).toEqual([1, 2]);
    series(3); // 2400 bytes would be too many
    expect(series(3).values[0]).toBe(3);
    expect(made).toEqual([1, 2, 3]);
    expect(series(1).values[0]).toBe(1);
    expect(made).toEqual([1, 2, 3, 1]);
  });

  it('keeps what it was given, whatever it forgets', () => {
    const first = counted(new Cache());
    first.series(1);
    const cache = new Cache(new Map([['["series",1]', { values: new Float64Array([7]) }]]), 1000);
    const { series, made } = counted(cache);
    for (const key of [2, 3, 4]) series(key);
    expect(series(1).values[0]).toBe(7);
    expect(made).toEqual([2, 3, 4]);
    expect([...cache.entries().keys()]).toEqual(['["series",1]', '["series",4]']);
  });

  it('counts the bytes of all series within a value', () => {
    expect(seriesBytes({ a: new Float64Array(3), b: [new Uint8Array(5), null, 'x'], c: 4 })).toBe(29);
  });
});
