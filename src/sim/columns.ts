/** Per-step columns of a run, in arrays that the caller made; value i belongs to step i. */
export interface StepColumns {
  /** state of charge at the end of the step, 0 to 1 */
  socFrac: Float64Array;
  /** generator output, mean [kW] */
  generatorKw: Float64Array;
  /** load wanted and not supplied, mean [kW] */
  unservedKw: Float64Array;
  /** DC-coupled array used, mean [kW] */
  dcUsedKw: Float64Array;
  /** AC-coupled array used, mean [kW] */
  acUsedKw: Float64Array;
  /** battery, DC side, mean, charging positive [kW] */
  batteryKw: Float64Array;
  /** array output that could not be used, mean [kW] */
  curtailedKw: Float64Array;
  /** cabinet air and battery cells at the end of the step [°C] */
  cabinetC: Float64Array;
  cellC: Float64Array;
  /** 0 while the engine stood all through the step, else 1 + index into START_CAUSES */
  cause: Uint8Array;
}

/** New columns for a run of `count` steps. */
export function makeColumns(count: number): StepColumns {
  const column = () => new Float64Array(count);
  return {
    socFrac: column(),
    generatorKw: column(),
    unservedKw: column(),
    dcUsedKw: column(),
    acUsedKw: column(),
    batteryKw: column(),
    curtailedKw: column(),
    cabinetC: column(),
    cellC: column(),
    cause: new Uint8Array(count),
  };
}
