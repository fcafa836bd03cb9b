import { stringify } from 'yaml';
import type { SchemaFacts } from './schema-facts.ts';

/** A value as it is typed: plain, or as YAML in one line. */
export function asText(value: unknown): string {
  if (value === undefined || value === null) return '';
  if (typeof value !== 'object') return String(value);
  return stringify(value, { collectionStyle: 'flow', lineWidth: 0 }).trim();
}

/** A default in words: "default 30", "default: not used". */
export function defaultText(value: unknown, { optional, nullable, core }: SchemaFacts): string {
  if (core.shape) return '';
  if (value === null || (value === undefined && (optional || nullable))) return 'may be left out';
  if (value === undefined) return '';
  const text = asText(value);
  return text === '' || text === '[]' ? 'default: none' : `default ${text}`;
}
