/** What an engine of a given kind gives at a site that is higher, hotter or damper than its rating assumes. */
import { powerOf } from './wear/power.ts';

/** Reference conditions of ISO 3046-1: 100 kPa, 298 K, 30 % relative humidity, charge coolant 298 K. */
const REFERENCE = { pressureKPa: 100, kelvin: 298, humidity: 0.3 };
const ZERO_C_KELVIN = 273.15;

/** How an engine breathes; the standard's factors differ by it. */
export type EngineKind = 'natural' | 'naturalAirLimited' | 'turbo' | 'turboCooled';

/** a: weight of the air's moisture; m, n, q: exponents of pressure, air temperature and coolant temperature. */
interface Factors {
  a: number;
  m: number;
  n: number;
  q: number;
}

/**
 * Factors of ISO 3046-1 by kind of engine. `naturalAirLimited` and `turboCooled` as seen in public text, `natural`
 * (limited by heat) and `turbo` (without charge cooling) from memory.
 */
const FACTORS: Record<EngineKind, Factors> = {
  natural: { a: 0, m: 1, n: 1, q: 0 },
  naturalAirLimited: { a: 1, m: 1, n: 0.75, q: 0 },
  turbo: { a: 0, m: 0.7, n: 2, q: 0 },
  turboCooled: { a: 0, m: 0.7, n: 1.2, q: 1 },
};

/** Air and coolant at an engine. */
export interface EngineAir {
  /** absolute [kPa], > 0 */
  pressureKPa: number;
  /** at the engine's intake [K], > 0 */
  kelvin: number;
  /** relative, 0 to 1 */
  humidity: number;
  /** of the charge air's coolant [K]; matters only with charge cooling */
  coolantKelvin: number;
}

/**
 * Air pressure of the standard atmosphere.
 * @param altitudeM above sea level [m], -400 to 6000
 * @returns [kPa]
 * Source: ICAO standard atmosphere (Doc 7488), 101.325 · (1 − 2.25577e-5 · h)^5.25588.
 */
export function standardPressureKPa(altitudeM: number): number {
  return 101.325 * powerOf(1 - 2.25577e-5 * altitudeM, 5.25588);
}

/**
 * Pressure of saturated water vapour.
 * @param kelvin 273.15 to 333, used somewhat below freezing too
 * @returns [kPa]
 * Source: IAPWS-IF97, region 4, equation 30, coefficients of its table 34 (from memory; the tests hold the check
 * value that the release prints).
 */
export function saturationKPa(kelvin: number): number {
  const x = kelvin - 0.23855557567849 / (kelvin - 650.17534844798);
  const a = x * x + 1167.0521452767 * x - 724213.16703206;
  const b = -17.073846940092 * x * x + 12020.82470247 * x - 3232555.0322333;
  const c = 14.91510861353 * x * x - 4823.2657361591 * x + 405113.40542057;
  const root = (2 * c) / (-b + Math.sqrt(b * b - 4 * a * c));
  return 1000 * root * root * root * root;
}

/**
 * Power at the site for power at other conditions, α = k − 0.7 (1 − k)(1/η − 1),
 * k = [(p − a φ p_s)/(p_r − a φ_r p_sr)]^m (T_r/T)^n (T_cr/T_c)^q.
 * @param mechanicalEff mechanical efficiency η of the engine, 0 to 1
 * @param reference     conditions of the rating; those of the standard unless told otherwise
 * @returns α, not below 0; above 1 where the site is kinder than the reference
 * Source: ISO 3046-1 / ISO 15550, formula and reference conditions as seen in public text.
 */
export function powerAdjustment(
  kind: EngineKind,
  air: EngineAir,
  mechanicalEff: number,
  reference: EngineAir = { ...REFERENCE, coolantKelvin: REFERENCE.kelvin },
): number {
  const { a, m, n, q } = FACTORS[kind];
  const dry = ({ pressureKPa, humidity, kelvin }: EngineAir) =>
    pressureKPa - a * humidity * saturationKPa(kelvin);
  const k =
    powerOf(dry(air) / dry(reference), m) *
    powerOf(reference.kelvin / air.kelvin, n) *
    powerOf(reference.coolantKelvin / air.coolantKelvin, q);
  return Math.max(0, k - 0.7 * (1 - k) * (1 / mechanicalEff - 1));
}

/** Where a generator stands, and what its engine is. */
export interface EngineSite {
  kind: EngineKind;
  altitudeM: number;
  /** air at the intake on the hottest day that counts [°C] */
  airC: number;
  humidity: number;
  /** charge coolant [°C] */
  coolantC: number;
  mechanicalEff: number;
}

/**
 * Share of its rating that a generator gives at a site: never more than all of it without its maker's word.
 * @returns 0 to 1
 */
export function siteRatingFrac(site: EngineSite): number {
  const air = {
    pressureKPa: standardPressureKPa(site.altitudeM),
    kelvin: site.airC + ZERO_C_KELVIN,
    humidity: site.humidity,
    coolantKelvin: site.coolantC + ZERO_C_KELVIN,
  };
  return Math.min(1, powerAdjustment(site.kind, air, site.mechanicalEff));
}
