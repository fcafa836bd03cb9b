/** Modules of an array as they are wired; values at 1000 W/m² and 25 °C. */
export interface Strings {
  modulesInSeries: number;
  strings: number;
  /** a module's voltage and current at its largest power [V], [A] */
  vmpV: number;
  impA: number;
  /** relative change of that voltage with cell temperature, negative [1/K] */
  vmpPerK: number;
}

/** What a charge controller or array inverter takes at its input; infinite where it sets no limit. */
export interface ConverterInput {
  /** below this the strings give it nothing [V] */
  minV: number;
  /** it holds the strings at this at most [V] */
  maxV: number;
  maxInputA: number;
  /** at its input [kW] */
  ratedKw: number;
}

/** Voltage of a string at its largest power [V]; that it falls a little in dim light is left out. */
export function stringVmpV(strings: Strings, cellC: number): number {
  return strings.modulesInSeries * strings.vmpV * (1 + strings.vmpPerK * (cellC - 25));
}

/** Energy that each limit of a converter's input keeps out, in the order in which they act [kW-steps]. */
export interface InputLosses {
  belowWindow: number;
  aboveWindow: number;
  inputCurrent: number;
  inputPower: number;
}

/**
 * What a converter can take of an array, in place.
 * Below the window it takes nothing. Above it, it holds the strings at its highest voltage, where they give about
 * the current of their largest power: the power falls with the voltage. More current than it may take leaves the
 * power in proportion; more power than its rating is cut off.
 * @param potentialKw what the array could give at its largest power [kW]; changed to what is taken
 * @param poaWPerM2   irradiance that reaches the cells and makes the current [W/m²]
 * @param cellC       cell temperature [°C]; all of one length
 * @param strings     null: only the power is limited
 * Source: current in proportion to irradiance and voltage straight in cell temperature, as in IEC 60891 (from memory);
 * that the current hardly changes to the left of the largest power is common practice.
 */
export function limitInput(
  potentialKw: Float64Array,
  poaWPerM2: Float64Array,
  cellC: Float64Array | null,
  strings: Strings | null,
  input: ConverterInput,
): InputLosses {
  const losses: InputLosses = { belowWindow: 0, aboveWindow: 0, inputCurrent: 0, inputPower: 0 };
  for (let i = 0; i < potentialKw.length; i++) {
    let kw = potentialKw[i];
    if (kw <= 0) continue;
    if (strings !== null && cellC !== null) {
      const volts = stringVmpV(strings, cellC[i]);
      const within = throughWindow(kw, volts, input);
      if (within === 0) losses.belowWindow += kw;
      else losses.aboveWindow += kw - within;
      const amps = (strings.strings * strings.impA * poaWPerM2[i]) / 1000;
      kw = amps > input.maxInputA ? (within * input.maxInputA) / amps : within;
      losses.inputCurrent += within - kw;
    }
    potentialKw[i] = Math.min(kw, input.ratedKw);
    losses.inputPower += kw - potentialKw[i];
  }
  return losses;
}

function throughWindow(kw: number, volts: number, input: ConverterInput): number {
  if (volts < input.minV) return 0;
  return volts > input.maxV ? (kw * input.maxV) / volts : kw;
}
