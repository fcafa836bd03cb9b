/**
 * A linear program, built row by row: least cost·x with every row and column within its limits.
 * Arrays grow as needed and are handed to the solver as they are; the matrix is kept by rows.
 */
export class LinearProgram {
  cost = new Float64Array(1024);
  columnLow = new Float64Array(1024);
  columnHigh = new Float64Array(1024);
  rowLow = new Float64Array(1024);
  rowHigh = new Float64Array(1024);
  starts = new Int32Array(1025);
  indices = new Int32Array(4096);
  values = new Float64Array(4096);
  columns = 0;
  rows = 0;
  entries = 0;

  /** Adds a quantity to decide. @param low finite; @param high finite, >= low. @returns its number */
  column(low: number, high: number, cost = 0): number {
    const j = this.columns++;
    if (j === this.cost.length) {
      this.cost = doubled(this.cost);
      this.columnLow = doubled(this.columnLow);
      this.columnHigh = doubled(this.columnHigh);
    }
    this.cost[j] = cost;
    this.columnLow[j] = low;
    this.columnHigh[j] = high;
    return j;
  }

  /** Puts a coefficient into the row that is being written. */
  put(column: number, value: number): void {
    if (this.entries === this.indices.length) {
      const indices = new Int32Array(2 * this.entries);
      indices.set(this.indices);
      this.indices = indices;
      this.values = doubled(this.values);
    }
    this.indices[this.entries] = column;
    this.values[this.entries++] = value;
  }

  /** Ends the row: its coefficients were put since the last one ended. */
  endRow(low: number, high: number): void {
    const i = this.rows++;
    if (i === this.rowLow.length) {
      this.rowLow = doubled(this.rowLow);
      this.rowHigh = doubled(this.rowHigh);
      const starts = new Int32Array(2 * this.rowLow.length + 1);
      starts.set(this.starts);
      this.starts = starts;
    }
    this.rowLow[i] = low;
    this.rowHigh[i] = high;
    this.starts[i + 1] = this.entries;
  }
}

function doubled(old: Float64Array): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(2 * old.length);
  larger.set(old);
  return larger;
}
