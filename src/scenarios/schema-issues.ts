import type { z } from 'zod';
import type { Issue } from './issue.ts';
import { nearestWord } from './nearest.ts';
import { type Path, type SiteDocument, valueAt } from './site-document.ts';
import { knownKeys } from './site-keys.ts';

type SchemaIssue = z.core.$ZodIssue;

/** A problem that the schema found, at its place in the file and in our words; one for each unknown key. */
export function schemaIssues(issue: SchemaIssue, document: SiteDocument, value: unknown): Issue[] {
  const path = issue.path as Path;
  if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => unknownKey(key, path, document));
  const found = valueAt(value, path);
  const missing = found === undefined;
  return [
    {
      severity: 'error',
      code: missing ? 'missing' : issue.code,
      path: path.join('.') || 'file',
      got: missing ? 'nothing' : show(found),
      want: wanted(issue, found, path),
      at: document.placeOf(path),
    },
  ];
}

function unknownKey(key: string, path: Path, document: SiteDocument): Issue {
  const known = knownKeys(path);
  const near = nearestWord(key, known);
  return {
    severity: 'error',
    code: 'unknown-key',
    path: [...path, key].join('.'),
    got: `unknown key '${key}'`,
    want: near ? `'${near}'` : `one of ${known.join(', ')}`,
    at: document.placeOf([...path, key], true),
  };
}

/** What would be right, in words. */
function wanted(issue: SchemaIssue, found: unknown, path: Path): string {
  switch (issue.code) {
    case 'invalid_type':
      return wantedType(issue.expected, found, path);
    case 'too_big':
      return wantedAtMost(issue, found);
    case 'too_small':
      return `${issue.exact ? '' : 'at least '}${issue.minimum}${countWord(issue.origin)}`;
    case 'invalid_value':
      return issue.values.map((value) => JSON.stringify(value)).join(' or ');
    case 'invalid_union':
      return wantedOption(issue);
    default:
      return issue.message;
  }
}

function wantedType(expected: string, found: unknown, path: Path): string {
  if (expected === 'number' || expected === 'int') {
    const number = typeof found === 'string' ? Number.parseFloat(found) : Number.NaN;
    if (!Number.isNaN(number)) return `a number without its unit: ${number}`;
    return expected === 'int' ? 'a whole number' : 'a number';
  }
  if (expected === 'string') return 'a text';
  if (expected === 'boolean') return 'true or false';
  if (expected === 'array') return 'a list';
  const keys = knownKeys(path);
  return keys.length > 0 ? `a group of ${keys.join(', ')}` : 'a group of names with their values';
}

function wantedAtMost(issue: Extract<SchemaIssue, { code: 'too_big' }>, found: unknown): string {
  // 1.2 is a slip above 1, not 1.2 %
  const isShare = issue.maximum === 1 && typeof found === 'number' && found >= 2 && found <= 100;
  if (isShare) return `a share from 0 to 1: ${found / 100} for ${found} %`;
  return `${issue.exact ? '' : 'at most '}${issue.maximum}${countWord(issue.origin)}`;
}

function countWord(origin: string): string {
  return origin === 'array' ? ' items' : '';
}

/** Values that would do where one of several kinds is wanted: 1 or 2 or 3 or "all". */
function wantedOption(issue: Extract<SchemaIssue, { code: 'invalid_union' }>): string {
  const values = issue.errors
    .flat()
    .flatMap((one) => (one.code === 'invalid_value' ? one.values.map((value) => JSON.stringify(value)) : []));
  if (values.length > 0) return [...new Set(values)].join(' or ');
  const { options } = issue as { options?: unknown[] };
  return (options ?? []).map((value) => JSON.stringify(value)).join(' or ') || 'another kind of value';
}

function show(value: unknown): string {
  if (typeof value === 'string') return `'${shortened(value)}'`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  return typeof value === 'object' && value !== null ? 'a group' : String(value);
}

function shortened(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
