import { CoveredTime } from './block-overlap.ts';
import type { Findings, Spot } from './findings.ts';
import { isPartPhase, NET, REVERSE, type ReadingType, rank, UNTOLD } from './greenbutton-type.ts';
import type { MeteredBlock, Register } from './metered.ts';

/** Intervals of one meter reading. */
export interface Source {
  usagePoint: string;
  name: string;
  type: ReadingType;
  blocks: MeteredBlock[];
  spot: Spot;
}

/** Of readings that overlap by more than this share, one is no continuation of the other. */
const CONTINUES = 0.5;

/**
 * The registers to add up, so that no energy counts twice where a usage point gives it in several ways: at two
 * interval lengths, as energy and as power, as a register and as its steps, net and delivered, as a whole and by
 * conductor, or as a copy. The one that says most is taken; others serve only where it has nothing.
 */
export function chooseRegisters(sources: readonly Source[], list: Findings): Register[] {
  const points = new Set(sources.map(({ usagePoint }) => usagePoint));
  return [...points].flatMap((point) => {
    const kept: Source[] = [];
    const own = sources.filter(({ usagePoint }) => usagePoint === point);
    for (const source of own.sort(compareSources)) keep(source, kept, list);
    return kept.flatMap(registersOf);
  });
}

/** What says most comes first. */
function compareSources(a: Source, b: Source): number {
  return (
    flowOrder(a.type) - flowOrder(b.type) ||
    Number(isPartPhase(a.type)) - Number(isPartPhase(b.type)) ||
    rank(a.type) - rank(b.type) ||
    shortestS(a) - shortestS(b)
  );
}

/** Delivered before net, net before received: net holds both. */
function flowOrder({ direction }: ReadingType): number {
  if (direction === REVERSE) return 2;
  return direction === NET ? 1 : 0;
}

function keep(source: Source, kept: Source[], list: Findings): void {
  for (const other of kept) {
    if (!isSameEnergy(other.type, source.type)) continue;
    const covered = new CoveredTime(other.blocks);
    const share = covered.shareOf(source.blocks);
    if (share === 0) {
      if (!isAlike(other, source)) continue;
      other.blocks = [...other.blocks, ...source.blocks];
      return;
    }
    if (isAlike(other, source)) {
      if (addAlike(source, other, share, list)) return;
      continue;
    }
    const want = `only ${other.name} (${ways(other)}); used only where it has nothing`;
    list.doubt('same-energy', source.name, `the same energy again (${ways(source)})`, want, source.spot);
    if (isWayOf(other, source)) other.blocks = [...covered.cutFrom(source.blocks), ...other.blocks];
    return;
  }
  kept.push(source);
}

/** @returns true when the source is used up, false when it is to be added as one more */
function addAlike(source: Source, other: Source, share: number, list: Findings): boolean {
  if (share <= CONTINUES || isCopy(source, other)) {
    // what is there twice is told where it is placed
    other.blocks = [...other.blocks, ...source.blocks];
    return true;
  }
  const got = `readings beside those of ${other.name}, of the same kind`;
  list.doubt('added-up', source.name, got, 'one reading of a kind; added up', source.spot);
  return false;
}

/** Energy of the same direction, through the same conductor or through all. */
function isSameEnergy(one: ReadingType, other: ReadingType): boolean {
  const [first, second] = [flowOrder(one), flowOrder(other)];
  if (first !== second && first !== 1 && second !== 1) return false;
  return !(isPartPhase(one) && isPartPhase(other) && one.phase !== other.phase);
}

/** The same kind of values at the same interval length. */
function isAlike(a: Source, b: Source): boolean {
  return isWayOf(a, b) && rank(a.type) === rank(b.type) && shortestS(a) === shortestS(b);
}

/** Another way to give exactly the same energy, which may stand in for it. */
function isWayOf({ type: a }: Source, { type: b }: Source): boolean {
  return flowOrder(a) === flowOrder(b) && isPartPhase(a) === isPartPhase(b) && rank(b) < 3;
}

function shortestS({ blocks }: Source): number {
  return blocks.reduce((least, { durationS }) => Math.min(least, durationS), Number.POSITIVE_INFINITY);
}

function ways(source: Source): string {
  const { type } = source;
  const words = ['energy', 'register', 'power', 'demand'][rank(type)];
  const part = isPartPhase(type) ? `, phase code ${type.phase}` : '';
  return `${words} of ${shortestS(source) / 60} min, flowDirection ${type.direction}${part}`;
}

function isCopy(a: Source, b: Source): boolean {
  const values = new Map<number, number>();
  for (const { startS, durationS, kwh } of b.blocks)
    for (const [i, value] of kwh.entries()) values.set(startS + i * durationS, value);
  return a.blocks.every(({ startS, durationS, kwh }) =>
    kwh.every((value, i) => (values.get(startS + i * durationS) ?? value) === value),
  );
}

/** Net values are load above 0 and generation below. */
function registersOf({ name, type, blocks }: Source): Register[] {
  if (type.direction === REVERSE) return [{ name, quantity: 'generationKw', blocks }];
  const isSigned = type.direction === NET || type.direction === UNTOLD;
  if (!isSigned || !blocks.some(({ kwh }) => kwh.some((value) => value < 0)))
    return [{ name, quantity: 'loadKw', blocks }];
  const part = (sign: 1 | -1) =>
    blocks.map((block) => ({ ...block, kwh: block.kwh.map((value) => Math.max(0, sign * value)) }));
  return [
    { name, quantity: 'loadKw', blocks: part(1) },
    { name: `${name} (below 0)`, quantity: 'generationKw', blocks: part(-1) },
  ];
}
