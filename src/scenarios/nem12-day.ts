import { type ByteCells, NOT_A_NUMBER } from './byte-cells.ts';
import { quoted } from './findings.ts';

/** A 300 record as it stands. */
export type DayRecord =
  | {
      kind: 'day';
      /** one value each interval, in the channel's unit; NaN where a cell is empty */
      values: Float64Array;
      /** A, E, F, S, N or V */
      flag: string;
      reason: string;
      /** UpdateDateTime as a number; 0 without one */
      version: number;
      /** false where a time stamp at the end is not 14 digits, as after a spreadsheet */
      hasStamps: boolean;
    }
  /** a row that lost values or its quality: which ones cannot be known */
  | { kind: 'short'; got: string }
  | { kind: 'bad'; path: string; got: string; want: string };

/** Flags of the format: A actual, E forward estimate, F final and S substitute, V variable; N null in older files. */
const QUALITY = /^([AVN]|[AEFSN]\d\d|[EFS])$/;

const STAMP = /^\d{14}$/;

/** Reads the cells of a 300 record after its date. */
export function readDay(cells: ByteCells, count: number): DayRecord {
  const values = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const value = cells.number();
    if (value === NOT_A_NUMBER) return notAValue(cells, i, count);
    values[i] = value;
  }
  const quality = cells.text().toUpperCase();
  if (quality === '') return { kind: 'short', got: `${count} values without a quality` };
  if (/^[\d.]+$/.test(quality)) return { kind: 'short', got: `more than ${count} values` };
  if (!QUALITY.test(quality)) {
    const want = 'A, V, or E, F or S with two digits';
    return { kind: 'bad', path: 'quality', got: quoted(quality), want };
  }
  const [reason = '', , update = '', load = '', ...more] = cells.rest();
  // two rows without a line end between them
  if (more.some((cell) => cell !== ''))
    return { kind: 'bad', path: '300', got: `${more.length} more cells`, want: 'four after the quality' };
  const version = STAMP.test(update) ? Number(update) : 0;
  const hasStamps = [update, load].every((cell) => cell === '' || STAMP.test(cell));
  return { kind: 'day', values, flag: quality[0], reason, version, hasStamps };
}

function notAValue(cells: ByteCells, i: number, count: number): DayRecord {
  if (cells.isDone) return { kind: 'short', got: `${i} of ${count} values` };
  const text = cells.text();
  if (QUALITY.test(text.toUpperCase())) return { kind: 'short', got: `${i} of ${count} values` };
  return { kind: 'bad', path: `interval ${i + 1}`, got: quoted(text), want: 'a number of at least 0' };
}

/** CCYYMMDD as seconds since 1970 as if it were UTC; NaN for no date. */
export function dateSeconds(text: string): number {
  if (!/^(19|20|21)\d{6}$/.test(text)) return Number.NaN;
  const [year, month, day] = [Number(text.slice(0, 4)), Number(text.slice(4, 6)), Number(text.slice(6))];
  const at = new Date(Date.UTC(year, month - 1, day));
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === day ? at.getTime() / 1000 : Number.NaN;
}
