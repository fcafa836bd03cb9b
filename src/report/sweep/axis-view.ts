import { ALTERNATIVE, type Axis } from '../../scenarios/many/axes.ts';
import { valueName, valueText } from '../change-words.ts';
import { listed, quoted } from '../words.ts';

/** An axis as it is written and drawn. */
export interface AxisView {
  axis: Axis;
  /** "generator rating" */
  name: string;
  /** beside the axis of a drawing: "generator rating, kW" */
  title: string;
  /** one for each value, without its unit where the title has it */
  labels: string[];
  /** true where all values are numbers, rising or falling */
  isNumber: boolean;
  /** where the site as filed lies among the values: 1.5 is midway between the second and third; null: outside */
  filedAt: number | null;
}

export function axisView(axis: Axis): AxisView {
  const { path, values, filed } = axis;
  const isChoice = path === ALTERNATIVE;
  const { name, unit } = isChoice ? { name: ALTERNATIVE, unit: '' } : valueName(path);
  const isNumber = values.every((value) => typeof value === 'number') && isSorted(values as number[]);
  return {
    axis,
    name,
    title: isNumber && unit ? `${name}, ${unit}` : name,
    labels: values.map((value) => {
      const text = isChoice ? String(value) : valueText(path, value);
      return isNumber && unit ? text.slice(0, text.length - unit.length).trim() : text;
    }),
    isNumber,
    filedAt: placeOf(filed, values, isNumber),
  };
}

/** "generator rating 20 kW": a value of an axis in a sentence. */
export function valueWordsOf({ axis, name }: AxisView, value: unknown): string {
  return axis.path === ALTERNATIVE ? quoted(String(value)) : `${name} ${valueText(axis.path, value)}`;
}

/** A cell in a sentence: "generator rating 20 kW and generator started at 30 %". */
export function cellWords(views: readonly AxisView[], at: readonly number[]): string {
  return listed(views.map((view, i) => valueWordsOf(view, view.axis.values[at[i]])));
}

/** "generator rating 10 to 30 kW": where some of an axis' values lie. */
export function spanWords(view: AxisView, places: readonly number[]): string {
  const { axis, name, isNumber } = view;
  const used = [...new Set(places)].sort((a, b) => a - b);
  if (used.length === 1 || !isNumber) {
    const texts = used.map((place) =>
      axis.path === ALTERNATIVE
        ? quoted(String(axis.values[place]))
        : valueText(axis.path, axis.values[place]),
    );
    return axis.path === ALTERNATIVE ? listed(texts) : `${name} ${listed(texts)}`;
  }
  const from = view.labels[used[0]];
  const to = valueText(axis.path, axis.values[used[used.length - 1]]);
  return `${name} ${from} to ${to}`;
}

function isSorted(values: readonly number[]): boolean {
  const rises = values.every((value, i) => i === 0 || value > values[i - 1]);
  return rises || values.every((value, i) => i === 0 || value < values[i - 1]);
}

/** Where a value lies among others: between two of them by proportion, if they are numbers. */
function placeOf(filed: unknown, values: readonly unknown[], isNumber: boolean): number | null {
  const text = JSON.stringify(filed);
  const exact = values.findIndex((value) => JSON.stringify(value) === text);
  if (exact >= 0) return exact;
  if (!isNumber || typeof filed !== 'number') return null;
  const numbers = values as number[];
  for (let i = 1; i < numbers.length; i++) {
    const share = (filed - numbers[i - 1]) / (numbers[i] - numbers[i - 1]);
    if (share > 0 && share < 1) return i - 1 + share;
  }
  return null;
}
