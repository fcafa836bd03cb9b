import type { SiteChanges } from '../scenarios/apply-changes.ts';

/** Changes as an alternative of a site file, to be copied into it. */
export function changesYaml(name: string, changes: SiteChanges): string {
  const lines = Object.entries(changes).map(([path, value]) => `      ${path}: ${inYaml(value)}`);
  return [
    `  - name: ${JSON.stringify(name)}`,
    ...(lines.length > 0 ? ['    changes:', ...lines] : ['    changes: {}']),
  ].join('\n');
}

/** JSON is YAML; numbers without the trace of rounding that computing left. */
function inYaml(value: unknown): string {
  return JSON.stringify(value, (_, part) => (typeof part === 'number' ? Number(part.toPrecision(10)) : part));
}
