import { makeSheet } from './data-sheet.ts';
import { fillGaps } from './gaps.ts';
import type { Issue } from './issue.ts';
import type { Gap, Quantity, ReadResult, Series, TimeAxis } from './series.ts';
import { TYPICAL_HOURS, textLines, typicalYearSeries, weatherIssue, within } from './typical-year.ts';

/** Why these bytes look like a PVGIS file; null when they do not. */
export function looksLikePvgis(head: Uint8Array): string | null {
  const text = new TextDecoder('latin1').decode(head.subarray(0, 4000));
  return /^(?:ï»¿)?Latitude \(decimal degrees\):/.test(text)
    ? 'first line is Latitude (decimal degrees):'
    : null;
}

/** Reads either kind of PVGIS CSV: hours of many years on a plane, or a typical year. */
export function readPvgis(bytes: Uint8Array, file: string): ReadResult {
  const lines = textLines(bytes);
  const header = lines.findIndex((line) => /^time(\(UTC\))?,/.test(line));
  if (header < 0) {
    const issues = [
      weatherIssue(file, 1, 'header', 'no line that begins with time, or time(UTC),', 'a PVGIS table'),
    ];
    return { series: [], sheet: null, issues };
  }
  const place = {
    latDeg: metadata(lines, 'Latitude'),
    lonDeg: metadata(lines, 'Longitude'),
    elevationM: metadata(lines, 'Elevation'),
    utcOffsetH: 0,
  };
  return lines[header].startsWith('time(UTC)')
    ? readTypical(lines, header, file, place)
    : readHours(lines, header, file, place);
}

type Place = { latDeg: number; lonDeg: number; elevationM: number; utcOffsetH: number };

function metadata(lines: readonly string[], name: string): number {
  const line = lines.find((text) => text.replace(/^\uFEFF/, '').startsWith(name));
  return Number.parseFloat(line?.split(':')[1]?.trim() ?? '');
}

/**
 * Hours on the plane of an array. Format: PVGIS 5 user manual and real files (seen): metadata, a header
 * `time,Gb(i),Gd(i),Gr(i),...` or `time,G(i),...`, rows `YYYYMMDD:HHMM` in UTC, then notes. The minute is that
 * of the satellite's picture, or half past for hour means; each row stands for its clock hour. The plane's
 * azimuth is 0 south, 90 west there, and is turned to count from north here.
 */
function readHours(lines: readonly string[], header: number, file: string, place: Place): ReadResult {
  const issues: Issue[] = [];
  const names = lines[header].split(',');
  const parts = ['Gb(i)', 'Gd(i)', 'Gr(i)'].map((name) => names.indexOf(name));
  const whole = names.indexOf('G(i)');
  const [air, wind] = [names.indexOf('T2m'), names.indexOf('WS10m')];
  if (whole < 0 && parts.some((column) => column < 0))
    issues.push(weatherIssue(file, header + 1, 'header', lines[header], 'G(i), or Gb(i), Gd(i) and Gr(i)'));
  const rows: { hourS: number; cells: number[]; line: number }[] = [];
  for (let i = header + 1; i < lines.length; i++) {
    const match = /^(\d{4})(\d\d)(\d\d):(\d\d)(\d\d),/.exec(lines[i]);
    if (!match) break;
    const [year, month, day, hour] = match.slice(1, 5).map(Number);
    const hourS = Date.UTC(year, month - 1, day, hour) / 1000;
    rows.push({ hourS, cells: lines[i].split(',').map(Number), line: i + 1 });
  }
  if (rows.length < 2)
    issues.push(weatherIssue(file, header + 2, 'rows', `${rows.length} rows`, 'hours of data'));
  const first = rows[0]?.hourS ?? 0;
  const count = rows.length === 0 ? 0 : (rows[rows.length - 1].hourS - first) / 3600 + 1;
  if (!(count > 0 && count <= 4 * rows.length))
    issues.push(
      weatherIssue(
        file,
        header + 2,
        'time',
        `${rows.length} rows over ${count} hours`,
        'rising hours without holes',
      ),
    );
  if (issues.length > 0) return { series: [], sheet: null, issues };

  const axis: TimeAxis = { startS: first, stepMin: 60, count };
  const column = () => new Float64Array(count).fill(Number.NaN);
  const values: [Quantity, Float64Array][] = [['poaWPerM2', column()]];
  if (air >= 0) values.push(['airC', column()]);
  if (wind >= 0) values.push(['windMPerS', column()]);
  const reconstructed = names.indexOf('Int');
  let estimated = 0;
  for (const { hourS, cells } of rows) {
    const i = (hourS - first) / 3600;
    const poa = whole >= 0 ? cells[whole] : parts.reduce((sum, part) => sum + cells[part], 0);
    for (const [quantity, series] of values) {
      if (quantity === 'poaWPerM2') series[i] = within(poa, -0.01, 2000);
      else if (quantity === 'airC') series[i] = within(cells[air], -70, 70);
      else series[i] = within(cells[wind], 0, 100);
    }
    if (reconstructed >= 0 && cells[reconstructed] === 1) estimated++;
  }
  const gaps: Gap[] = [];
  const series = values.map(([quantity, column]): Series => {
    const filled = fillGaps(column, axis, 1440, quantity, file);
    gaps.push(...filled.gaps);
    issues.push(...filled.issues);
    return {
      name: quantity,
      quantity,
      axis,
      values: column.map((value) => (quantity === 'poaWPerM2' ? Math.max(0, value) : value)),
    };
  });
  const tiltDeg = metadata(lines, 'Slope');
  const azimuthDeg = (((metadata(lines, 'Azimuth') + 180) % 360) + 360) % 360;
  const sheet = makeSheet({
    file,
    reader: 'pvgis',
    chosenBecause: 'first line is Latitude (decimal degrees):',
    timeZone: `UTC, each row for its clock hour; plane tilted ${tiltDeg}°, facing ${azimuthDeg}° from north`,
    axis,
    series,
    gaps,
    estimated,
  });
  const failed = issues.some((issue) => issue.severity === 'error');
  return { series: failed ? [] : series, sheet, issues, location: place, plane: { tiltDeg, azimuthDeg } };
}

/** A typical year in UTC: `time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,...`, rows `YYYYMMDD:HHMM` of mixed years. */
function readTypical(lines: readonly string[], header: number, file: string, place: Place): ReadResult {
  const issues: Issue[] = [];
  const names = lines[header].split(',');
  const wanted = {
    ghiWPerM2: 'G(h)',
    dniWPerM2: 'Gb(n)',
    dhiWPerM2: 'Gd(h)',
    airC: 'T2m',
    windMPerS: 'WS10m',
  } as const;
  const column = () => new Float64Array(TYPICAL_HOURS).fill(Number.NaN);
  const hours = {
    ghiWPerM2: column(),
    dniWPerM2: column(),
    dhiWPerM2: column(),
    airC: column(),
    windMPerS: column(),
  };
  for (const name of Object.values(wanted))
    if (!names.includes(name))
      issues.push(weatherIssue(file, header + 1, name, 'no such column', `a column '${name}'`));
  let hour = 0;
  for (let i = header + 1; i < lines.length; i++) {
    const match = /^\d{4}(\d\d)(\d\d):\d{4},/.exec(lines[i]);
    if (!match) break;
    if (match[1] === '02' && match[2] === '29') continue;
    const cells = lines[i].split(',').map(Number);
    if (hour < TYPICAL_HOURS)
      for (const [quantity, name] of Object.entries(wanted) as [keyof typeof hours, string][]) {
        const value = cells[names.indexOf(name)];
        const isLevel = quantity === 'airC';
        hours[quantity][hour] = isLevel ? within(value, -70, 70) : Math.max(0, within(value, -0.01, 1500));
      }
    hour++;
  }
  if (hour !== TYPICAL_HOURS)
    issues.push(
      weatherIssue(file, header + 2, 'rows', `${hour} hours`, `${TYPICAL_HOURS}, a year without 29 February`),
    );
  const chosenBecause = 'first line is Latitude (decimal degrees): and the header time(UTC),';
  return typicalYearSeries({ file, reader: 'pvgis', chosenBecause, location: place, hours, issues });
}
