import type { Inputs } from '../sim/inputs.ts';
import type { Ledger } from '../sim/ledger.ts';
import { simulate } from '../sim/simulate.ts';
import { changedSite, type SiteChanges } from './apply-changes.ts';
import { controlsFromSite } from './controls-from-site.ts';
import type { InputMaker } from './inputs-from-site.ts';
import { plantFromSite } from './plant-from-site.ts';
import type { Site } from './site-schema.ts';
import type { AlternativeResult } from './study.ts';

/** Runs one alternative again with something changed, from the start of its period; the same question is run once. */
export class Rerunner {
  private readonly ledgers = new Map<string, Ledger>();

  /** @param result what the site gave as it is */
  constructor(
    readonly site: Site,
    readonly result: AlternativeResult,
    private readonly maker: InputMaker,
  ) {}

  /** The whole period with values of the site replaced. */
  changed(changes: SiteChanges): Ledger {
    const key = JSON.stringify(changes);
    const known = this.ledgers.get(key);
    if (known) return known;
    const site = changedSite(this.site, changes);
    const made = this.maker.make(site, false);
    if (made === null) throw new Error(`no series for a site with ${key}`);
    const plant = plantFromSite(site, made.airAtStartC, made.acArrayShare);
    const ledger = simulate(plant, controlsFromSite(site), made.inputs);
    this.ledgers.set(key, ledger);
    return ledger;
  }

  /** The site as it is with another load by phase [kW], up to a step (not included). */
  withLoad(loadKw: readonly Float64Array[], untilStep: number): Ledger {
    const { plant, controls, inputs } = this.result;
    return simulate(plant, controls, cutInputs({ ...inputs, loadKw }, untilStep));
  }
}

/** The first steps of all series; fixed deliveries after them do no harm, and start attempts go by number, not step. */
function cutInputs(inputs: Inputs, count: number): Inputs {
  const cut = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(cut);
    const isSeries = value instanceof Float64Array || value instanceof Uint8Array;
    return isSeries && value.length === inputs.count ? value.subarray(0, count) : value;
  };
  const series = Object.entries(inputs).map(([name, value]) => [name, cut(value)]);
  return { ...Object.fromEntries(series), startFails: inputs.startFails, count } as Inputs;
}
