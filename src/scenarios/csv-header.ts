import { guessDelimiter, scanCsv } from './csv-scan.ts';
import type { Issue } from './issue.ts';
import type { AnyOptions } from './read-any.ts';
import { type CsvColumn, readCsv } from './read-csv.ts';
import type { ReadResult } from './series.ts';

/** What a header cell says of its column, by the unit in it; in the order in which they are tried. */
const BY_HEADER: [RegExp, CsvColumn['quantity'], CsvColumn['unit']][] = [
  [/(?<![a-z])kvar|power.?factor|co2|temperature factor/i, 'loadKw', 'kW'],
  [/(global|ghi|\bg\(h\)).*w\/?m|w\/m.*global|^ghi\b/i, 'ghiWPerM2', 'W/m2'],
  [/(direct|dni).*w\/?m|^dni\b/i, 'dniWPerM2', 'W/m2'],
  [/(diffuse|dhi).*w\/?m|^dhi\b/i, 'dhiWPerM2', 'W/m2'],
  [/(plane|poa).*w\/?m|^poa\b/i, 'poaWPerM2', 'W/m2'],
  [/\b(air|temp|t2m)\w*.*(\bc\b|°c)|^air\b/i, 'airC', 'C'],
  [/wind.*m\/s|^wind\b/i, 'windMPerS', 'm/s'],
  [/kwh/i, 'loadKw', 'kWh'],
  [/(?<![a-z])wh\b/i, 'loadKw', 'Wh'],
  [/kw\b/i, 'loadKw', 'kW'],
  [/[[( ]w[\])]?$/i, 'loadKw', 'W'],
];

/** Reactive power and the like: the first row above names what is passed over. */
const PASSED_OVER = BY_HEADER[0][0];

/**
 * Reads a plain CSV whose columns nobody has declared, by the units in its header. Every guess is a doubt: whether
 * stamps are the start or the end of intervals, the clock, the decimal comma, and columns passed over.
 */
export function readCsvByHeader(bytes: Uint8Array, file: string, options: AnyOptions): ReadResult {
  const delimiter = guessDelimiter(bytes);
  const header = headerOf(bytes, delimiter);
  const isTime = (name: string) =>
    /^(time|date|timestamp|datum|uhrzeit|zeit|utc|day|hour)\b|time$/i.test(name);
  const timeColumns = header.filter((name, i) => i < 3 && isTime(name));
  const columns = header.flatMap((column, i): CsvColumn[] => {
    if (i === 0 || timeColumns.includes(column) || PASSED_OVER.test(column)) return [];
    const known = BY_HEADER.find(([pattern]) => pattern.test(column));
    return known ? [{ column, quantity: known[1], unit: known[2] }] : [];
  });
  const issues: Issue[] = [];
  if (columns.length === 0) {
    const want = 'a header with units, such as time,load kW';
    issues.push({
      severity: 'error',
      code: 'no-columns',
      path: 'header',
      got: `columns ${header.join(', ').slice(0, 120)}`,
      want,
      at: { file, line: 1 },
    });
    return { series: [], sheet: null, issues };
  }
  const decimalComma = delimiter === 59 && hasDecimalComma(bytes);
  const { stamp = 'start', timeZone = 'UTC', dateOrder } = options;
  const read = readCsv(bytes, file, {
    columns,
    timeColumns: timeColumns.length > 0 ? timeColumns : undefined,
    stamp,
    timeZone,
    dateOrder,
    decimalComma,
    maxGapMin: 180,
  });
  const doubt = (path: string, got: string, want: string) =>
    issues.push({ severity: 'doubt', code: 'guess', path, got, want, at: { file } });
  if (!options.stamp) doubt('stamp', 'nothing that says it', 'start or end of the interval; read as start');
  if (!options.timeZone) doubt('timeZone', 'nothing that says it', 'a zone or an offset; read as UTC');
  const passed = header.filter(
    (name, i) => i > 0 && !timeColumns.includes(name) && !columns.some(({ column }) => column === name),
  );
  if (passed.length > 0) doubt('columns', `${passed.join(', ').slice(0, 200)}`, 'left out');
  return { ...read, issues: [...read.issues, ...issues] };
}

function headerOf(bytes: Uint8Array, delimiter: number): string[] {
  return scanCsv(bytes.subarray(0, 20_000), {
    delimiter,
    decimalComma: false,
    wanted: () => ({ numbers: [], times: [] }),
  }).header;
}

/** A digit, a comma and digits inside cells that are parted by semicolons. */
function hasDecimalComma(bytes: Uint8Array): boolean {
  const text = new TextDecoder('latin1').decode(bytes.subarray(0, 20_000));
  return /;\s*-?[\d.]*\d,\d+\s*(;|\r?\n|$)/.test(text);
}
