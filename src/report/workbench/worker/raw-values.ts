import { plainCopy, valueAt } from '../../../scenarios/site-document.ts';
import type { FieldValues } from './field-tree.ts';
import type { ReadSite } from './open-site.ts';

/** The values of a site file as they are written, right or wrong, with the changes of one alternative made. */
export function rawValues(read: ReadSite | null, index: number): FieldValues {
  const written = read?.document?.value ?? {};
  const changes = index === 0 ? undefined : valueAt(written, ['alternatives', index - 1, 'changes']);
  const raw = plainCopy(written);
  const changed = new Set<string>();
  if (typeof changes !== 'object' || changes === null) return { raw, changed };
  for (const [path, to] of Object.entries(changes)) {
    changed.add(path);
    putByName(raw, path.split('.'), plainCopy(to));
  }
  return { raw, changed };
}

/** Puts a value at a path in which items of lists are named; a path that leads nowhere is left out. */
function putByName(value: unknown, names: readonly string[], to: unknown): void {
  let at = value;
  for (const [depth, name] of names.entries()) {
    if (typeof at !== 'object' || at === null) return;
    const group = at as Record<string | number, unknown>;
    const step = Array.isArray(at) ? placeIn(at, name) : name;
    if (depth === names.length - 1) {
      group[step] = to;
      return;
    }
    if (!Array.isArray(at)) group[step] ??= {};
    at = group[step];
  }
}

function placeIn(list: readonly unknown[], name: string): number {
  const byName = list.findIndex((item) => (item as { name?: unknown } | null)?.name === name);
  return byName >= 0 ? byName : Number(name);
}
