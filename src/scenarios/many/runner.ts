import type { StepColumns } from '../../sim/columns.ts';
import { makeLog } from '../../sim/loop-arrays.ts';
import { simulate } from '../../sim/simulate.ts';
import type { SiteChanges } from '../apply-changes.ts';
import { batteryLifeYears } from '../battery-life.ts';
import { Cache } from '../cache.ts';
import { controlsFromSite } from '../controls-from-site.ts';
import { InputMaker } from '../inputs-from-site.ts';
import type { Issue } from '../issue.ts';
import type { ReadFile } from '../load-files.ts';
import { plantFromSite } from '../plant-from-site.ts';
import { CAPITAL, type Filed, type SharedSeries } from './ground.ts';
import { type Outcome, outcomeOf } from './outcome.ts';

/** Series that variants have for themselves are forgotten when they are more than this [bytes]. */
const MOST_OWN_SERIES = 96e6;

/** Runs one variant of a site after another at one step: what they share is given, buffers are used again. */
export class Runner {
  private maker: InputMaker;
  private columns: StepColumns | null = null;
  private readonly log = makeLog();

  /** @param stepMin another step than the site file's [min], or null */
  constructor(
    private readonly filed: Filed,
    private readonly series: SharedSeries,
    private readonly readFile: ReadFile,
    private readonly stepMin: number | null,
  ) {
    this.maker = this.freshMaker();
  }

  /** The outcome of a variant, or every problem that it has. */
  run(changes: SiteChanges): Outcome | Issue[] {
    const site = this.filed.variant(changes);
    if (Array.isArray(site)) return site;
    const made = this.maker.make(site);
    if (made === null) {
      const issues = this.filed.named(changes, this.maker.issues);
      // what it has made of wrong files is of no use to the next variant
      this.maker = this.freshMaker();
      return issues;
    }
    const { inputs, airAtStartC, acArrayShare } = made;
    const plant = plantFromSite(site, airAtStartC, acArrayShare);
    const columns = site.battery?.wear ? this.columnsOf(inputs.count) : undefined;
    const ledger = simulate(plant, controlsFromSite(site), inputs, { columns, log: this.log });
    const wornOutYears = columns ? batteryLifeYears(site, inputs.stepMin, columns) : null;
    return outcomeOf(site, Number(changes[CAPITAL] ?? 0), ledger, wornOutYears);
  }

  private freshMaker(): InputMaker {
    const cache = new Cache(this.series, MOST_OWN_SERIES);
    return new InputMaker(this.readFile, this.stepMin, this.filed.placeOf, cache);
  }

  /** Columns of which only those are told apart that battery life is worked out from; the rest share one. */
  private columnsOf(count: number): StepColumns {
    if (this.columns?.socFrac.length === count) return this.columns;
    const unread = new Float64Array(count);
    this.columns = {
      socFrac: new Float64Array(count),
      cellC: new Float64Array(count),
      generatorKw: unread,
      unservedKw: unread,
      dcUsedKw: unread,
      acUsedKw: unread,
      batteryKw: unread,
      curtailedKw: unread,
      cabinetC: unread,
      cause: new Uint8Array(unread.buffer, 0, count),
    };
    return this.columns;
  }
}
