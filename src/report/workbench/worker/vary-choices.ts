import { valueName } from '../../change-words.ts';
import type { Field } from '../messages.ts';
import type { VaryChoice } from '../study-messages.ts';

/** Groups whose numbers are no choice of a designer: the place, the period, what is read. */
const NOT_VARIED = new Set([
  'site',
  'period',
  'load',
  'weather',
  'horizon',
  'stress',
  'uncertain',
  'limits',
  'log',
  'design',
  'motors',
  'breakers',
]);

/** Every number that the site file has or takes by default, with a range around it that one might try. */
export function varyChoices(fields: readonly Field[]): VaryChoice[] {
  return fields
    .filter(({ path }) => !NOT_VARIED.has(path))
    .flatMap(numbersIn)
    .map(({ path, text, least, most, unit }) => {
      const { name } = valueName(path);
      return {
        path,
        label: unit && unit !== 'money' ? `${name}, ${unit}` : name,
        values: rangeAround(Number(text), {
          least: least ?? Number.NEGATIVE_INFINITY,
          most: most ?? Number.POSITIVE_INFINITY,
          // what is counted has no unit, and there is at least one
          whole: unit === '' && Number.isInteger(Number(text)) && (least ?? 0) >= 1,
        }),
      };
    });
}

function numbersIn(field: Field): Field[] {
  if (field.absent) return [];
  if (field.kind === 'number' && field.text !== '' && Number.isFinite(Number(field.text))) return [field];
  return field.children.flatMap(numbersIn);
}

interface Allowed {
  least: number;
  most: number;
  /** whole numbers only */
  whole: boolean;
}

/** Half of it to one and a half times, in about six even steps within what is allowed: '15:45:5'. */
export function rangeAround(value: number, { least, most, whole }: Allowed): string {
  const size = Math.abs(value) || Math.min(1, most);
  const step = whole ? Math.max(1, evenStep(size / 6)) : evenStep(size / 6);
  const middle = Math.round(value / step);
  const from = Math.max(Math.ceil(least / step - 1e-9), middle - 3);
  const to = Math.min(Math.floor(most / step + 1e-9), middle + 3);
  return [from * step, to * step, step].map((one) => String(Number(one.toPrecision(12)))).join(':');
}

/** 1, 2, 5 or 10 times a power of ten, at least as large. */
function evenStep(size: number): number {
  const ten = 10 ** Math.floor(Math.log10(size));
  const times = [1, 2, 5].find((one) => one * ten >= size * (1 - 1e-9)) ?? 10;
  return Number((times * ten).toPrecision(12));
}
