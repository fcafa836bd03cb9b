import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readNem12 } from '../../src/scenarios/read-nem12.ts';
import { damaged } from './damage.ts';
import { checkIntact, checkWhole, seriesOf, stretchKwh, type Truth } from './damage-checks.ts';
import { bytes, channel, file } from './small-nem12.ts';

const sample = new Uint8Array(readFileSync(new URL('./samples/nem12_tiny.csv', import.meta.url)));
/** A channel that changes from 15 to 10 minutes, beside another of half-hours. */
const made = bytes(
  file(
    channel('E1', 'kWh', 15),
    uneven('20240430', 15, 'A,,,20240502000000,'),
    channel('E1', 'kWh', 10),
    uneven('20240501', 10, 'V,,,20240502000000,'),
    '400,1,100,A,,',
    '400,101,144,S14,,',
    channel('B1', 'kWh', 30),
    uneven('20240430', 30, 'A,,,20240502000000,'),
    uneven('20240501', 30, 'E52,,,20240502000000,'),
  ),
);
const latin1 = new TextDecoder('latin1');

function uneven(date: string, minutes: number, end: string): string {
  const values = Array.from({ length: 1440 / minutes }, (_, i) =>
    ((((i + minutes) * 7919) % 997) / 1000).toFixed(3),
  );
  return `300,${date},${values.join(',')},${end}`;
}

/** A day of an undamaged file. */
interface Day {
  channel: string;
  cells: string[];
  quantity: 'loadKw' | 'generationKw';
  startS: number;
  durationS: number;
}

/** Market time is UTC+10. */
function daysOf(lines: readonly string[]): Day[] {
  return lines.flatMap((line, at) => {
    const cells = line.split(',');
    if (cells[0] !== '300') return [];
    const channel = lines.slice(0, at).findLast((above) => above.startsWith('200,'))!;
    const [, , , , suffix, , , , minutes] = channel.split(',');
    const [year, month, day] = [cells[1].slice(0, 4), cells[1].slice(4, 6), cells[1].slice(6)].map(Number);
    return {
      channel,
      cells,
      quantity: suffix.startsWith('E') ? ('loadKw' as const) : ('generationKw' as const),
      startS: Date.UTC(year, month - 1, day) / 1000 - 36_000,
      durationS: Number(minutes) * 60,
    };
  });
}

/**
 * Intervals that stand in a damaged file as they were: in a row of their day that is there once and whole under its
 * channel as it was, at their place in it. A row with letters among its values has lost some, and is left out.
 */
function intactIntervals(text: string, days: readonly Day[]): Truth[] {
  const rows: { cells: string[]; channel: string }[] = [];
  let above = '';
  for (const line of text.split('\n').map((one) => one.replace(/\r$/, ''))) {
    if (line.startsWith('300,')) rows.push({ cells: line.split(','), channel: above });
    if (/^\s*[1269]00/.test(line)) above = line;
  }
  return days.flatMap(({ channel, cells, quantity, startS, durationS }) => {
    const own = rows.filter((row) => row.cells[1] === cells[1] && row.channel === channel);
    const count = 86_400 / durationS;
    const row = own[0]?.cells;
    const isWhole =
      own.length === 1 &&
      row.length === cells.length &&
      row[2 + count] === cells[2 + count] &&
      row.slice(2, 2 + count).every((cell) => /^[\d.]*$/.test(cell));
    if (!isWhole) return [];
    return Array.from({ length: count }, (_, i) => i)
      .filter((i) => row[2 + i] === cells[2 + i])
      .map((i) => ({ quantity, startS: startS + i * durationS, durationS, kwh: Number(cells[2 + i]) }));
  });
}

/** Sum of all numbers of the days of a channel E or B in kWh, as a spreadsheet would add them up. */
function plainSum(text: string, suffix: 'E' | 'B'): number {
  let sum = 0;
  let count = 0;
  for (const line of text.split('\n')) {
    const cells = line.trim().split(',');
    if (cells[0] === '200')
      count = cells[4].startsWith(suffix) && /^kwh$/i.test(cells[7]) ? 1440 / Number(cells[8]) : 0;
    if (cells[0] === '300') sum += cells.slice(2, 2 + count).reduce((total, cell) => total + Number(cell), 0);
  }
  return sum;
}

it.each([
  ['the sample', sample, { refused: 1000, read: 1000, intervals: 100_000, sums: 1000 }],
  ['a file of three lengths', made, { refused: 1000, read: 1000, intervals: 100_000, sums: 1000 }],
])(
  'damage to %s is refused, or each intact interval reads as before and the total is that of the rows',
  (_, clean, least) => {
    const days = daysOf(latin1.decode(clean).split(/\r?\n/));
    const counts = { refused: 0, read: 0, intervals: 0, sums: 0 };
    for (const { kind, bytes: damage } of damaged(clean, 3000, 12)) {
      const text = latin1.decode(damage);
      const result = readNem12(damage, 'm.csv');
      const where = `${kind}\n${text.slice(0, 4000)}`;
      counts[checkWhole(result, where)]++;
      if (result.series.length === 0) continue;
      counts.intervals += checkIntact(result, intactIntervals(text, days), where);
      if (result.issues.length > 0 || result.sheet!.filled > 0) continue;
      for (const [quantity, suffix] of [
        ['loadKw', 'E'],
        ['generationKw', 'B'],
      ] as const) {
        const series = seriesOf(result, quantity);
        const total = series
          ? stretchKwh(series, series.axis.startS, series.axis.count * series.axis.stepMin * 60)
          : 0;
        expect(total, where).toBeCloseTo(plainSum(text, suffix), 9);
        counts.sums++;
      }
    }
    // enough of each outcome that the checks mean something
    for (const [outcome, count] of Object.entries(least))
      expect(counts[outcome as 'read'], outcome).toBeGreaterThanOrEqual(count);
  },
);

// a search through the whole line for each cell would run out of time
it('one line of 200 MB is refused, whatever it holds', { timeout: 120_000 }, () => {
  for (const piece of ['A', '300,20240101,', '1,', '\0']) {
    const long = new Uint8Array(200_000_000);
    for (let i = 0; i < piece.length; i++) long[i] = piece.charCodeAt(i);
    for (let filled = piece.length; filled < long.length; filled *= 2) long.copyWithin(filled, 0, filled);
    const result = readNem12(long, 'line.csv');
    expect(result.series).toEqual([]);
    expect(result.issues[0].code).toMatch(piece === '\0' ? /^encoding$/ : /^line-length$/);
  }
});
