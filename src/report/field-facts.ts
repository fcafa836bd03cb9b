import { siteSchema } from '../scenarios/site-schema.ts';

/** What the site file's schema says of a value: its title and its unit ('' where it has none). */
export interface FieldFacts {
  title: string;
  unit: string;
}

/** The parts of a schema that are looked at here. */
interface Schema {
  def?: { innerType?: Schema; element?: Schema };
  shape?: Record<string, Schema>;
  options?: Schema[];
  meta?: () => { title?: string; unit?: string } | undefined;
}

/**
 * Title and unit of a value of the site file.
 * @param path dotted, list items by place or name: 'cabinet.heater.onC', 'arrays.roof.kWp'
 * @returns those of the nearest part with a title; null for a path that the schema does not know
 */
export function fieldFacts(path: string): FieldFacts | null {
  let schemas = [siteSchema as unknown as Schema];
  let found: FieldFacts | null = null;
  for (const step of path.split('.')) {
    schemas = schemas.flatMap((schema) => inner(schema, step));
    if (schemas.length === 0) return null;
    // an item of a list is called by the list's title, where it has none of its own
    found = titled(schemas.flatMap(layers)) ?? found;
  }
  return found;
}

function titled(schemas: readonly Schema[]): FieldFacts | null {
  for (const schema of schemas) {
    const facts = schema.meta?.();
    if (facts?.title) return { title: facts.title, unit: facts.unit ?? '' };
  }
  return null;
}

/** A schema and what it wraps: an optional, a default, a nullable. */
function layers(schema: Schema): Schema[] {
  const wrapped = schema.def?.innerType;
  return [schema, ...(wrapped ? layers(wrapped) : []), ...(schema.options ?? []).flatMap(layers)];
}

function inner(schema: Schema, step: string): Schema[] {
  return layers(schema).flatMap((layer) => {
    const child = layer.shape?.[step] ?? layer.def?.element;
    return child ? [child] : [];
  });
}
