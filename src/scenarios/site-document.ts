import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  visit,
} from 'yaml';
import type { Issue, Place } from './issue.ts';

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
  const tree = parseDocument(text, {
    lineCounter: counter,
    prettyErrors: false,
    resolveKnownTags: false,
    logLevel: 'silent',
  });
  const placeAt = (offset: number): Place => {
    const { line, col } = counter.linePos(offset);
    return { file, line, column: col };
  };
  const syntax = (offset: number, got: string, want = 'YAML or JSON'): Issue => {
    return { severity: 'error', code: 'syntax', path: 'file', got, want, at: placeAt(offset) };
  };
  const issues = [...tree.errors, ...tree.warnings].map(({ pos, message }) => syntax(pos[0], message));
  issues.push(...keysThatAreNotWords(tree).map((at) => syntax(at, 'a list or group as a key', 'a word')));
  if (issues.length > 0) return { document: null, issues };
  const value = plainValue(tree);
  if (value === UNUSABLE)
    return { document: null, issues: [syntax(firstAlias(tree), 'an alias that leads nowhere', 'an anchor')] };
  const placeOf = (path: Path, ofKey = false) => placeAt(offsetOf(tree, path, ofKey));
  return { document: { file, value, placeOf }, issues };
}

const UNUSABLE = Symbol('a document without a plain value');

/** The plain value; UNUSABLE where aliases have no anchor, go round in circles or multiply without end. */
function plainValue(tree: Document): unknown {
  try {
    return plainCopy(tree.toJS({ maxAliasCount: 100 }));
  } catch (error) {
    if (error instanceof ReferenceError || error instanceof RangeError) return UNUSABLE;
    throw error;
  }
}

/** Nothing in a site file is nested deeper than this. */
const DEEPEST = 40;

/** A copy in which no part is shared, so that changing one does not change another. */
export function plainCopy(value: unknown, depth = 0): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (depth > DEEPEST) throw new RangeError('nested without end');
  if (Array.isArray(value)) return value.map((item) => plainCopy(item, depth + 1));
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, plainCopy(item, depth + 1)]));
}

/** The value at a path, undefined where there is none. */
export function valueAt(value: unknown, path: Path): unknown {
  let at = value;
  for (const step of path) at = (at as Record<string | number, unknown> | null | undefined)?.[step];
  return at;
}

function keysThatAreNotWords(tree: Document): number[] {
  const offsets: number[] = [];
  visit(tree, {
    Pair(_, { key }) {
      if (!isScalar(key)) offsets.push((key as Node | null)?.range?.[0] ?? 0);
    },
  });
  return offsets;
}

function firstAlias(tree: Document): number {
  let offset = 0;
  visit(tree, {
    Alias(_, node) {
      offset = node.range?.[0] ?? 0;
      return visit.BREAK;
    },
  });
  return offset;
}

/** Where a value (or its key) begins; its nearest parent where the path does not exist. */
function offsetOf(tree: Document, path: Path, ofKey: boolean): number {
  let node = tree.contents as Node | null;
  let offset = node?.range?.[0] ?? 0;
  for (const [depth, step] of path.entries()) {
    if (isAlias(node)) node = node.resolve(tree) ?? null;
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
  return offset;
}
