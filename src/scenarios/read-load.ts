import type { Issue, Place } from './issue.ts';
import type { LoadRequest } from './load-files.ts';
import { chooseReader } from './read-any.ts';
import { readCsv } from './read-csv.ts';
import { readGreenButton } from './read-greenbutton.ts';
import { readNem12 } from './read-nem12.ts';
import type { ReadResult } from './series.ts';
import type { Path } from './site-document.ts';
import type { LoadFile } from './site-schema.ts';

/**
 * Reads a load file as the site file says, or as its content looks.
 * @param path of the load in the site file, for what is missing there
 */
export function readLoadFile(
  bytes: Uint8Array,
  load: LoadFile,
  path: Path,
  request: LoadRequest,
  placeOf: (path: Path) => Place,
): ReadResult {
  const { file, format, meter, maxGapMin } = load;
  const chosen = format ? { reader: format, because: 'named in the site file' } : chooseReader(bytes);
  const result = () => {
    if (chosen.reader === 'nem12') return readNem12(bytes, file, { meter, maxGapMin });
    if (chosen.reader === 'greenbutton') return readGreenButton(bytes, file, { maxGapMin });
    if (chosen.reader === 'csv') return readDeclaredCsv(bytes, load, path, request, placeOf);
    return refused([...path, 'file'], `a weather file (${chosen.because})`, 'a file of load', placeOf);
  };
  const read = result();
  return { ...read, sheet: read.sheet && { ...read.sheet, chosenBecause: chosen.because } };
}

function readDeclaredCsv(
  bytes: Uint8Array,
  load: LoadFile,
  path: Path,
  request: LoadRequest,
  placeOf: (path: Path) => Place,
): ReadResult {
  const { unit, columns, stamp } = load;
  if (unit === undefined || columns === undefined || stamp === undefined) {
    const needed = { unit: "such as 'kW'", columns: 'such as { load: all }', stamp: "'start' or 'end'" };
    const missing = Object.entries(needed).filter(([key]) => load[key as 'unit'] === undefined);
    const issues = missing.flatMap(
      ([key, want]) =>
        refused([...path, key], 'nothing', `${want}, for a CSV file`, placeOf, 'missing').issues,
    );
    return { series: [], sheet: null, issues };
  }
  return readCsv(bytes, load.file, {
    columns: Object.keys(columns).map((column) => ({ column, quantity: 'loadKw' as const, unit })),
    timeColumns: load.timeColumns,
    // a register's row is an instant: its interval begins there
    stamp: unit === 'kWh register' ? 'start' : stamp,
    timeZone: load.timeZone ?? request.siteZone,
    dateOrder: load.dateOrder,
    decimalComma: load.decimalComma,
    maxGapMin: load.maxGapMin,
    powerFactor: load.powerFactor,
    phaseV: request.phaseV,
  });
}

function refused(
  path: Path,
  got: string,
  want: string,
  placeOf: (path: Path) => Place,
  code = 'wrong-file',
): ReadResult {
  const issue: Issue = { severity: 'error', code, path: path.join('.'), got, want, at: placeOf(path) };
  return { series: [], sheet: null, issues: [issue] };
}
