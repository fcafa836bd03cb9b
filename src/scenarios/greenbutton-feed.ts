import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { type Findings, quoted, type Spot } from './findings.ts';

/** What the parser makes of an element with children. */
export type Xml = Record<string, unknown>;

/** One entry of the feed. */
export interface Entry {
  self: string;
  up: string;
  related: string[];
  /** when it was last changed [s since 1970]; 0 when it does not say */
  updatedS: number;
  content: Xml;
  /** where its text begins, to which places in it are added */
  at: number;
}

const LARGEST_BYTES = 400_000_000;
/** Entries of the format are eight deep. */
const MOST_NESTED = 30;
const START = XMLParser.getMetaDataSymbol() as unknown as string;
const LISTS = new Set(['link', 'IntervalBlock', 'IntervalReading', 'ReadingQuality']);

/** An Atom feed, of which one entry at a time is parsed: the tree of a year of readings is many times the file. */
export class GreenButtonFeed {
  private readonly parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '@',
    removeNSPrefix: true,
    processEntities: false,
    parseTagValue: false,
    captureMetaData: true,
    maxNestedTags: MOST_NESTED,
    isArray: (name) => LISTS.has(name),
  });
  /** readings that the text has, wherever they stand; complete after the last entry */
  readingTags = 0;
  /** the newest place that was looked up, from which the next is counted on */
  private known = { at: 0, line: 1, lineStart: 0 };

  constructor(
    private readonly text: string,
    private readonly list: Findings,
  ) {}

  *entries(): Generator<Entry> {
    for (const { from, to } of this.entrySpans()) {
      const entry = this.parse(from, to);
      if (entry === null) continue;
      const links = listOf(entry.link);
      const href = (rel: string) =>
        links.filter((link) => link['@rel'] === rel).map((link) => String(link['@href'] ?? ''));
      yield {
        self: href('self')[0] ?? '',
        up: href('up')[0] ?? '',
        related: href('related'),
        updatedS: Math.max(0, Math.round(Date.parse(String(entry.updated)) / 1000)) || 0,
        content: isXml(entry.content) ? entry.content : {},
        at: from,
      };
    }
  }

  /** Where the outermost entries stand; comments and raw text are passed over. */
  private *entrySpans(): Generator<{ from: number; to: number }> {
    const pieces =
      /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<(\/?)(?:[\w.-]+:)?(entry|IntervalReading)(?=[\s/>])[^>]*>/g;
    let depth = 0;
    let from = 0;
    for (const { 0: whole, 1: slash, 2: name, index } of this.text.matchAll(pieces)) {
      if (name === 'IntervalReading' && slash === '') this.readingTags++;
      if (name !== 'entry' || whole.endsWith('/>')) continue;
      if (slash === '' && depth++ === 0) from = index;
      if (slash === '/' && --depth === 0) yield { from, to: index + whole.length };
    }
  }

  private parse(from: number, to: number): Xml | null {
    try {
      const { entry } = this.parser.parse(this.text.slice(from, to)) as Xml;
      return isXml(entry) ? entry : null;
    } catch (error) {
      // what the validator let through and the parser does not take, such as elements nested too deep
      const got = quoted(error instanceof Error ? error.message : 'no XML');
      const want = `XML nested at most ${MOST_NESTED} deep`;
      this.list.error('xml', 'entry', got, want, this.spot(from));
      return null;
    }
  }

  /** Line and column of a place in the text. */
  spot(at: number): Spot {
    let { line, lineStart } = at < this.known.at ? { line: 1, lineStart: 0 } : this.known;
    for (let end = this.text.indexOf('\n', lineStart); end >= 0 && end < at; ) {
      line++;
      lineStart = end + 1;
      end = this.text.indexOf('\n', lineStart);
    }
    this.known = { at, line, lineStart };
    return { line, column: at - lineStart + 1 };
  }
}

/** Opens a feed; null when the bytes are none, which is then in the list. Document types and entities are refused. */
export function openFeed(bytes: Uint8Array, list: Findings): GreenButtonFeed | null {
  if (bytes.length > LARGEST_BYTES) list.error('size', 'file', `${bytes.length} bytes`, 'at most 400 MB');
  if (list.hasErrors) return null;
  const text = new TextDecoder('utf-8').decode(bytes);
  if (/<!DOCTYPE|<!ENTITY/i.test(text)) {
    list.error('entity', 'file', 'a document type or entity', 'a plain feed');
    return null;
  }
  const valid = XMLValidator.validate(text);
  if (valid !== true) {
    const { msg, line, col: column } = valid.err;
    // the message may list every element that is open
    const got = msg.slice(0, 100).replace(/\s+/g, ' ');
    list.error('xml', 'file', got, 'well-formed XML', { line, column });
  } else if (rootName(text) !== 'feed') list.error('feed', 'feed', 'no Atom feed', 'a feed with entries');
  return list.hasErrors ? null : new GreenButtonFeed(text, list);
}

/** Name of the first element, without its prefix. */
function rootName(text: string): string {
  for (const [, name] of text.matchAll(/<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<([^\s<>/!?]+)/g))
    if (name !== undefined) return name.slice(name.indexOf(':') + 1);
  return '';
}

/** Where in its entry an element begins. */
export function startOf(element: Xml): number {
  const place = element[START];
  return isXml(place) ? Number(place.startIndex) : 0;
}

export function isXml(value: unknown): value is Xml {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function listOf(value: unknown): Xml[] {
  if (Array.isArray(value)) return value.filter(isXml);
  return isXml(value) ? [value] : [];
}
