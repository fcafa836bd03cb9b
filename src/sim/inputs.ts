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
  /** steps at whose start the tank is filled up, rising */
  refillSteps?: Int32Array;
}
