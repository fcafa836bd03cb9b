import { type Document, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import type { z } from 'zod';
import type { Issue, Place } from './issue.ts';
import { nearestWord } from './nearest.ts';
import { checkSite } from './site-checks.ts';
import { type Site, siteSchema } from './site-schema.ts';

export type Path = readonly (string | number)[];

/** A site file that has been parsed: its plain value, and where each part of it stands. */
export interface SiteDocument {
  file: string;
  value: unknown;
  placeOf(path: Path, ofKey?: boolean): Place;
}

/**
 * Parses a site file (YAML, of which JSON is a part).
 * @returns the document, or every syntax problem with line and column
 */
export function parseSite(text: string, file: string): { document: SiteDocument | null; issues: Issue[] } {
  const counter = new LineCounter();
  const tree = parseDocument(text, { lineCounter: counter, prettyErrors: false });
  const issues = tree.errors.map((error): Issue => {
    const { line, col } = counter.linePos(error.pos[0]);
    const at = { file, line, column: col };
    return { severity: 'error', code: 'syntax', path: 'file', got: error.message, want: 'YAML or JSON', at };
  });
  if (issues.length > 0) return { document: null, issues };
  const placeOf = (path: Path, ofKey = false) => findPlace(tree, counter, file, path, ofKey);
  return { document: { file, value: tree.toJS(), placeOf }, issues };
}

/** The place of a value (or its key); of its nearest parent where the path does not exist. */
function findPlace(tree: Document, counter: LineCounter, file: string, path: Path, ofKey: boolean): Place {
  let node = tree.contents as Node | null;
  let offset = node?.range?.[0] ?? 0;
  for (const [depth, step] of path.entries()) {
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step));
      if (!pair) break;
      const key = pair.key as Node;
      const value = pair.value as Node | null;
      const last = depth === path.length - 1;
      offset = (last && ofKey ? key.range?.[0] : (value?.range?.[0] ?? key.range?.[0])) ?? offset;
      // a map or list below its key is pointed at by the key
      if (last && !ofKey && (isMap(value) || isSeq(value))) offset = key.range?.[0] ?? offset;
      node = value;
    } else if (isSeq(node)) {
      const item = node.items[Number(step)] as Node | undefined;
      if (!item) break;
      node = item;
      offset = item.range?.[0] ?? offset;
    } else break;
  }
  const { line, col } = counter.linePos(offset);
  return { file, line, column: col };
}

/**
 * Checks a site's value against the schema and against sense.
 * @returns the site with defaults filled in, or every problem at its place
 */
export function readSite(
  document: SiteDocument,
  value: unknown = document.value,
): { site: Site | null; issues: Issue[] } {
  const parsed = siteSchema.safeParse(value);
  if (parsed.success) {
    const issues = checkSite(parsed.data, document);
    const failed = issues.some((issue) => issue.severity === 'error');
    return { site: failed ? null : parsed.data, issues };
  }
  return { site: null, issues: parsed.error.issues.flatMap((issue) => schemaIssues(issue, document, value)) };
}

function schemaIssues(issue: z.core.$ZodIssue, document: SiteDocument, value: unknown): Issue[] {
  const path = issue.path as Path;
  const base = { severity: 'error' as const, path: path.join('.') || 'file' };
  const found = valueAt(value, path);
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => {
      const near = nearestWord(key, knownKeys(path));
      const want = near ? `'${near}'` : `one of ${knownKeys(path).join(', ')}`;
      const at = document.placeOf([...path, key], true);
      return {
        ...base,
        code: 'unknown-key',
        path: [...path, key].join('.'),
        got: `unknown key '${key}'`,
        want,
        at,
      };
    });
  const missing = found === undefined;
  const at = document.placeOf(path);
  return [
    {
      ...base,
      code: missing ? 'missing' : issue.code,
      got: missing ? 'nothing' : show(found),
      want: wanted(issue, found),
      at,
    },
  ];
}

/** What would be right, in words. */
function wanted(issue: z.core.$ZodIssue, found: unknown): string {
  if (issue.code === 'invalid_type' && issue.expected === 'number' && typeof found === 'string') {
    const number = Number.parseFloat(found);
    return Number.isNaN(number) ? 'a number' : `a number without its unit: ${number}`;
  }
  if (issue.code === 'too_big') {
    const isShare = issue.maximum === 1 && typeof found === 'number' && found > 1 && found <= 100;
    return isShare ? `a share from 0 to 1: ${found / 100} for ${found} %` : `at most ${issue.maximum}`;
  }
  if (issue.code === 'too_small') return `at least ${issue.minimum}`;
  if (issue.code === 'invalid_value') return issue.values.map((value) => JSON.stringify(value)).join(' or ');
  if (issue.code === 'invalid_type') return issue.expected === 'array' ? 'a list' : `a ${issue.expected}`;
  if (issue.code === 'invalid_format') return issue.message;
  return issue.message;
}

function show(value: unknown): string {
  const text = typeof value === 'string' ? `'${value}'` : JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

export function valueAt(value: unknown, path: Path): unknown {
  let at = value;
  for (const step of path) at = (at as Record<string | number, unknown> | null | undefined)?.[step];
  return at;
}

/** Keys that the schema knows at a path. */
export function knownKeys(path: Path): string[] {
  let schema: unknown = siteSchema;
  for (const step of path) schema = inner(schema, step);
  const shape = (unwrap(schema) as { shape?: Record<string, unknown>; options?: unknown[] } | null) ?? {};
  if (shape.shape) return Object.keys(shape.shape);
  const options = (shape.options ?? []).map(
    (option) => unwrap(option) as { shape?: Record<string, unknown> },
  );
  return [...new Set(options.flatMap((option) => Object.keys(option.shape ?? {})))];
}

/** The schema inside defaults, optionals and nullables. */
function unwrap(schema: unknown): unknown {
  let at = schema as { def?: { innerType?: unknown } };
  while (at?.def?.innerType) at = at.def.innerType as typeof at;
  return at;
}

function inner(schema: unknown, step: string | number): unknown {
  const at = unwrap(schema) as { shape?: Record<string, unknown>; element?: unknown; options?: unknown[] };
  if (at?.element) return at.element;
  if (at?.shape) return at.shape[step];
  for (const option of at?.options ?? []) {
    const found = inner(option, step);
    if (found) return found;
  }
  return undefined;
}
