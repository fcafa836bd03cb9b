import type { Findings } from './findings.ts';
import { type RawBlock, rawBlock } from './greenbutton-block.ts';
import { type Entry, type GreenButtonFeed, isXml, listOf } from './greenbutton-feed.ts';
import type { MeterReadings } from './greenbutton-intervals.ts';
import { type ReadingType, readingType, whyLeftOut } from './greenbutton-type.ts';

/** More meter readings are no site's: each is compared with the others. */
const MOST_METERS = 1000;

/** A block and the links that lead to its type. */
interface LinkedBlock extends RawBlock {
  owner: string;
  related: string[];
}

/** Takes the entries of a feed, in any order, and ties blocks to their meter readings and types by their links. */
export class GreenButtonLinks {
  /** the clock that the file names, for information */
  clock: unknown = null;
  private readonly types = new Map<string, ReadingType>();
  /** hrefs that a meter reading is related to, its type among them, by its own href */
  private readonly relatedOf = new Map<string, string[]>();
  /** href of a meter reading, by the href of its blocks */
  private readonly meterOf = new Map<string, string>();
  private readonly blocks: LinkedBlock[] = [];

  constructor(
    private readonly feed: GreenButtonFeed,
    private readonly list: Findings,
  ) {}

  take(entry: Entry): void {
    const { content, self, related } = entry;
    if (isXml(content.ReadingType)) this.types.set(plain(self), readingType(self, content.ReadingType));
    if ('MeterReading' in content) {
      this.relatedOf.set(plain(self), related.map(plain));
      for (const href of related) this.meterOf.set(withoutBlock(href), plain(self));
    }
    if (isXml(content.LocalTimeParameters)) this.clock ??= content.LocalTimeParameters;
    for (const block of listOf(content.IntervalBlock)) {
      const raw = rawBlock(block, entry, this.feed, this.list);
      this.blocks.push({ ...raw, owner: withoutBlock(entry.up || entry.self), related: related.map(plain) });
    }
  }

  /** Readings that stand elsewhere than in the block of an entry would be lost without a word. */
  refuseStrays(): void {
    const taken = this.blocks.reduce((sum, { readings }) => sum + readings.length, 0);
    const strays = this.feed.readingTags - taken;
    if (strays > 0 && !this.list.hasErrors)
      this.list.error(
        'stray',
        'IntervalReading',
        `${strays} outside a block or empty`,
        'each in an IntervalBlock of an entry',
      );
  }

  /** Blocks by meter reading and type; those that are no electric energy or power are left out, and told. */
  readings(): (MeterReadings & { usagePoint: string })[] {
    const found = new Map<string, MeterReadings & { usagePoint: string }>();
    const leftOut = new Map<string, { count: number; first: RawBlock }>();
    for (const { owner: link, related, ...block } of this.blocks) {
      if (block.readings.length === 0) continue;
      const owner = this.ownerOf(link);
      const type = this.typeOf(owner, related);
      const reason = type === null ? 'no reading type linked to them' : whyLeftOut(type);
      if (type === null || reason !== null) {
        const known = leftOut.get(reason ?? '') ?? { count: 0, first: block };
        known.count++;
        leftOut.set(reason ?? '', known);
        continue;
      }
      const key = `${owner} ${type.href}`;
      const usagePoint = owner.replace(/\/MeterReading\/.*$/, '');
      const readings = found.get(key) ?? { name: nameOf(owner), type, raw: [], usagePoint };
      readings.raw.push(block);
      found.set(key, readings);
    }
    for (const [reason, { count, first }] of leftOut)
      this.list.doubt(
        'left-out',
        'IntervalBlock',
        `${count} blocks with ${reason}`,
        'electric energy or power; left out',
        first.spot,
      );
    if (found.size > MOST_METERS)
      this.list.error('meters', 'feed', `${found.size} meter readings`, `at most ${MOST_METERS}`);
    return this.list.hasErrors ? [] : [...found.values()];
  }

  /** The meter reading that a block belongs to; '' where its links do not lead to one. */
  private ownerOf(link: string): string {
    if (this.relatedOf.has(link) || link.includes('/MeterReading/')) return link;
    return this.meterOf.get(link) ?? '';
  }

  /** Through the links of the meter reading or the block; the only type there is, without links. */
  private typeOf(owner: string, related: readonly string[]): ReadingType | null {
    const links = [...(this.relatedOf.get(owner) ?? []), ...related];
    const href = links.find((link) => this.types.has(link));
    if (href !== undefined) return this.types.get(href) ?? null;
    return this.types.size === 1 ? [...this.types.values()][0] : null;
  }
}

/** An href without the slash that some put at its end. */
function plain(href: string): string {
  return href.replace(/\/$/, '');
}

/** The href of what blocks belong to, from that of one of them or of all. */
function withoutBlock(href: string): string {
  return plain(href.replace(/\/IntervalBlock.*$/, ''));
}

function nameOf(owner: string): string {
  return owner === '' ? 'meter reading' : owner.split('/').slice(-4).join('/');
}
