/** The parts of a schema that are looked at here. */
export interface Schema {
  def?: {
    type?: string;
    innerType?: Schema;
    defaultValue?: unknown;
    entries?: Record<string, string | number>;
    values?: (string | number)[];
    in?: Schema;
  };
  shape?: Record<string, Schema>;
  element?: Schema;
  options?: Schema[];
  minValue?: number;
  maxValue?: number;
  meta?: () => { title?: string; unit?: string; description?: string } | undefined;
}

export interface SchemaFacts {
  title: string;
  unit: string;
  help: string;
  optional: boolean;
  nullable: boolean;
  /** default; undefined where a value is needed or none stands */
  fallback: unknown;
  /** what is inside defaults, optionals and nullables */
  core: Schema;
}

/** A schema and what it wraps, from the outside. */
export function layersOf(schema: Schema): Schema[] {
  const inner = schema.def?.innerType;
  return inner ? [schema, ...layersOf(inner)] : [schema];
}

/** What is said of a value, in whichever layer it is said. */
export function factsOf(schema: Schema): SchemaFacts {
  const layers = layersOf(schema);
  const said = (key: 'title' | 'unit' | 'description') =>
    layers.map((layer) => layer.meta?.()?.[key]).find((text) => text) ?? '';
  const has = (type: string) => layers.some((layer) => layer.def?.type === type);
  const withDefault = layers.find((layer) => layer.def?.type === 'default' || layer.def?.type === 'prefault');
  return {
    title: said('title'),
    unit: said('unit'),
    help: said('description'),
    optional: has('optional'),
    nullable: has('nullable'),
    fallback: withDefault?.def?.defaultValue,
    core: layers[layers.length - 1],
  };
}

/**
 * What is put in for a new group or item: what it must have, as low as it may be, so that each value that is still
 * to be stated is there to be seen.
 */
export function seedOf(schema: Schema): unknown {
  const { core, fallback, optional, nullable } = factsOf(schema);
  if (fallback !== undefined) return fallback;
  if (optional) return undefined;
  if (nullable) return null;
  const { type, values, entries } = core.def ?? {};
  if (core.shape) {
    const pairs = Object.entries(core.shape)
      .filter(([, child]) => isNeeded(child))
      .map(([key, child]): [string, unknown] => [key, seedOf(child)]);
    return Object.fromEntries(pairs);
  }
  if (type === 'number')
    return core.minValue !== undefined && Number.isFinite(core.minValue) ? core.minValue : 0;
  if (type === 'boolean') return false;
  if (values) return values[0];
  if (entries) return Object.values(entries)[0];
  if (type === 'array') return [];
  if (type === 'record') return {};
  if (core.options) return seedOf(core.options[0]);
  return 'new';
}

function isNeeded(schema: Schema): boolean {
  const { fallback, optional, nullable } = factsOf(schema);
  return fallback === undefined && !optional && !nullable;
}
