import type { CheckedRun } from './check.ts';

/** Highest and lowest value of a series. */
export function rangeOf(values: Float64Array): { low: number; high: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    if (values[i] < low) low = values[i];
    if (values[i] > high) high = values[i];
  }
  return { low, high };
}

export function meanOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum / values.length;
}

/** What is worked out once for a series, because most alternatives share their loads and several checks ask. */
export function keptFor<Of extends object>(work: (of: Of) => number): (of: Of) => number {
  const kept = new WeakMap<Of, number>();
  return (of) => {
    const known = kept.get(of);
    if (known !== undefined) return known;
    const found = work(of);
    kept.set(of, found);
    return found;
  };
}

/** Mean of a load [kW]. */
export const meanLoadKw = keptFor(meanOf);

/** A load that is higher than this for 1 % of the time is no rare peak any more. */
export const highLoadKw = keptFor((values: Float64Array) => percentile(values, 0.99));

/** The value that a share of all values does not exceed (nearest rank). @param share above 0, to 1 */
export function percentile(values: Float64Array, share: number): number {
  return nthLowest(values, Math.max(0, Math.ceil(share * values.length - 1e-9) - 1));
}

/** Hoare's selection: as sorting, but only the part that holds the wanted place. @param n from 0 */
function nthLowest(values: Float64Array, n: number): number {
  const order = values.slice();
  let [from, to] = [0, order.length - 1];
  while (from < to) {
    const pivot = order[n];
    let [i, j] = [from, to];
    while (i <= j) {
      while (order[i] < pivot) i++;
      while (order[j] > pivot) j--;
      if (i <= j) {
        const held = order[i];
        order[i++] = order[j];
        order[j--] = held;
      }
    }
    if (j < n) from = i;
    if (n < i) to = j;
  }
  return order[n];
}

/** Length of the run [h]. */
export function hoursOf({ ledger }: CheckedRun): number {
  return (ledger.count * ledger.stepMin) / 60;
}

/** What a figure of the run is in a year of 8760 h. */
export function perYear(run: CheckedRun, value: number): number {
  return (value * 8760) / hoursOf(run);
}

/** Said where a year is made out of a shorter run; empty where the run is about a year or longer. */
export function scaledNote(run: CheckedRun): string {
  const days = hoursOf(run) / 24;
  return days < 360 ? `Scaled up from ${Math.round(days)} days.` : '';
}

/** Apparent rating of the inverters of one phase [kVA]. */
export function ratedKva({ plant, site }: CheckedRun): number {
  return plant.inverter.ratedKw / site.inverter.powerFactor;
}

/** What inverters carry for some seconds, over their rating: stated for that, or at least their short overload. */
export function surgeTimesOf({ inverter }: CheckedRun['site']): number | undefined {
  return inverter.surgeTimes ?? inverter.overload?.to;
}

/** Draw of the inverters of one phase from the DC bus for an AC power, without idle [kW]. */
export function dcOf({ plant }: CheckedRun, acKw: number): number {
  const { lossLinear, lossQuadraticPerKw } = plant.inverter;
  return acKw * (1 + lossLinear + lossQuadraticPerKw * acKw);
}

/** Idle draw of the inverters and standby draw of the battery, all phases [kW]. */
export function alwaysKw({ inverter, phases, battery }: CheckedRun['plant']): number {
  return inverter.idleKw * phases + (battery?.standbyKw ?? 0);
}

/** Two sentences with a space between, where there are two. */
export function sentences(...parts: string[]): string {
  return parts.filter((part) => part !== '').join(' ');
}

/** A number for a note: three figures are enough, and a round number needs no zeros behind its point. */
export function shown(value: number): string {
  const size = Math.abs(value);
  const rounded = Number(value.toFixed(size >= 99.95 ? 0 : size >= 9.995 ? 1 : 2));
  return String(rounded).replace('-', '−');
}

/** "no starts", "1 start", "2 starts". */
export function counted(count: number, one: string): string {
  return `${count === 0 ? 'no' : count} ${one}${count === 1 ? '' : 's'}`;
}
