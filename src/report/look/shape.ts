import { type Calendar, makeCalendar, makeClock } from '../../scenarios/clock.ts';
import type { Series } from '../../scenarios/series.ts';

/** A series on a clock: what the drawings of one file share. */
export interface SeriesView {
  series: Series;
  calendar: Calendar;
  /** 'kW' or 'W/m²' or '°C' */
  unit: string;
  firstDay: number;
  days: number;
}

/** A series by the days of a clock; times of day are those of the file's own zone. */
export function viewSeries(series: Series, zone: string): SeriesView {
  const { startS, stepMin, count } = series.axis;
  const clock =
    makeClock(zone, startS, startS + count * stepMin * 60) ?? makeClock('UTC', startS, startS + 1);
  if (clock === null) throw new Error('no clock');
  const calendar = makeCalendar(clock, startS, stepMin, count);
  const firstDay = calendar.dayNumber[0];
  const days = calendar.dayNumber[count - 1] - firstDay + 1;
  return { series, calendar, unit: unitOfQuantity(series.quantity), firstDay, days };
}

function unitOfQuantity(quantity: Series['quantity']): string {
  if (quantity.endsWith('WPerM2')) return 'W/m²';
  if (quantity === 'airC') return '°C';
  if (quantity === 'precipMmPerH') return 'mm/h';
  if (quantity === 'snowCmPerH') return 'cm/h';
  return quantity === 'windMPerS' ? 'm/s' : 'kW';
}

/** Mean, and the values below which a tenth and nine tenths of the days lie, of one hour in one month. */
export interface TypicalHour {
  month: number;
  hour: number;
  mean: number;
  low: number;
  high: number;
}

/** The typical day of each month, with its spread over the days. */
export function typicalDays({ series, calendar }: SeriesView): TypicalHour[] {
  const byCell = new Map<number, Map<number, { sum: number; steps: number }>>();
  for (let i = 0; i < series.values.length; i++) {
    const cell = (calendar.monthIndex[i] % 12) * 24 + Math.floor(calendar.minuteOfDay[i] / 60);
    const days = byCell.get(cell) ?? new Map<number, { sum: number; steps: number }>();
    const day = days.get(calendar.dayNumber[i]) ?? { sum: 0, steps: 0 };
    day.sum += series.values[i];
    day.steps++;
    days.set(calendar.dayNumber[i], day);
    byCell.set(cell, days);
  }
  return [...byCell]
    .sort((a, b) => a[0] - b[0])
    .map(([cell, days]) => {
      const means = [...days.values()].map(({ sum, steps }) => sum / steps).sort((a, b) => a - b);
      const at = (share: number) => means[Math.round(share * (means.length - 1))];
      const mean = means.reduce((sum, value) => sum + value, 0) / means.length;
      return { month: Math.floor(cell / 24), hour: cell % 24, mean, low: at(0.1), high: at(0.9) };
    });
}

/** Values in falling order, thinned to some two hundred points: share of the time and the value exceeded in it. */
export function durationCurve(values: Float64Array): { share: number; value: number }[] {
  const sorted = Float64Array.from(values).sort().reverse();
  const points = 200;
  return Array.from({ length: points + 1 }, (_, i) => {
    const at = Math.min(sorted.length - 1, Math.round((i / points) * (sorted.length - 1)));
    return { share: sorted.length > 1 ? at / (sorted.length - 1) : 0, value: sorted[at] };
  });
}

/** Energy of each day [kWh, or kWh/m²]; days in part at the ends count with what they have. */
export function dailyEnergy(view: SeriesView): Float64Array {
  const { series, calendar, firstDay, days } = view;
  const perStep = series.axis.stepMin / 60 / (view.unit === 'W/m²' ? 1000 : 1);
  const sums = new Float64Array(days);
  for (let i = 0; i < series.values.length; i++)
    sums[calendar.dayNumber[i] - firstDay] += series.values[i] * perStep;
  return sums;
}

/** The longest run of days each below a share of the mean day. */
export function dullestSpell(daily: Float64Array, share: number): { fromDay: number; days: number } {
  const limit = (share * daily.reduce((sum, value) => sum + value, 0)) / daily.length;
  let best = { fromDay: 0, days: 0 };
  let from = 0;
  for (let day = 0; day <= daily.length; day++) {
    if (day < daily.length && daily[day] < limit) continue;
    if (day - from > best.days) best = { fromDay: from, days: day - from };
    from = day + 1;
  }
  return best;
}

/** The step with the highest value. */
export function peakStep(values: Float64Array): number {
  let best = 0;
  for (let i = 1; i < values.length; i++) if (values[i] > values[best]) best = i;
  return best;
}

/** '14 March 2025' of a day counted from 1970. */
export function dayText(dayNumber: number): string {
  const date = new Date(dayNumber * 86_400_000);
  const month = date.toLocaleString('en', { month: 'long', timeZone: 'UTC' });
  return `${date.getUTCDate()} ${month} ${date.getUTCFullYear()}`;
}
