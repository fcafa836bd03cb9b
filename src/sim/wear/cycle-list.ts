/** Cycles in growing columns; entries from `size` on are stale. */
export interface CycleList {
  size: number;
  /** depth of the cycle, highest less lowest state of charge [fraction], > 0 */
  rangeFrac: Float64Array;
  /** middle between highest and lowest [fraction] */
  meanFrac: Float64Array;
  /** 1 for a whole cycle, 0.5 for a half */
  count: Float64Array;
}

/** An empty list. To use it again set `size` to 0: its columns are kept. */
export function makeCycleList(): CycleList {
  const column = () => new Float64Array(256);
  return { size: 0, rangeFrac: column(), meanFrac: column(), count: column() };
}

/** Adds a cycle at the end. */
export function addCycle(list: CycleList, rangeFrac: number, meanFrac: number, count: number): void {
  if (list.size === list.count.length) {
    list.rangeFrac = doubled(list.rangeFrac);
    list.meanFrac = doubled(list.meanFrac);
    list.count = doubled(list.count);
  }
  list.rangeFrac[list.size] = rangeFrac;
  list.meanFrac[list.size] = meanFrac;
  list.count[list.size] = count;
  list.size++;
}

/** The same numbers in an array of twice the length. */
export function doubled(column: Float64Array): Float64Array<ArrayBuffer> {
  const longer = new Float64Array(2 * column.length);
  longer.set(column);
  return longer;
}
