import { makeColumns } from '../../sim/columns.ts';
import type { Inputs } from '../../sim/inputs.ts';
import { simulate } from '../../sim/simulate.ts';
import type { SiteChanges } from '../apply-changes.ts';
import { batteryLifeYears } from '../battery-life.ts';
import { controlsFromSite } from '../controls-from-site.ts';
import type { Issue } from '../issue.ts';
import type { Evaluate } from '../many/evaluate.ts';
import { type Outcome, outcomeOf } from '../many/outcome.ts';
import { WrongVariants } from '../many/wrong-variants.ts';
import { plantFromSite } from '../plant-from-site.ts';
import { coarserInputs } from './coarser-inputs.ts';
import { firstSoc } from './compare/run-log.ts';
import type { VisitGround } from './ground.ts';

/** Runs variants of a site over the load and weather of its log. */
export class LogRunner {
  private readonly byStep = new Map<number, Inputs>();

  /** @param inputs over the log's axis */
  constructor(
    private readonly ground: VisitGround,
    private readonly inputs: Inputs,
  ) {}

  /** The outcome of a variant over the whole log, or every problem that it has. */
  run(changes: SiteChanges, stepMin = this.inputs.stepMin, arrayTimes = 1): Outcome | Issue[] {
    const { filed, airAtStartC, acArrayShare } = this.ground;
    const site = filed.variant(changes);
    if (Array.isArray(site)) return site;
    const plant = plantFromSite(site, airAtStartC, acArrayShare);
    const soc = firstSoc(this.ground);
    if (plant.battery && soc !== null) plant.battery.initialSoc = soc;
    const inputs = withArrays(this.at(stepMin), arrayTimes);
    const columns = site.battery?.wear ? makeColumns(inputs.count) : undefined;
    const ledger = simulate(plant, controlsFromSite(site), inputs, { columns });
    return outcomeOf(site, 0, ledger, columns ? batteryLifeYears(site, stepMin, columns) : null);
  }

  /**
   * Outcomes of variants, one after another, each in a turn of its own: whoever waits for something else gets it
   * meanwhile.
   * @param base changes made before those of each variant
   */
  evaluator(base: SiteChanges): Evaluate {
    return async (variants, stepMin) => {
      const outcomes: Outcome[] = [];
      for (const changes of variants) {
        const outcome = this.run({ ...base, ...changes }, stepMin);
        if (Array.isArray(outcome)) throw new WrongVariants(outcome);
        outcomes.push(outcome);
        await new Promise((resolve) => setTimeout(resolve, 0));
      }
      return outcomes;
    };
  }

  private at(stepMin: number): Inputs {
    const made = this.byStep.get(stepMin) ?? coarserInputs(this.inputs, stepMin);
    this.byStep.set(stepMin, made);
    return made;
  }
}

function withArrays(inputs: Inputs, times: number): Inputs {
  if (times === 1) return inputs;
  const scaled = (kw: Float64Array | undefined) => kw?.map((value) => value * times);
  return { ...inputs, dcArrayKw: scaled(inputs.dcArrayKw), acArrayKw: scaled(inputs.acArrayKw) };
}
