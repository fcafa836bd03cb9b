import type { Path } from './site-document.ts';
import { siteSchema } from './site-schema.ts';

/** The parts of a schema that are looked at here. */
interface Schema {
  def?: { innerType?: Schema };
  shape?: Record<string, Schema>;
  element?: Schema;
  options?: Schema[];
}

/** Keys that the schema knows at a path of the site file; none where it is a list, a value, or keys are free. */
export function knownKeys(path: Path): string[] {
  let at: Schema | undefined = siteSchema as unknown as Schema;
  for (const step of path) at = at && inner(at, step);
  const found = at && unwrap(at);
  if (!found) return [];
  if (found.shape) return Object.keys(found.shape);
  return [...new Set((found.options ?? []).flatMap((option) => Object.keys(unwrap(option).shape ?? {})))];
}

/** The schema inside defaults, optionals and nullables. */
function unwrap(schema: Schema): Schema {
  let at = schema;
  while (at.def?.innerType) at = at.def.innerType;
  return at;
}

function inner(schema: Schema, step: string | number): Schema | undefined {
  const at = unwrap(schema);
  if (at.element) return at.element;
  if (at.shape) return Object.hasOwn(at.shape, step) ? at.shape[step] : undefined;
  for (const option of at.options ?? []) {
    const found = inner(option, step);
    if (found) return found;
  }
  return undefined;
}
