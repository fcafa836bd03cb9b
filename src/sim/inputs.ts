/** The series of a run on one time axis: value i is the mean over step i. */
export interface Inputs {
  /** step length [min], a whole number that divides 60 */
  stepMin: number;
  /** number of steps */
  count: number;
  /** load per phase [kW], >= 0: one or three arrays */
  loadKw: readonly Float64Array[];
  /** DC-coupled array after its charge controller [kW]; absent: none */
  dcArrayKw?: Float64Array;
  /** AC-coupled array after its own inverter, all phases together [kW]; absent: none */
  acArrayKw?: Float64Array;
  /** outside air [°C]; needed with a cabinet */
  airC?: Float64Array;
  /** irradiance on the cabinet [W/m²]; absent: shaded */
  cabinetSunWPerM2?: Float64Array;
  /** 1 in restricted hours; absent: never */
  restricted?: Uint8Array;
  /** 1 in the hours of the night; absent: none are counted */
  night?: Uint8Array;
  /** part of the load that may be shed, per phase [kW], >= 0 and at most the load; absent: none */
  sheddableKw?: readonly Float64Array[];
  /** 1 where somebody is there to start the generator or to repair; absent: always */
  attended?: Uint8Array;
  /** 1 where the generator is out of order; absent: never */
  outOfOrder?: Uint8Array;
  /** 1 where the inverters are out of service and the board runs from the generator alone; absent: never */
  bypass?: Uint8Array;
  /** inverter units out of service, per phase; absent: none */
  unitsOut?: readonly Uint8Array[];
  /** 1 where a `continuous` generator runs; absent: always */
  runWindow?: Uint8Array;
  /** 1 in the steps in which an exercise run falls due; absent: never */
  exerciseDue?: Uint8Array;
  /** which thresholds hold: 0 those of the controls, n the n-th of `sets`; absent: 0 */
  thresholdSet?: Uint8Array;
  /** for each shiftable load, 1 in the steps at whose start its daily energy is due anew; absent: never */
  shiftDeadline?: readonly Uint8Array[];
  /** outcome of start attempts in turn, over and over: 1 fails; absent: none fails */
  startFails?: Uint8Array;
  /** steps at whose start the tank is filled up, rising */
  refillSteps?: Int32Array;
}
