import type { Findings } from './findings.ts';

/** A year of minutes has 525 600 rows; a file with more lines than this is no weather file. */
const MOST_LINES = 1_000_000;

/** No table of weather is as wide; what is beyond is not looked at. */
const MOST_CELLS = 200;

/** Lines of a file without their ends and without a byte-order mark; none, and an error, where there are too many. */
export function textLines(bytes: Uint8Array, found: Findings): string[] {
  const ends = lineEnds(bytes);
  if (ends <= MOST_LINES) return split(bytes);
  found.error('too-long', 'lines', `${ends} lines`, `at most ${MOST_LINES}`);
  return [];
}

/** The first lines of a file, from its first few thousand bytes. */
export function firstLines(head: Uint8Array): string[] {
  return split(head.subarray(0, 6000));
}

/** Cells of a line, without regard to quotes. */
export function cellsOf(line: string | undefined): string[] {
  return (line ?? '').split(',', MOST_CELLS);
}

function split(bytes: Uint8Array): string[] {
  return new TextDecoder('utf-8').decode(bytes).replace(/\r\n?/g, '\n').split('\n');
}

/** Counted before the text is cut, so that a file of nothing but line ends takes no room. */
function lineEnds(bytes: Uint8Array): number {
  let count = 0;
  for (let i = 0; i < bytes.length; i++)
    if (bytes[i] === 10 || (bytes[i] === 13 && bytes[i + 1] !== 10)) count++;
  return count;
}

/** A decimal number with spaces around it; NaN for everything else, also for an empty text. */
export function decimal(text: string | undefined): number {
  if (text === undefined || !/^\s*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*$/i.test(text)) return Number.NaN;
  // adding zero turns -0 into 0
  return Number(text) + 0;
}

/** A number of digits only, with spaces around it; NaN for everything else. */
export function whole(text: string | undefined): number {
  return text !== undefined && /^\s*\d+\s*$/.test(text) ? Number(text) : Number.NaN;
}
