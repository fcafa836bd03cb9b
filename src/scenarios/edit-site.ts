import { Document, isAlias, isCollection, isScalar, parseDocument, type Scalar, stringify } from 'yaml';
import { type Path, valueAt } from './site-document.ts';

/**
 * The text of a site file with one value replaced, put in, or taken out. A plain value is replaced where it stands,
 * and not a letter beside it changes; other edits write the document anew, which keeps comments and order.
 * @param to the new value; undefined takes it out
 * @param text YAML or JSON without syntax errors
 */
export function withValue(text: string, path: Path, to: unknown): string {
  const isJson = /^\s*[{[]/.test(text) && isJsonText(text);
  return spliced(text, path, to, isJson) ?? (isJson ? rewrittenJson : rewritten)(text, path, to);
}

/** JSON is YAML, but not the other way round: a JSON file stays one. */
function isJsonText(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

function rewrittenJson(text: string, path: Path, to: unknown): string {
  const document = new Document(JSON.parse(text));
  put(document, path, to);
  return `${JSON.stringify(document.toJS(), null, 2)}\n`;
}

/** The text with an alternative put at the end of its list. */
export function withAlternative(text: string, alternative: Record<string, unknown>): string {
  const list = valueAt(parseDocument(text).toJS(), ['alternatives']);
  if (!Array.isArray(list)) return withValue(text, ['alternatives'], [alternative]);
  return withValue(text, ['alternatives', list.length], alternative);
}

/** Replaces a plain value by another in place; null where that cannot be done without touching what is around. */
function spliced(text: string, path: Path, to: unknown, isJson: boolean): string | null {
  if (to === undefined || (typeof to === 'object' && to !== null)) return null;
  const node = parseDocument(text).getIn(path, true);
  if (!isScalar(node) || !node.range || node.anchor || isBlock(node)) return null;
  const [from, end] = node.range;
  if (end === from) return null;
  const edited = text.slice(0, from) + (isJson ? JSON.stringify(to) : plain(to)) + text.slice(end);
  const check = parseDocument(edited, { logLevel: 'silent' });
  if (check.errors.length > 0) return null;
  const got = valueAt(check.toJS(), path);
  return Object.is(got, to) ? edited : null;
}

function isBlock({ type }: Scalar): boolean {
  return type === 'BLOCK_LITERAL' || type === 'BLOCK_FOLDED';
}

/** A plain value as YAML that is also right inside { } and [ ]. */
function plain(value: unknown): string {
  if (typeof value !== 'string') return String(value);
  const bare = stringify(value, { lineWidth: 0 }).trimEnd();
  return /^[\w][\w .%/()+-]*$/.test(bare) && !bare.includes(': ') ? bare : JSON.stringify(value);
}

function rewritten(text: string, path: Path, to: unknown): string {
  const document = parseDocument(text);
  if (document.contents === null) document.contents = new Document({}).contents as typeof document.contents;
  put(document, path, to);
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

function put(document: Document, path: Path, to: unknown): void {
  if (to === undefined) {
    if (document.hasIn(path)) document.deleteIn(path);
    return;
  }
  makeRoom(document, path);
  document.setIn(path, document.createNode(to));
}

/** Puts a group where the path leads through nothing, or through a value that stands for nothing. */
function makeRoom(document: Document, path: Path): void {
  for (let depth = 1; depth < path.length; depth++) {
    const above = path.slice(0, depth);
    const node = document.getIn(above, true);
    if (isCollection(node) || isAlias(node)) continue;
    document.setIn(above, document.createNode(typeof path[depth] === 'number' ? [] : {}));
  }
}
