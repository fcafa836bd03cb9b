import type { Issue } from './issue.ts';

/** The common time axis: equal steps from a start instant in UTC. */
export interface TimeAxis {
  /** start of the first step [seconds since 1970-01-01T00:00Z], whole minutes */
  startS: number;
  /** step length [min], a whole number that divides 60 */
  stepMin: number;
  /** number of steps */
  count: number;
}

/** What a series measures; the unit is fixed by the quantity. */
export type Quantity =
  | 'loadKw' // mean power over the step [kW]
  | 'generationKw' // what a site made or sent out, kept apart from load [kW]
  | 'ghiWPerM2' // global horizontal irradiance, mean over the step [W/m²]
  | 'dniWPerM2' // direct normal irradiance [W/m²]
  | 'dhiWPerM2' // diffuse horizontal irradiance [W/m²]
  | 'poaWPerM2' // irradiance on the plane of the array [W/m²]
  | 'airC' // air temperature, mean over the step [°C]
  | 'windMPerS' // wind speed, mean over the step [m/s]
  | 'precipMmPerH' // precipitation as water, mean over the step [mm/h]
  | 'snowCmPerH' // fresh snow, mean over the step [cm/h]
  | 'snowDepthCm'; // snow on the ground, at the end of the step [cm]

/** One quantity on a time axis. `values[i]` is the mean over step i; never NaN once a reader returns it. */
export interface Series {
  name: string;
  quantity: Quantity;
  axis: TimeAxis;
  values: Float64Array;
}

/** A hole in the data and what was done about it. */
export interface Gap {
  startS: number;
  steps: number;
  /** the rule that filled it; null where it is too long to fill (then there is an error issue too) */
  filledBy: string | null;
}

/** What is known about a file that was read: shown to the designer before anything is simulated. */
export interface DataSheet {
  file: string;
  /** the reader that took it, and why ('first record is 100,NEM12') */
  reader: string;
  chosenBecause: string;
  /** how the file's times were read ('UTC+10 all year, interval end', ...) */
  timeZone: string;
  axis: TimeAxis;
  /** per series: total (kWh or kWh/m²; mean °C for temperatures), peak, load factor (mean/peak) */
  series: { name: string; quantity: Quantity; total: number; peak: number; loadFactor: number }[];
  gaps: Gap[];
  duplicates: number;
  /** values the source marks as estimated or substituted */
  estimated: number;
  /** values filled by a rule (the sum of filled gap steps) */
  filled: number;
}

/** What every reader gives back. With an error among the issues, `series` is empty and must not be used. */
export interface ReadResult {
  series: Series[];
  sheet: DataSheet | null;
  issues: Issue[];
  /** a site's coordinates where the file carries them */
  /** the plane that irradiance on an array was given for; azimuth clockwise from north */
  plane?: { tiltDeg: number; azimuthDeg: number };
  location?: { latDeg: number; lonDeg: number; utcOffsetH?: number; elevationM?: number };
}
