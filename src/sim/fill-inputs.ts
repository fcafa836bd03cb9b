import type { LoopInputs } from './advance.ts';
import type { Inputs } from './inputs.ts';

/** The series that the loop reads, absent ones as what they mean when absent: no array, nobody away, nothing due. */
export function fillInputs(inputs: Inputs): LoopInputs {
  const { count, stepMin } = inputs;
  const none = zeros(count);
  const never = new Uint8Array(none.buffer, 0, count);
  const always = inputs.attended && inputs.runWindow ? never : ones(count);
  const refill = inputs.refillSteps && inputs.refillSteps.length > 0 ? new Uint8Array(count) : never;
  for (const step of inputs.refillSteps ?? []) refill[step] = 1;
  const unitsOut = inputs.unitsOut ?? inputs.loadKw.map(() => never);
  const shiftDeadline = inputs.shiftDeadline ?? [];
  const flags = [refill, inputs.outOfOrder, inputs.bypass, inputs.exerciseDue, ...(inputs.unitsOut ?? [])];
  const turns = [inputs.thresholdSet, inputs.runWindow].map((series) => series && changesOf(series));
  return {
    loadKw: inputs.loadKw,
    sheddableKw: inputs.sheddableKw ?? inputs.loadKw.map(() => none),
    dcArrayKw: inputs.dcArrayKw ?? none,
    acArrayKw: inputs.acArrayKw ?? none,
    airC: inputs.airC ?? none,
    sunWPerM2: inputs.cabinetSunWPerM2 ?? none,
    restricted: inputs.restricted ?? never,
    night: inputs.night ?? never,
    refill,
    attended: inputs.attended ?? always,
    outOfOrder: inputs.outOfOrder ?? never,
    bypass: inputs.bypass ?? never,
    runWindow: inputs.runWindow ?? always,
    exerciseDue: inputs.exerciseDue ?? never,
    thresholdSet: inputs.thresholdSet ?? never,
    unitsOut,
    shiftDeadline,
    shiftHoursLeft: shiftDeadline.map((flagged) => hoursToNext(flagged, stepMin / 60)),
    special: anyOf(
      [...flags, ...shiftDeadline, ...turns].filter((series) => series !== undefined),
      never,
    ),
  };
}

/** 1 where a series differs from the step before; the first step counts. */
function changesOf(series: Uint8Array): Uint8Array {
  return series.map((value, i) => Number(i === 0 || value !== series[i - 1]));
}

/** 1 where any of the flags is set. */
function anyOf(flags: readonly Uint8Array[], never: Uint8Array): Uint8Array {
  if (flags.length === 0) return never;
  const any = new Uint8Array(never.length);
  for (const series of flags) for (let i = 0; i < any.length; i++) if (series[i] !== 0) any[i] = 1;
  return any;
}

/** Hours from the start of every step to the next flagged step after it; without end after the last. */
function hoursToNext(flagged: Uint8Array, stepH: number): Float64Array {
  const hours = new Float64Array(flagged.length);
  let steps = Number.POSITIVE_INFINITY;
  for (let i = flagged.length - 1; i >= 0; i--) {
    steps += 1;
    hours[i] = steps * stepH;
    if (flagged[i] === 1) steps = 0;
  }
  return hours;
}

let sharedZeros = new Float64Array(0);
let sharedOnes = new Uint8Array(0);

/** Zeros that nobody writes, kept from run to run. */
function zeros(count: number): Float64Array {
  if (sharedZeros.length < count) sharedZeros = new Float64Array(count);
  return sharedZeros.length === count ? sharedZeros : sharedZeros.subarray(0, count);
}

/** Ones that nobody writes, likewise. */
function ones(count: number): Uint8Array {
  if (sharedOnes.length < count) sharedOnes = new Uint8Array(count).fill(1);
  return sharedOnes.length === count ? sharedOnes : sharedOnes.subarray(0, count);
}
