import { type Path, valueAt } from '../../../scenarios/site-document.ts';
import { siteSchema } from '../../../scenarios/site-schema.ts';
import type { Field } from '../messages.ts';
import { asText, defaultText } from './field-text.ts';
import { factsOf, layersOf, type Schema, seedOf } from './schema-facts.ts';

/** What the fields are filled from. */
export interface FieldValues {
  /** as written, with the changes of the alternative in hand */
  raw: unknown;
  /** dotted paths that the alternative changes */
  changed: ReadonlySet<string>;
}

/** Every value of the site file as a field, from the schema itself; alternatives are edited elsewhere. */
export function fieldTree(values: FieldValues): Field[] {
  const shape = (siteSchema as unknown as Schema).shape ?? {};
  return Object.entries(shape)
    .filter(([key]) => key !== 'alternatives')
    .map(([key, schema]) => fieldOf(schema, [key], values, key));
}

function fieldOf(schema: Schema, steps: Path, values: FieldValues, name: string): Field {
  const raw = valueAt(values.raw, steps);
  const facts = factsOf(schema);
  const path = pathOf(steps, values.raw);
  const inner = facts.core;
  const base: Field = {
    path,
    steps: [...steps],
    title: facts.title || titleOf(name),
    unit: facts.unit,
    help: facts.help,
    kind: 'code',
    text: '',
    fallback: defaultText(facts.fallback, facts),
    given: raw !== undefined,
    changed: values.changed.has(path),
    removable: raw !== undefined && (facts.optional || facts.nullable || facts.fallback !== undefined),
    absent: false,
    children: [],
  };
  const shape = inner.shape ?? optionFor(inner, raw)?.shape;
  if (shape) return groupOf(base, schema, inner, shape, raw, values);
  if (inner.def?.type === 'array' && elementShape(inner)) return listOf(base, inner, raw, values);
  const shown = raw === undefined ? facts.fallback : raw;
  return { ...base, ...leafOf(inner, shown, facts.nullable), text: asText(shown) };
}

function groupOf(
  base: Field,
  schema: Schema,
  inner: Schema,
  shape: Record<string, Schema>,
  raw: unknown,
  values: FieldValues,
): Field {
  const { nullable, optional } = factsOf(schema);
  const absent = (raw === undefined || raw === null) && (nullable || optional);
  if (absent) return { ...base, kind: 'group', absent: true, removable: false, seed: seedOf(inner) };
  const children = Object.entries(shape).map(([key, child]) =>
    fieldOf(child, [...base.steps, key], values, key),
  );
  return { ...base, kind: 'group', removable: (nullable || optional) && raw !== null, children };
}

function listOf(base: Field, inner: Schema, raw: unknown, values: FieldValues): Field {
  const element = inner.element as Schema;
  const items = Array.isArray(raw) ? raw : [];
  const children = items.map((item, i) => {
    const name =
      (item as { name?: unknown; file?: unknown } | null)?.name ?? (item as { file?: unknown })?.file;
    const child = fieldOf(element, [...base.steps, i], values, `${i + 1}`);
    const title = name === undefined ? `${base.title} ${i + 1}` : String(name);
    return { ...child, title, removable: true };
  });
  return { ...base, kind: 'list', removable: false, seed: seedOf(element), children };
}

function leafOf(inner: Schema, shown: unknown, nullable: boolean): Partial<Field> {
  const type = inner.def?.type;
  if (type === 'number') return { kind: 'number', least: inner.minValue, most: inner.maxValue };
  if (type === 'boolean') return { kind: 'flag' };
  if (type === 'string') return { kind: 'text' };
  const options = choices(inner);
  if (options.length > 0 && (typeof shown !== 'object' || shown === null))
    return { kind: 'choice', options: nullable ? ['', ...options] : options };
  return { kind: 'code' };
}

function choices(schema: Schema): (string | number)[] {
  const { entries, values } = schema.def ?? {};
  if (entries) return Object.values(entries);
  if (values) return [...values];
  return (schema.options ?? []).flatMap(choices);
}

/** Of several kinds of group the one that the value is. */
function optionFor(schema: Schema, raw: unknown): Schema | null {
  const groups = (schema.options ?? []).filter((option) => option.shape);
  if (groups.length === 0) return null;
  const fits = (option: Schema) =>
    Object.entries(option.shape ?? {}).some(
      ([key, child]) => child.def?.values && child.def.values[0] === valueAt(raw, [key]),
    );
  return groups.find(fits) ?? groups[0];
}

function elementShape(schema: Schema): boolean {
  const element = schema.element && layersOf(schema.element).at(-1);
  return element?.shape !== undefined;
}

/** Dotted, items of lists by their name where they have one: as an alternative's changes name them. */
function pathOf(steps: Path, raw: unknown): string {
  return steps
    .map((step, i) => {
      if (typeof step === 'string') return step;
      const name = valueAt(raw, [...steps.slice(0, i + 1), 'name']);
      return typeof name === 'string' && !name.includes('.') ? name : String(step);
    })
    .join('.');
}

/** 'lowLoad' -> 'low load', for the few groups without a title. */
function titleOf(key: string): string {
  return key.replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
}
