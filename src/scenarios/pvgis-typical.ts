import { dayOfYear, isLeapDay } from './common-year.ts';
import { type Findings, quoted } from './findings.ts';
import { layRows, Occurrences, type StampedRow } from './lay-rows.ts';
import { headLine, type PvgisFile, pvgisRows } from './pvgis-table.ts';
import type { ReadResult } from './series.ts';
import { refused, typicalYearSeries } from './typical-year.ts';
import type { WeatherColumn } from './weather-cells.ts';
import { cellsOf, decimal } from './weather-text.ts';
import { WHOLE_YEAR, YearsSeen, yearSteps } from './year-rows.ts';

const COLUMNS = [
  ['ghiWPerM2', 'G(h)'],
  ['dniWPerM2', 'Gb(n)'],
  ['dhiWPerM2', 'Gd(h)'],
  ['airC', 'T2m'],
  ['windMPerS', 'WS10m'],
] as const;

/** The irradiance of a file that does not say it stands for the hour that the stamp begins [min]. */
const DEFAULT_OFFSET_MIN = 30;

/**
 * A typical year: `time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,...`, rows `YYYYMMDD:HH00` of mixed years in UTC.
 * Newer files say how long after the stamp the irradiance was seen (`Irradiance Time Offset (h)`): a value stands
 * for the hour around that moment, and the steps begin so. Air temperature and wind are read at the full hour and
 * brought to the same steps by straight lines.
 */
export function readPvgisTypical(opened: PvgisFile, found: Findings): ReadResult {
  const { file, lines, header, names, place, maxGapMin } = opened;
  for (const [, name] of COLUMNS)
    if (!names.includes(name))
      found.error('header', name, 'no such column', `a column '${name}'`, { line: header + 1 });
  const offsetMin = timeOffset(opened, found);
  if (found.hasErrors) return refused(found);
  const columns = COLUMNS.map(
    ([quantity, name]): WeatherColumn => ({
      quantity,
      name,
      at: [names.indexOf(name)],
      isMissing: () => false,
    }),
  );
  const years = new YearsSeen();
  const steps = yearSteps(WHOLE_YEAR, 60, 0, { rows: 'hours', whole: 'a year without 29 February' });
  const laid = layRows(typicalRows(lines, header, years, found), steps, columns, maxGapMin, found);
  const moment = `irradiance stands for the hour around ${offsetMin} min after the stamp`;
  const air = 'air and wind, read at the stamps, are brought to it by straight lines';
  return typicalYearSeries(
    {
      file,
      reader: 'pvgis',
      chosenBecause: 'first line is Latitude (decimal degrees): and the header time(UTC),',
      location: place,
      span: WHOLE_YEAR,
      stepMin: 60,
      shiftMin: offsetMin - 30,
      stampToStep: (offsetMin - 30) / 60,
      laid,
      timeReading: `UTC; ${moment}; ${air}; ${years.words()}`,
      maxGapMin,
    },
    found,
  );
}

/** Minutes from the stamp to the moment of the irradiance. */
function timeOffset({ lines, header }: PvgisFile, found: Findings): number {
  const { text, line } = headLine(lines, header, 'Irradiance Time Offset');
  const want = 'hours from the stamp to the moment of the irradiance, -0.5 to 1';
  if (text === undefined) {
    found.doubt('time-offset', 'Irradiance Time Offset', 'no such line', `${want}; read as 0.5`);
    return DEFAULT_OFFSET_MIN;
  }
  const hours = decimal(text);
  if (!(hours >= -0.5 && hours <= 1))
    found.error('time-offset', 'Irradiance Time Offset', quoted(text), want, { line });
  return Math.round(hours * 60);
}

function* typicalRows(
  lines: readonly string[],
  header: number,
  years: YearsSeen,
  found: Findings,
): Generator<StampedRow> {
  const leap = new Occurrences();
  for (const { line, year, month, day, hour, minute, stamp, text } of pvgisRows(lines, header, found)) {
    if (isLeapDay(month, day)) {
      leap.see(line);
      continue;
    }
    if (minute !== 0) {
      found.error('stamp', 'time', quoted(stamp), 'full hours', { line, column: 1 });
      continue;
    }
    years.see(year);
    yield { line, step: dayOfYear(month, day) * 24 + hour, cells: cellsOf(text) };
  }
  leap.say('leap-day', 'of 29 February', 'a year of 365 days; they are left out', found);
}
