import type { SharedSeries } from './ground.ts';

/**
 * The same series in memory that threads can share, so that they are there once for all of them. Where there is no
 * such memory (a page opened from disk), they are left as they are, and each thread gets a copy when they are sent.
 */
export function shareSeries(series: SharedSeries): SharedSeries {
  if (typeof SharedArrayBuffer === 'undefined') return series;
  const moved = new Map<object, unknown>();
  return new Map([...series].map(([name, value]) => [name, shared(value, moved)]));
}

type TypedArray = Float64Array | Int32Array | Uint8Array | Uint16Array;

/** A value with its arrays moved; what stands in several places is moved once. */
function shared(value: unknown, moved: Map<object, unknown>): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const known = moved.get(value);
  if (known !== undefined) return known;
  const made = ArrayBuffer.isView(value) ? sharedArray(value as TypedArray) : sharedParts(value, moved);
  moved.set(value, made);
  return made;
}

function sharedParts(value: object, moved: Map<object, unknown>): unknown {
  if (Array.isArray(value)) return value.map((part) => shared(part, moved));
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, shared(part, moved)]));
}

function sharedArray(array: TypedArray): TypedArray {
  if (array.buffer instanceof SharedArrayBuffer) return array;
  const Kind = array.constructor as new (buffer: SharedArrayBuffer) => TypedArray;
  const copy = new Kind(new SharedArrayBuffer(array.byteLength));
  copy.set(array);
  return copy;
}
