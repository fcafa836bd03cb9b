import { addBehindConverter, arrayPotentialKwInto } from '../sim/sky/array-potential.ts';
import { planeOfArrayInto, type SunPath, sunPath } from '../sim/sky/plane.ts';
import type { Cache } from './cache.ts';
import type { TimeAxis } from './series.ts';
import type { ArrayPart, Site } from './site-schema.ts';
import type { Weather } from './weather-files.ts';

/** What the arrays of a site offer it. */
export interface ArrayOutput {
  /** behind their converters [kW]; null where there is none of the kind */
  dcKw: Float64Array | null;
  acKw: Float64Array | null;
  /** energy cut off by converters [kWh] */
  clippedKwh: number;
  /** share of each phase in the AC-coupled output, by the energy of the whole period */
  acShare: number[];
}

/** The output of all arrays of a site; planes and the sun's path are worked out once for all alternatives. */
export function arrayOutput(site: Site, axis: TimeAxis, weather: Weather, cache: Cache): ArrayOutput {
  const { phases } = site.inverter;
  const output: ArrayOutput = { dcKw: null, acKw: null, clippedKwh: 0, acShare: [] };
  const acByPhase = new Array<number>(phases).fill(0);
  for (const array of site.arrays) {
    const total = array.coupling === 'dc' ? output.dcKw : output.acKw;
    const sum = total ?? new Float64Array(axis.count);
    const before = sumOf(sum);
    const potential = potentialOf(site, axis, weather, array, cache);
    const clipped = addBehindConverter(
      sum,
      potential,
      array.efficiency,
      limitKw(array, site.battery?.busV ?? 0),
    );
    output.clippedKwh += (clipped * axis.stepMin) / 60;
    if (array.coupling === 'dc') output.dcKw = sum;
    else {
      output.acKw = sum;
      shareOut(acByPhase, sumOf(sum) - before, array.phase);
    }
  }
  const whole = acByPhase.reduce((sum, part) => sum + part, 0);
  output.acShare = acByPhase.map((part) => (whole > 0 ? part / whole : 1 / phases));
  return output;
}

/** Whether a plane is the one that irradiance was measured on, within what a roof can be measured to. */
export function isInPlane(array: ArrayPart, plane: Weather['plane']): boolean {
  if (plane === null) return false;
  const turn = Math.abs(((array.azimuthDeg - plane.azimuthDeg + 540) % 360) - 180);
  return Math.abs(array.tiltDeg - plane.tiltDeg) <= 1 && (turn <= 1 || plane.tiltDeg < 1);
}

function potentialOf(
  site: Site,
  axis: TimeAxis,
  weather: Weather,
  array: ArrayPart,
  cache: Cache,
): Float64Array {
  const potential = new Float64Array(axis.count);
  arrayPotentialKwInto(potential, irradianceOn(site, axis, weather, array, cache), weather.airC, null, {
    ratedKw: array.kWp,
    noctC: array.noctC,
    gammaPerK: array.powerPerK,
    soilingFrac: array.soiling,
    wiringFrac: array.wiring,
  });
  return potential;
}

/** Irradiance that reaches the cells of an array [W/m²]: as measured in its plane, or worked out from the global. */
function irradianceOn(
  site: Site,
  axis: TimeAxis,
  weather: Weather,
  array: ArrayPart,
  cache: Cache,
): Float64Array {
  const { globalWPerM2, directWPerM2, diffuseWPerM2, plane: measured } = weather;
  if (measured !== null && isInPlane(array, measured)) return measured.wPerM2;
  if (globalWPerM2 === null) throw new Error('an array outside the plane that was measured');
  const { latitudeDeg, longitudeDeg } = site.site;
  const path = cache.once<SunPath>(['sun', latitudeDeg, longitudeDeg, axis], () =>
    sunPath(axis.startS, axis.stepMin, axis.count, latitudeDeg, longitudeDeg),
  );
  const plane = { tiltDeg: array.tiltDeg, azimuthDeg: array.azimuthDeg, albedo: array.albedo };
  return cache.once(['plane', plane, latitudeDeg, longitudeDeg, axis, site.weather], () => {
    const out = new Float64Array(axis.count);
    planeOfArrayInto(out, path, { globalWPerM2, directWPerM2, diffuseWPerM2 }, plane);
    return out;
  });
}

/** Largest output behind an array's converter [kW]. */
function limitKw(array: ArrayPart, busV: number): number {
  if (array.coupling === 'ac') return array.inverterKw ?? Number.POSITIVE_INFINITY;
  return array.controllerA === undefined ? Number.POSITIVE_INFINITY : (array.controllerA * busV) / 1000;
}

function shareOut(byPhase: number[], energy: number, phase: ArrayPart['phase']): void {
  for (let k = 0; k < byPhase.length; k++)
    if (phase === 'all') byPhase[k] += energy / byPhase.length;
    else if (phase === k + 1) byPhase[k] += energy;
}

function sumOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum;
}
