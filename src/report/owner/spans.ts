import type { AlternativeResult } from '../../scenarios/study.ts';

/** Steps of a run, the last not included. */
export interface Span {
  fromStep: number;
  toStep: number;
}

interface DaySums {
  loadKwh: number;
  arrayKwh: number;
  generatorKwh: number;
}

/**
 * The day nearest to the average: least squared distance in load, array output on offer and generator energy, each in
 * units of its spread over the run; of days with at least half the mean load, so that a weekend hut is shown with
 * somebody in it. Days are 24 hours from the start of the run.
 * @returns null for runs shorter than a day
 */
export function ordinaryDay(result: AlternativeResult): Span | null {
  const days = daySums(result);
  if (days.length === 0) return null;
  const distance = new Float64Array(days.length);
  for (const key of ['loadKwh', 'arrayKwh', 'generatorKwh'] as const) {
    const values = days.map((day) => day[key]);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const spread = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
    if (spread > 0) for (const [i, value] of values.entries()) distance[i] += (value - mean) ** 2 / spread;
  }
  const meanLoad = days.reduce((sum, { loadKwh }) => sum + loadKwh, 0) / days.length;
  let best = -1;
  for (let i = 0; i < distance.length; i++)
    if (days[i].loadKwh >= meanLoad / 2 && (best < 0 || distance[i] < distance[best] - 1e-9)) best = i;
  return spanOf(result, best, best + 1);
}

/**
 * The seven days in a row in which the array's output on offer most exceeds the load, of those with at least half
 * the mean load.
 * @returns null for runs shorter than a week, and without an array
 */
export function sunniestWeek(result: AlternativeResult): Span | null {
  const days = daySums(result);
  if (days.length < 7 || days.every(({ arrayKwh }) => arrayKwh === 0)) return null;
  const margin = (from: number) =>
    days.slice(from, from + 7).reduce((sum, day) => sum + day.arrayKwh - day.loadKwh, 0);
  const load = (from: number) => days.slice(from, from + 7).reduce((sum, day) => sum + day.loadKwh, 0);
  const least = (7 * days.reduce((sum, day) => sum + day.loadKwh, 0)) / days.length / 2;
  let best = -1;
  for (let day = 0; day + 7 <= days.length; day++)
    if (load(day) >= least && (best < 0 || margin(day) > margin(best) + 1e-9)) best = day;
  return best < 0 ? null : spanOf(result, best, best + 7);
}

function daySums({ inputs, columns }: AlternativeResult): DaySums[] {
  const perDay = 1440 / inputs.stepMin;
  const hours = inputs.stepMin / 60;
  return Array.from({ length: Math.floor(inputs.count / perDay) }, (_, day) => {
    const kwh = (series: Float64Array | undefined) => {
      let sum = 0;
      for (let i = day * perDay; i < (day + 1) * perDay; i++) sum += series?.[i] ?? 0;
      return sum * hours;
    };
    return {
      loadKwh: inputs.loadKw.reduce((sum, phase) => sum + kwh(phase), 0),
      arrayKwh: kwh(inputs.dcArrayKw) + kwh(inputs.acArrayKw),
      generatorKwh: kwh(columns.generatorKw),
    };
  });
}

function spanOf({ inputs }: AlternativeResult, fromDay: number, toDay: number): Span {
  const perDay = 1440 / inputs.stepMin;
  return { fromStep: fromDay * perDay, toStep: toDay * perDay };
}

/** Who supplied what is used, over the steps of a span, and sums of it. All powers are means of a step [kW]. */
export interface Supply {
  stepH: number;
  useKw: Float64Array;
  /** parts of what is supplied: with the generator on load it comes first, then the sun, the rest is the battery */
  sunKw: Float64Array;
  batteryKw: Float64Array;
  generatorKw: Float64Array;
  missingKw: Float64Array;
  socFrac: Float64Array;
  loadKwh: number;
  arrayUsedKwh: number;
  arrayOfferedKwh: number;
  generatorKwh: number;
  missingKwh: number;
  lowestSoc: number;
  runs: number;
  runH: number;
}

/** What a span of steps looks like to those who use the power. */
export function supplyOver(
  { inputs, columns, ledger }: AlternativeResult,
  { fromStep, toStep }: Span,
): Supply {
  const count = toStep - fromStep;
  const stepH = inputs.stepMin / 60;
  const series = () => new Float64Array(count);
  const [useKw, sunKw, batteryKw, generatorKw, missingKw] = [
    series(),
    series(),
    series(),
    series(),
    series(),
  ];
  const sums = { loadKwh: 0, arrayUsedKwh: 0, arrayOfferedKwh: 0, generatorKwh: 0, missingKwh: 0 };
  for (let i = 0; i < count; i++) {
    const step = fromStep + i;
    useKw[i] = inputs.loadKw.reduce((sum, phase) => sum + phase[step], 0);
    missingKw[i] = Math.min(useKw[i], columns.unservedKw[step]);
    const supplied = useKw[i] - missingKw[i];
    const array = columns.dcUsedKw[step] + columns.acUsedKw[step];
    generatorKw[i] = Math.min(supplied, columns.generatorKw[step]);
    sunKw[i] = Math.min(supplied - generatorKw[i], array);
    batteryKw[i] = supplied - generatorKw[i] - sunKw[i];
    sums.loadKwh += useKw[i] * stepH;
    sums.arrayUsedKwh += array * stepH;
    sums.arrayOfferedKwh += ((inputs.dcArrayKw?.[step] ?? 0) + (inputs.acArrayKw?.[step] ?? 0)) * stepH;
    sums.generatorKwh += columns.generatorKw[step] * stepH;
    sums.missingKwh += columns.unservedKw[step] * stepH;
  }
  const socFrac = columns.socFrac.subarray(fromStep, toStep);
  const [fromH, toH] = [fromStep * stepH, toStep * stepH];
  const within = ledger.runs.filter(({ startH, endH }) => endH > fromH && startH < toH);
  const runH = within.reduce((sum, run) => sum + Math.min(run.endH, toH) - Math.max(run.startH, fromH), 0);
  const lowestSoc = socFrac.reduce((least, soc) => Math.min(least, soc), 1);
  return {
    stepH,
    useKw,
    sunKw,
    batteryKw,
    generatorKw,
    missingKw,
    socFrac,
    ...sums,
    lowestSoc,
    runs: within.length,
    runH,
  };
}
