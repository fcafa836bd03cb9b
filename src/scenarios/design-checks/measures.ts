import type { CheckedRun } from './check.ts';

/** Highest and lowest value of a series. */
export function rangeOf(values: Float64Array): { low: number; high: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { low, high };
}

export function meanOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}

/** Loads are the same for most alternatives, and sorting a year of minutes takes long. */
const sorted = new WeakMap<Float64Array, Float64Array>();

/** The value that a share of all values does not exceed (nearest rank). @param share above 0, to 1 */
export function percentile(values: Float64Array, share: number): number {
  let order = sorted.get(values);
  if (!order) {
    order = Float64Array.from(values).sort();
    sorted.set(values, order);
  }
  return order[Math.max(0, Math.ceil(share * order.length - 1e-9) - 1)];
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

/** Draw of the inverters of one phase from the DC bus for an AC power, without idle [kW]. */
export function dcOf({ plant }: CheckedRun, acKw: number): number {
  const { lossLinear, lossQuadraticPerKw } = plant.inverter;
  return acKw * (1 + lossLinear + lossQuadraticPerKw * acKw);
}

/** Idle draw of the inverters and standby draw of the battery, all phases [kW]. */
export function alwaysKw({ plant }: CheckedRun): number {
  return plant.inverter.idleKw * plant.phases + (plant.battery?.standbyKw ?? 0);
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
