/** Capacity that a battery loses by getting older, whether it is used or not. */
import { exponential, naturalLog, powerOf } from './power.ts';

/** Molar gas constant [J/mol K], exact. Source: SI, 2019. */
const GAS_CONSTANT = 8.31446261815324;
const ZERO_C_IN_K = 273.15;

/** Fade = fadeFirstYear · temperature factor · state-of-charge factor · years^timeExponent. */
export interface CalendarLaw {
  /** capacity lost in the first year at the reference temperature and state of charge [fraction], >= 0 */
  fadeFirstYear: number;
  /** 0.5: square root of time; 1: linear; above 0 up to 1 */
  timeExponent: number;
  referenceC: number;
  /** activation energy [J/mol], >= 0; about 50 000 doubles the fade every 10 K near 25 °C */
  activationJPerMol: number;
  /**
   * state-of-charge factor 1 + socSlope·x + socCubic·x³ with x = state of charge − referenceSocFrac, not below 0
   */
  referenceSocFrac: number;
  socSlope: number;
  socCubic: number;
}

/**
 * Speed of ageing against the reference temperature, exp(Ea/R · (1/Tref − 1/T)) with T in kelvin.
 * @param cellC cell temperature [°C], above −273.15
 * @returns > 0; 1 at the reference
 * Source: Arrhenius' law.
 */
export function arrheniusFactor(cellC: number, referenceC: number, activationJPerMol: number): number {
  const perK = 1 / (referenceC + ZERO_C_IN_K) - 1 / (cellC + ZERO_C_IN_K);
  return exponential((activationJPerMol / GAS_CONSTANT) * perK);
}

/**
 * Activation energy that doubles ageing over a rise above the reference.
 * @param riseK > 0
 * @returns [J/mol]
 * Source: derived from Arrhenius' law, R·ln 2 / (1/T − 1/(T + rise)).
 */
export function activationForDoubling(referenceC: number, riseK: number): number {
  const kelvin = referenceC + ZERO_C_IN_K;
  return (GAS_CONSTANT * naturalLog(2) * kelvin * (kelvin + riseK)) / riseK;
}

/**
 * Fade of a first year at a temperature and state of charge that stay.
 * @returns [fraction], >= 0
 * Source: product of a reference fade, Arrhenius' factor, a state-of-charge factor and a power of time, as in
 * Naumann, Schimpe, Keil, Hesse and Jossen, Journal of Energy Storage 17, 2018 (from memory), who take the square
 * root of time and a cubic in the state of charge.
 */
export function calendarRate(law: CalendarLaw, cellC: number, socFrac: number): number {
  const x = socFrac - law.referenceSocFrac;
  const socFactor = Math.max(0, 1 + law.socSlope * x + law.socCubic * x * x * x);
  return law.fadeFirstYear * arrheniusFactor(cellC, law.referenceC, law.activationJPerMol) * socFactor;
}

/**
 * Fade after more time at new conditions. The fade so far is taken as if it had come about at these conditions
 * (equivalent time), and time goes on from there; splitting a time at the same conditions changes nothing.
 * @param fade  so far [fraction], >= 0
 * @param rate  of the first year at the new conditions, from `calendarRate`, >= 0
 * @param years time that passes, >= 0
 * @returns [fraction]
 * Source: common practice (time-equivalent accumulation).
 */
export function calendarFadeAfter(fade: number, rate: number, timeExponent: number, years: number): number {
  if (rate <= 0) return fade;
  if (timeExponent === 1) return fade + rate * years;
  if (fade < rate) return rate * powerOf(powerOf(fade / rate, 1 / timeExponent) + years, timeExponent);
  // the same, where a slow rate would make the equivalent time (fade/rate)^(1/z) overflow
  return fade * powerOf(1 + years * powerOf(rate / fade, 1 / timeExponent), timeExponent);
}

/**
 * The steady temperature that ages as much as a changing one. It lies above the plain mean, because hot hours
 * age more than cool ones save.
 * @param cellC temperatures over equal times [°C]; one or more
 * @returns [°C]; the plain mean with no activation energy
 * Source: derived: under equivalent time, fade^(1/z) grows by rate^(1/z) in each unit of time, so that power of the
 * factor is what has to be averaged.
 */
export function equivalentCellC(law: CalendarLaw, cellC: ArrayLike<number>): number {
  let sum = 0;
  let plain = 0;
  // the factor to the power 1/z is Arrhenius' factor of an activation energy 1/z as large
  const activation = law.activationJPerMol / law.timeExponent;
  const kelvins = activation / GAS_CONSTANT;
  const perReferenceK = 1 / (law.referenceC + ZERO_C_IN_K);
  for (let i = 0; i < cellC.length; i++) {
    // `arrheniusFactor`, with what does not change worked out before
    sum += exponential(kelvins * (perReferenceK - 1 / (cellC[i] + ZERO_C_IN_K)));
    plain += cellC[i];
  }
  if (activation <= 0) return plain / cellC.length;
  const perK = (naturalLog(sum / cellC.length) * GAS_CONSTANT) / activation;
  return 1 / (1 / (law.referenceC + ZERO_C_IN_K) - perK) - ZERO_C_IN_K;
}
