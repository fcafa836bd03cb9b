/** The controls: what is set. Times in hours, powers in kW, states of charge as fractions. */
export interface Controls {
  /** what a load above the inverters and battery does: 'trip' switches off, 'partial' serves what can be carried */
  shortfall: 'trip' | 'partial';
  /** an overloaded phase takes all phases with it */
  tripAllPhases: boolean;
  /** a tripped phase tries again after this [h], > 0 */
  restartDelayH: number;
  /** a person who is called comes after this, in attended hours: to a dead site, to inverters or a generator that
   *  have locked out, to an engine that must be bled [h] */
  deadVisitH: number;
  /** inverters lock out after so many trips, each within `withinH` of the one before; null or absent: never */
  lock?: { trips: number; withinH: number } | null;

  /** start cause `charge`; null: never */
  charge: ChargeRule | null;
  /** start cause `peak`; null: never */
  peak: PeakRule | null;
  /** start cause `continuous`: always, or where the series `runWindow` is 1 */
  continuous: boolean;
  /** start cause `hand`: a person starts it, in attended hours; null or absent: never */
  hand?: HandRule | null;
  /** start cause `full`; null or absent: never */
  full?: FullRule | null;
  /** start cause `exercise`; null or absent: never */
  exercise?: ExerciseRule | null;
  /** other thresholds for times marked in the series `thresholdSet`: its value n takes the n-th, 0 those above */
  sets?: readonly ThresholdSet[];
  /** load that is dropped when charge is low; null or absent: none */
  shed?: ShedRule | null;

  /** on load at least this long once started, and at most this long [h] */
  minRunH: number;
  maxRunH: number;
  /** standstill after every stop [h] */
  leastRestH: number;
  /** a `charge` run that meets restricted hours ends (its minimum run over) or goes on */
  restrictedEndsRun: boolean;
  /** at or below this state of charge, restricted hours and frost do not hold the generator back */
  urgentSoc: number;

  /** generator output that charging aims at, all phases together [kW]; absent: as much as charger and set give */
  chargeTargetKw?: number;
  /** the battery helps the generator with load above its rating */
  peakAssist: boolean;
  /** AC-coupled array with the generator on load: switched off, or held back to the minimum load */
  acArrayOnLoad: 'off' | 'held';
  /** wait of the AC-coupled array after every transfer [h] */
  acReconnectH: number;
  /** DC-coupled surplus may reach the AC side with the generator on load */
  dcToAcOnLoad: boolean;
}

export interface ChargeRule {
  startSoc: number;
  /** at or below the start threshold for this long [h] */
  delayH: number;
  stopSoc: number;
  /** or: charging limited by the battery below this power for this time; 0 kW: not used */
  tailKw: number;
  tailH: number;
  /** or: this long above the taper's start */
  absorptionMaxH: number;
}

export interface PeakRule {
  /** per phase, what the inverters must deliver [kW]; Infinity: only when they cannot carry it */
  startKw: number;
  delayH: number;
  /** per phase, load without charging [kW] */
  stopKw: number;
  holdH: number;
  /** whether a `peak` run also charges the battery */
  charges: boolean;
}

interface HandRule {
  /** somebody is asked to start at or below this state of charge, or when the site is cut off */
  startSoc: number;
  /** from then to the start, if attended [h] */
  responseH: number;
  stopSoc: number;
  /** or: this long above the taper's start [h] */
  absorptionMaxH: number;
}

/** Periodic full charge, to balance the cells and set the meter of charge right. */
interface FullRule {
  /** this long after the battery was last full [h] */
  everyH: number;
  /** true state of charge that counts as full */
  stopSoc: number;
  /** or: this long above the taper's start, which counts as full too [h] */
  absorptionMaxH: number;
}

/** A short run in steps marked in the series `exerciseDue`. */
interface ExerciseRule {
  /** on load [h] */
  runH: number;
  /** not when it was on load less than this ago [h]; 0: always */
  unlessWithinH: number;
}

/** Thresholds that a calendar may change. */
export interface ThresholdSet {
  startSoc: number;
  stopSoc: number;
  urgentSoc: number;
  /** per phase [kW] */
  peakStartKw: number;
  peakStopKw: number;
}

interface ShedRule {
  /** dropped at or below, restored at or above this state of charge; never while the generator is on load */
  belowSoc: number;
  aboveSoc: number;
  /** dropped for so long when load is above what can be carried [h], > 0 */
  overloadH: number;
}
