import { type Findings, quoted } from './findings.ts';
import { decimal } from './weather-text.ts';

/** Where the weather was measured. */
export interface WeatherPlace {
  latDeg: number;
  lonDeg: number;
  /** standard time less UTC [h] */
  utcOffsetH: number;
  elevationM: number;
}

/** A number of a file's head and where it stands. */
export interface HeadCell {
  text: string | undefined;
  line: number;
  column?: number;
}

const RANGES = {
  latDeg: ['latitude', -90, 90, '°, north positive'],
  lonDeg: ['longitude', -180, 180, '°, east positive'],
  utcOffsetH: ['offset from UTC', -12, 14, 'h, in whole minutes'],
  elevationM: ['elevation', -500, 9000, 'm above the sea'],
} as const;

/** The place of a weather file from the cells of its head; each that cannot be is an error of its own. */
export function placeFrom(cells: Record<keyof WeatherPlace, HeadCell>, found: Findings): WeatherPlace {
  const read = (key: keyof WeatherPlace): number => {
    const [name, least, most, unit] = RANGES[key];
    const { text, line, column } = cells[key];
    const value = decimal(text);
    const isMinutes = key !== 'utcOffsetH' || Math.abs(value * 60 - Math.round(value * 60)) < 1e-6;
    if (!(value >= least && value <= most && isMinutes))
      found.error('place', name, quoted(text ?? ''), `${least} to ${most} ${unit}`, { line, column });
    return value;
  };
  return {
    latDeg: read('latDeg'),
    lonDeg: read('lonDeg'),
    utcOffsetH: read('utcOffsetH'),
    elevationM: read('elevationM'),
  };
}
