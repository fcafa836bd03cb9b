import { BlockRuns } from './block-runs.ts';
import type { Findings, Spot } from './findings.ts';
import type { RawBlock, Reading } from './greenbutton-block.ts';
import type { GreenButtonFeed } from './greenbutton-feed.ts';
import { FORWARD, isLevel, isRunning, NET, REVERSE, type ReadingType } from './greenbutton-type.ts';
import { ESTIMATED, MEASURED, type MeteredBlock } from './metered.ts';
import { looksRunning, registerRises } from './register-rises.ts';

/** Readings of a meter, all of one type. */
export interface MeterReadings {
  name: string;
  type: ReadingType;
  raw: RawBlock[];
}

/** Turns readings into energy of intervals; what is wrong or doubtful with them goes to the list. */
export class GreenButtonIntervals {
  constructor(
    private readonly feed: GreenButtonFeed,
    private readonly list: Findings,
    private readonly maxGapMin: number,
  ) {}

  of({ name, type, raw }: MeterReadings): MeteredBlock[] {
    const questionable = raw.reduce((sum, block) => sum + block.questionable, 0);
    if (questionable > 0)
      this.list.doubt('quality', name, `${questionable} readings marked as questionable (10)`, 'valid ones');
    if (isRunning(type)) return this.rises(name, type, raw);
    if (type.accumulation === 0 && looksRunning(raw.flatMap(valuesOf))) this.refuseUntold(name, raw[0].spot);
    return this.deltas(name, type, raw);
  }

  private deltas(name: string, type: ReadingType, raw: readonly RawBlock[]): MeteredBlock[] {
    const outside = new Tally();
    const otherLength = new Tally();
    const blocks = raw.flatMap((block) => {
      const runs = new BlockRuns(block.version, block.spot.line);
      for (const reading of this.timed(block, type)) {
        const { startS, durationS, value, isEstimated, at } = reading;
        if (!(startS > 0) || !(durationS > 0)) {
          this.refuseTime(reading);
          continue;
        }
        if (startS < block.startS || startS + durationS > block.startS + block.durationS) outside.add(at);
        if (type.lengthS > 0 && durationS !== type.lengthS) otherLength.add(at);
        const energy = kwhOf(value, type) * (isLevel(type) ? durationS / 3600 : 1);
        if (value < 0 && (type.direction === FORWARD || type.direction === REVERSE))
          this.refuseNegative(value, type, at);
        runs.add(startS, durationS, energy, isEstimated ? ESTIMATED : MEASURED);
      }
      return runs.blocks();
    });
    this.tell(outside, 'outside', name, 'readings outside the interval of their block', 'readings within it');
    const want = `${type.lengthS} s, as the reading type says; read all the same`;
    this.tell(otherLength, 'length', name, 'readings of another length', want);
    return blocks;
  }

  /** A block's readings, each with its time: its own, or one after the other from the block's start. */
  private timed(block: RawBlock, type: ReadingType): Reading[] {
    let nextS = block.startS;
    let sumS = 0;
    const readings = block.readings.map((reading) => {
      const durationS = Number.isNaN(reading.durationS) ? type.lengthS : reading.durationS;
      const startS = Number.isNaN(reading.startS) ? nextS : reading.startS;
      nextS = startS + durationS;
      sumS += durationS;
      return { ...reading, startS, durationS };
    });
    // one that is missing moves all after it
    const isInOrder = block.readings.some(({ startS }) => Number.isNaN(startS));
    if (isInOrder && !isRunning(type) && !Number.isNaN(sumS) && sumS !== block.durationS) {
      const got = `readings without a time, together ${sumS} s`;
      const want = `as long as their block, ${block.durationS} s`;
      this.list.error('block-length', 'IntervalBlock', got, want, block.spot);
    }
    return readings;
  }

  private rises(name: string, type: ReadingType, raw: readonly RawBlock[]): MeteredBlock[] {
    const readings = this.oncePerInstant(
      name,
      raw.flatMap((block) => this.timed(block, type).map((one) => ({ ...one, version: block.version }))),
    );
    const isNet = type.direction === NET;
    const nominalS = type.lengthS > 0 ? type.lengthS : null;
    const instants = {
      atS: readings.map(({ startS }) => startS),
      value: readings.map(({ value }) => value),
      estimated: readings.map(({ isEstimated }) => isEstimated),
    };
    const { blocks, falls, holes } = registerRises(instants, nominalS, this.maxGapMin * 60, isNet, (rise) =>
      kwhOf(rise, type),
    );
    const fell = new Tally(falls.map((i) => readings[i].at));
    this.tell(
      fell,
      'register-reset',
      name,
      'readings of a register below the one before',
      'a running total; what is around them is filled',
    );
    const spread = new Tally(holes.map((i) => readings[i].at));
    const want = 'a reading each interval; the energy over the hole, where not too long, is spread evenly';
    this.tell(spread, 'register-hole', name, 'readings of a register after a hole', want);
    return blocks;
  }

  /** In order of time, each instant once: the newer, else the later in the file. */
  private oncePerInstant(name: string, readings: (Reading & { version: number })[]): Reading[] {
    const twice = new Tally();
    const byTime = new Map<number, Reading>();
    for (const reading of readings.sort((a, b) => a.startS - b.startS || a.version - b.version)) {
      if (!(reading.startS > 0)) this.refuseTime(reading);
      const before = byTime.get(reading.startS);
      if (before && before.value !== reading.value) twice.add(reading.at);
      byTime.set(reading.startS, reading);
    }
    const want = 'one; kept the newer, else the later in the file';
    this.tell(twice, 'duplicates', name, 'instants with two readings that differ', want);
    return [...byTime.values()];
  }

  private tell({ count, first }: Tally, code: string, path: string, got: string, want: string): void {
    if (count > 0) this.list.doubt(code, path, `${count} ${got}`, want, this.spot(first));
  }

  private refuseTime({ startS, durationS, at }: Reading): void {
    const got = `start ${startS || 'none'}, duration ${durationS || 'none'}`;
    this.list.error(
      'time',
      'IntervalReading',
      got,
      'a start and a duration, its own or given',
      this.spot(at),
    );
  }

  private refuseNegative(value: number, { direction }: ReadingType, at: number): void {
    const want = `at least 0 for flowDirection ${direction}, or flowDirection 4 (net)`;
    this.list.error('negative', 'IntervalReading', `value ${value}`, want, this.spot(at));
  }

  /** Read as energy of intervals, a register would be taken for a huge load. */
  private refuseUntold(name: string, spot: Spot): void {
    const got = 'none or 0, and values that never fall';
    const want = '4 (energy of each interval) or 1, 3 or 9 (a running register)';
    this.list.error('accumulation', `accumulationBehaviour of ${name}`, got, want, spot);
  }

  private spot(at: number): Spot {
    return this.feed.spot(at);
  }
}

function valuesOf({ readings }: RawBlock): number[] {
  return readings.map(({ value }) => value);
}

/** Counts places in the feed, and keeps the first. */
class Tally {
  count = 0;
  first = 0;

  constructor(places: readonly number[] = []) {
    for (const at of places) this.add(at);
  }

  add(at: number): void {
    if (this.count++ === 0 || at < this.first) this.first = at;
  }
}

/** A value in kWh or kW; powers of ten are exact, so that the result is rounded once. */
function kwhOf(value: number, { power }: ReadingType): number {
  const exponent = power - 3;
  return exponent < 0 ? value / 10 ** -exponent : value * 10 ** exponent;
}
