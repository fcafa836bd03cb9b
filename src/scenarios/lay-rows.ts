import type { Findings } from './findings.ts';
import {
  cellValue,
  newTally,
  sayTallies,
  type WeatherColumn,
  type WeatherQuantity,
} from './weather-cells.ts';

/** A row of a weather file whose stamp has been read. */
export interface StampedRow {
  line: number;
  /** the step that it belongs to, 0 to count - 1 */
  step: number;
  cells: readonly string[];
}

/** The steps that rows are laid on, and how to speak of them. */
export interface StepNames {
  count: number;
  stepMin: number;
  /** day of the year, 1 to 366 */
  dayOf: (step: number) => number;
  /** the stamp of a step in words */
  stampOf: (step: number) => string;
  /** what a row is: 'records', 'hours' */
  rows: string;
  /** what there should be: 'a year without 29 February' */
  whole: string;
}

/** Rows by step; NaN where nothing usable was given. */
export interface LaidRows {
  values: Map<WeatherQuantity, Float64Array>;
  /** line of each step's row; 0 where there is none */
  lineOf: Uint32Array;
  duplicates: number;
}

/**
 * Lays rows on the steps that their stamps name. The same row twice is a doubt, two different rows for a step an
 * error; the order does not matter but is doubted. Steps without a row: doubts, or an error where a hole is longer
 * than `maxGapMin`.
 */
export function layRows(
  rows: Iterable<StampedRow>,
  steps: StepNames,
  columns: readonly WeatherColumn[],
  maxGapMin: number,
  found: Findings,
): LaidRows {
  const lineOf = new Uint32Array(steps.count);
  const values = columns.map(() => new Float64Array(steps.count).fill(Number.NaN));
  const tallies = columns.map(newTally);
  const disorder = new Occurrences();
  const again = new Occurrences();
  let lastStep = -1;
  for (const { line, step, cells } of rows) {
    if (step < lastStep) disorder.see(line);
    lastStep = step;
    if (lineOf[step] > 0) {
      const isSame = columns.every((column, i) => {
        const value = cellValue(cells, column, steps.dayOf(step), line, newTally(), found);
        return Object.is(value, values[i][step]);
      });
      if (!isSame) sayTwoRows(step, line, lineOf[step], steps, found);
      else again.see(line);
      continue;
    }
    lineOf[step] = line;
    for (const [i, column] of columns.entries())
      values[i][step] = cellValue(cells, column, steps.dayOf(step), line, tallies[i], found);
  }
  disorder.say('order', 'out of turn', 'rows in order of time', found);
  again.say('duplicates', 'already there', 'each row once', found);
  sayTallies(columns, tallies, found);
  checkHoles(lineOf, steps, maxGapMin, found);
  return {
    values: new Map(columns.map(({ quantity }, i) => [quantity, values[i]])),
    lineOf,
    duplicates: again.count,
  };
}

/** Rows with the same thing about them: one doubt, with the line of the first. */
export class Occurrences {
  count = 0;
  private line = 0;

  see(line: number): void {
    if (this.count++ === 0) this.line = line;
  }

  /** @param what they are: 'of 29 February' */
  say(code: string, what: string, want: string, found: Findings): void {
    if (this.count === 0) return;
    const rows = this.count === 1 ? '1 row' : `${this.count} rows`;
    found.doubt(code, 'rows', `${rows} ${what}, the first here`, want, { line: this.line });
  }
}

function sayTwoRows(step: number, line: number, before: number, steps: StepNames, found: Findings): void {
  const got = `another row for ${steps.stampOf(step)}, which differs from line ${before}`;
  found.error('two-rows', 'rows', got, 'one row for each stamp', { line });
}

/** Steps that no row has. */
function checkHoles(lineOf: Uint32Array, steps: StepNames, maxGapMin: number, found: Findings): void {
  let absent = 0;
  let longest = { from: 0, length: 0 };
  let from = 0;
  for (let step = 0; step <= lineOf.length; step++) {
    if (step < lineOf.length && lineOf[step] === 0) {
      absent++;
      continue;
    }
    if (step - from > longest.length) longest = { from, length: step - from };
    from = step + 1;
  }
  if (absent === 0) return;
  const hours = (length: number) => Number(((length * steps.stepMin) / 60).toFixed(2));
  const got = `${steps.count - absent} ${steps.rows}`;
  const hole = `the longest hole, ${hours(longest.length)} h, begins with ${steps.stampOf(longest.from)}`;
  const want = `${steps.count}, ${steps.whole}; ${hole}`;
  // the row before the hole, or the first of all
  const before = longest.from > 0 ? lineOf[longest.from - 1] : lineOf.find((line) => line > 0);
  const at = before ? { line: before } : {};
  if (longest.length * steps.stepMin > maxGapMin) found.error('rows', 'rows', got, want, at);
  else found.doubt('rows', 'rows', got, `${want}; filled as the data sheet says`, at);
}
