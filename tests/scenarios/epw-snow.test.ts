import { describe, expect, it } from 'vitest';
import { readEpw } from '../../src/scenarios/read-epw.ts';
import { bytes, epwText, madeYear, sentences, total, values } from './made-weather.ts';

const YEAR = madeYear();
/** Cells of a record, from 0: snow depth and rain. */
const [DEPTH, RAIN] = [30, 33];
type Cell = (row: number) => string | number;

function fileWith(depth: Cell, rain: Cell): Uint8Array {
  return bytes(
    epwText(YEAR, 1, 1, (rows) => {
      for (let i = 0; i < rows.length; i++) {
        const cells = rows[i].split(',');
        cells[DEPTH] = String(depth(i));
        cells[RAIN] = String(rain(i));
        rows[i] = cells.join(',');
      }
    }),
  );
}

const read = (depth: Cell, rain: Cell, precipitation = true) =>
  readEpw(fileWith(depth, rain), 'y.epw', { precipitation });

describe('snow and rain of an EPW file', () => {
  it('is not read unless asked for, whatever is in it', () => {
    const result = read(
      () => 'x',
      () => 999,
      false,
    );
    expect(result.issues).toEqual([]);
    expect(result.series.map(({ quantity }) => quantity)).not.toContain('snowCmPerH');
  });

  it('is what the depth gains, where it rises', () => {
    const result = read(
      (row) => (row < 100 ? 0 : row < 110 ? (row - 99) * 2 : Math.max(0, 20 - (row - 109))),
      () => 0,
    );
    expect(result.issues).toEqual([]);
    expect(total(result, 'snowCmPerH')).toBe(20);
    expect([...values(result, 'snowCmPerH').subarray(99, 112)]).toEqual([0, ...new Array(10).fill(2), 0, 0]);
    expect(result.sheet?.timeZone).toContain('fresh snow is what the snow depth gains');
    expect(result.series.map(({ quantity }) => quantity)).not.toContain('precipMmPerH');
  });

  it('else the rain, up to its stamp', () => {
    const result = read(
      () => 999,
      (row) => (row % 50 === 7 ? 1.5 : 0),
    );
    // 8760 rows, one in fifty from the eighth
    expect(total(result, 'precipMmPerH')).toBeCloseTo(1.5 * 176, 9);
    expect(values(result, 'precipMmPerH')[7]).toBe(1.5);
    expect(sentences(result)).toMatchSnapshot();
  });

  it('holes are counted: the depth is held on, no rain is taken to fall', () => {
    const held = read(
      (row) => (row === 5 ? 4 : row === 6 ? 999 : row > 6 ? 6 : 0),
      () => 0,
    );
    expect([...values(held, 'snowCmPerH').subarray(4, 9)]).toEqual([0, 4, 0, 2, 0]);
    expect(sentences(held)).toMatchSnapshot();
    const dry = read(
      () => 0,
      (row) => (row < 20 ? 999 : row === 30 ? 3 : 0),
    );
    expect(total(dry, 'precipMmPerH')).toBe(3);
    expect(sentences(dry)).toMatchSnapshot();
  });

  it('without either is refused; without any fall it is doubted', () => {
    expect(
      sentences(
        read(
          () => 999,
          () => 999,
        ),
      ),
    ).toMatchSnapshot();
    expect(
      sentences(
        read(
          () => 0,
          () => 0,
        ),
      ),
    ).toMatchSnapshot();
  });

  it('of several records an hour is a rate', () => {
    const fine = madeYear(undefined, 30);
    const text = epwText(fine, 2, 1, (rows) => {
      for (const [i, row] of rows.entries()) {
        const cells = row.split(',');
        [cells[DEPTH], cells[RAIN]] = ['0', i === 10 ? '2' : '0'];
        rows[i] = cells.join(',');
      }
    });
    const result = readEpw(bytes(text), 'y.epw', { precipitation: true });
    expect(values(result, 'precipMmPerH')[10]).toBe(4);
  });
});
