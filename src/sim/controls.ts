/** The controls: what is set. Times in hours, powers in kW, states of charge as fractions. */
export interface Controls {
  /** what a load above the inverters and battery does: 'trip' switches off, 'partial' serves what can be carried */
  shortfall: 'trip' | 'partial';
  /** an overloaded phase takes all phases with it */
  tripAllPhases: boolean;
  /** a tripped phase tries again after this [h], > 0 */
  restartDelayH: number;
  /** after nobody can restart a dead site but a person: their arrival [h] */
  deadVisitH: number;

  /** start cause `charge`; null: never */
  charge: ChargeRule | null;
  /** start cause `peak`; null: never */
  peak: PeakRule | null;
  /** start cause `continuous` */
  continuous: boolean;

  /** on load at least this long once started, and at most this long [h] */
  minRunH: number;
  maxRunH: number;
  /** standstill after every stop [h] */
  leastRestH: number;
  /** a `charge` run that meets restricted hours ends (its minimum run over) or goes on */
  restrictedEndsRun: boolean;
  /** at or below this state of charge, restricted hours and frost do not hold the generator back */
  urgentSoc: number;

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
