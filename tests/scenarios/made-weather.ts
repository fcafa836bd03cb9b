import { issueSentence } from '../../src/scenarios/issue.ts';
import type { Quantity, ReadResult } from '../../src/scenarios/series.ts';
import { sunPath } from '../../src/sim/sky/plane.ts';

/** A row of an invented weather year. */
export interface MadeRow {
  global: number;
  direct: number;
  diffuse: number;
  air: number;
  wind: number;
}

/** An invented place. */
export const PLACE = { latDeg: 36.1, lonDeg: -79.95, utcOffsetH: -5 };

export const bytes = (text: string) => new TextEncoder().encode(text);

/**
 * An invented year of 365 days from 1 January in standard time, in steps of `stepMin`: light only while the sun is
 * up, global that fits its parts, every number with few digits so that a file keeps it.
 * @param shiftMin the steps begin so long after the full hours
 */
export function madeYear(place = PLACE, stepMin = 60, shiftMin = 0): MadeRow[] {
  const startS = Date.UTC(2023, 0, 1) / 1000 - place.utcOffsetH * 3600 + shiftMin * 60;
  const count = (365 * 1440) / stepMin;
  const sun = sunPath(startS, stepMin, count, place.latDeg, place.lonDeg);
  return Array.from({ length: count }, (_, i) => {
    const cloud = ((Math.floor((i * stepMin) / 1440) * 37) % 10) / 10;
    const direct = Math.round(850 * (1 - cloud) * sun.sunlit[i]);
    const diffuse = Math.round(300 * sun.cosZenith[i] * sun.sunlit[i]);
    const global = Math.round(direct * sun.cosZenith[i] * sun.sunlit[i] + diffuse);
    const air = Math.round(100 + 80 * Math.sin(i / 17) + 40 * Math.sin(i / 1400)) / 10;
    return { global, direct, diffuse, air, wind: ((i * 7) % 61) / 10 };
  });
}

export const sumOf = (rows: readonly MadeRow[], key: keyof MadeRow) =>
  rows.reduce((sum, row) => sum + row[key], 0);

const two = (value: number) => String(value).padStart(2, '0');

/** Month and day of a row of a 365-day year. */
function dateOf(i: number, perDay: number): { month: number; day: number } {
  const date = new Date(Date.UTC(2023, 0, 1 + Math.floor(i / perDay)));
  return { month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

type Edit = (rows: string[]) => void;
const asIs: Edit = () => {};

/** A TMY3 file, as its manual has it, of mixed years. */
export function tmy3Text(rows: readonly MadeRow[], edit = asIs): string {
  const lines = rows.map((row, i) => {
    const { month, day } = dateOf(i, 24);
    const values = `${row.global},${row.direct},${row.diffuse},${row.air},${row.wind}`;
    return `${two(month)}/${two(day)}/${1980 + month},${two((i % 24) + 1)}:00,${values}`;
  });
  edit(lines);
  const header = 'Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),Wspd (m/s)';
  return ['1,"DEMO, INVENTED",XX,-5.0,36.1,-79.95,273', header, ...lines, ''].join('\r\n');
}

const EPW_HEAD = [
  'LOCATION,DEMO SITE,XX,XXX,INVENTED,000000,36.1,-79.95,-5.0,273',
  'DESIGN CONDITIONS,0',
  'TYPICAL/EXTREME PERIODS,0',
  'GROUND TEMPERATURES,0',
  'HOLIDAYS/DAYLIGHT SAVING,No,0,0,0',
  'COMMENTS 1,invented',
  'COMMENTS 2,',
];

/** An EPW file with one or more records an hour; `scale` turns W/m² into what the file is to hold. */
export function epwText(rows: readonly MadeRow[], perHour = 1, scale = 1, edit = asIs): string {
  const lines = rows.map((row, i) => {
    const { month, day } = dateOf(i, 24 * perHour);
    const hour = Math.floor((i % (24 * perHour)) / perHour) + 1;
    const minute = perHour === 1 ? 0 : ((i % perHour) + 1) * (60 / perHour);
    const cells = new Array<string | number>(35).fill(0);
    cells.splice(0, 6, 1980 + month, month, day, hour, minute, 'A');
    cells[6] = row.air;
    [cells[13], cells[14], cells[15]] = [row.global * scale, row.direct * scale, row.diffuse * scale];
    cells[21] = row.wind;
    return cells.join(',');
  });
  edit(lines);
  return [...EPW_HEAD, `DATA PERIODS,1,${perHour},Data,Sunday, 1/ 1,12/31`, ...lines, ''].join('\n');
}

export const PVGIS_PLACE = { latDeg: 45, lonDeg: 8, utcOffsetH: 0 };
const PVGIS_HEAD = [
  'Latitude (decimal degrees):\t45.000',
  'Longitude (decimal degrees):\t8.000',
  'Elevation (m):\t100',
];
const NOTES = [
  '',
  'T2m: 2-m air temperature (degree Celsius)',
  '',
  'PVGIS (c) European Union, 2001-2024',
  '',
];

/** A typical year of PVGIS, stamped at the beginning of each hour in UTC. */
export function pvgisTypicalText(rows: readonly MadeRow[], offsetH: number | null, edit = asIs): string {
  const lines = rows.map((row, i) => {
    const { month, day } = dateOf(i, 24);
    const values = `${row.air},60.0,${row.global}.0,${row.direct}.0,${row.diffuse}.0,300.0,${row.wind},180.0,100000.0`;
    return `${2005 + month}${two(month)}${two(day)}:${two(i % 24)}00,${values}`;
  });
  edit(lines);
  const offset = offsetH === null ? [] : [`Irradiance Time Offset (h): ${offsetH}`];
  const header = 'time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP';
  return [...PVGIS_HEAD, ...offset, 'month,year', '1,2006', '2,2007', header, ...lines, ...NOTES].join(
    '\r\n',
  );
}

/** Hours of 2019 on a plane (here the flat one, whose parts are those of the global). */
export function pvgisHoursText(rows: readonly MadeRow[], minute: number, edit = asIs): string {
  const lines = rows.map((row, i) => {
    const { month, day } = dateOf(i, 24);
    const beam = row.global - row.diffuse;
    const values = `${beam}.0,${row.diffuse}.0,0.0,30.0,${row.air},${row.wind},0.0`;
    return `2019${two(month)}${two(day)}:${two(i % 24)}${two(minute)},${values}`;
  });
  edit(lines);
  const head = [
    ...PVGIS_HEAD,
    'Radiation database:\tINVENTED',
    '',
    '',
    'Slope: 0 deg. ',
    'Azimuth: 90 deg. (optimum)',
  ];
  const header = 'time,Gb(i),Gd(i),Gr(i),H_sun,T2m,WS10m,Int';
  return [...head, header, ...lines, ...NOTES].join('\r\n');
}

/** What a test asks of a reader's result. */
export const sentences = (result: ReadResult) => result.issues.map(issueSentence);
export const values = (result: ReadResult, quantity: Quantity) =>
  result.series.find((one) => one.quantity === quantity)!.values;
export const total = (result: ReadResult, quantity: Quantity) =>
  values(result, quantity).reduce((sum, value) => sum + value, 0);
/** Changes one cell of a row. */
export const cell = (row: number, column: number, text: string) => (rows: string[]) => {
  const cells = rows[row].split(',');
  cells[column] = text;
  rows[row] = cells.join(',');
};
