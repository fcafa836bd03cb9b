const COMMA = 44;
const POINT = 46;
const SPACE = 32;
const latin1 = new TextDecoder('latin1');

/** Most digits before the point: more is no measured value. */
const MOST_DIGITS = 12;
/** Digits whose whole number, and the power of ten below it, are exact, so that the quotient is rounded once. */
const EXACT_DIGITS = 15;
const POWERS = Float64Array.from({ length: EXACT_DIGITS + 1 }, (_, k) => 10 ** k);

/** What `number` gives for a cell that is no plain number; the cell is then still to be read. */
export const NOT_A_NUMBER = -1;

/** The comma-separated cells of one line of a file, read from its bytes one after the other. */
export class ByteCells {
  private at = 0;
  private end = 0;

  constructor(private readonly bytes: Uint8Array) {}

  /** Begins with a line, the ends without spaces and line ends. */
  begin(from: number, to: number): void {
    this.at = from;
    this.end = to;
    while (this.end > this.at && this.bytes[this.end - 1] <= SPACE) this.end--;
    while (this.at < this.end && this.bytes[this.at] <= SPACE) this.at++;
  }

  /** True when the line has no cell left. */
  get isDone(): boolean {
    return this.at > this.end;
  }

  /** The next cell, trimmed; '' beyond the last. */
  text(): string {
    if (this.at > this.end) return '';
    let to = this.at;
    while (to < this.end && this.bytes[to] !== COMMA) to++;
    const cell = latin1.decode(this.bytes.subarray(this.at, to)).trim();
    this.at = to + 1;
    return cell;
  }

  /** The rest of the line. */
  rest(): string[] {
    const cells: string[] = [];
    while (!this.isDone) cells.push(this.text());
    return cells;
  }

  /**
   * The next cell as a number of digits with at most one point: no sign, no exponent. Equal to the last bit to
   * what `Number` makes of its text.
   * @returns NaN for an empty cell, NOT_A_NUMBER for any other text (or no cell), which is then not passed over
   */
  number(): number {
    const { bytes, end } = this;
    let i = this.at;
    if (i > end) return NOT_A_NUMBER;
    while (i < end && bytes[i] === SPACE) i++;
    const from = i;
    let digits = 0;
    let point = -1;
    let whole = 0;
    for (; i < end; i++) {
      const digit = bytes[i] - 48;
      if (digit >= 0 && digit <= 9) {
        whole = whole * 10 + digit;
        digits++;
      } else if (bytes[i] === POINT && point < 0) point = i;
      else break;
    }
    const to = i;
    while (i < end && bytes[i] === SPACE) i++;
    if (i < end && bytes[i] !== COMMA) return NOT_A_NUMBER;
    if (to === from) {
      this.at = i + 1;
      return Number.NaN;
    }
    const decimals = point < 0 ? 0 : to - point - 1;
    if (digits === 0 || digits - decimals > MOST_DIGITS) return NOT_A_NUMBER;
    this.at = i + 1;
    if (digits <= EXACT_DIGITS) return whole / POWERS[decimals];
    return Number(latin1.decode(bytes.subarray(from, to)));
  }
}
