import type { Alternative } from '../../../scenarios/alternatives.ts';
import { batteryLifeYears } from '../../../scenarios/battery-life.ts';
import { controlsFromSite } from '../../../scenarios/controls-from-site.ts';
import { darkestDays, findDarkWeek } from '../../../scenarios/dark-week.ts';
import type { InputMaker, SiteInputs } from '../../../scenarios/inputs-from-site.ts';
import { efficiencyFit } from '../../../scenarios/inverter-losses.ts';
import { moneyOf } from '../../../scenarios/life-cycle.ts';
import { plantFromSite } from '../../../scenarios/plant-from-site.ts';
import type { Site } from '../../../scenarios/site-schema.ts';
import type { AlternativeResult } from '../../../scenarios/study.ts';
import { makeColumns, type StepColumns } from '../../../sim/columns.ts';
import { simulate } from '../../../sim/simulate.ts';

export interface Simulated {
  key: string;
  result: AlternativeResult;
  /** false: battery life, and the money that follows from it, are still to be worked out */
  whole: boolean;
  simulatedMs: number;
}

/** The series of a site, and where its dark week lies. */
interface Made {
  key: string;
  maker: InputMaker;
  inputs: SiteInputs;
  darkest: ReturnType<typeof darkestDays>;
}

/**
 * Simulates alternatives over and over into the same columns: what a drag needs. With the same site asked for again
 * the last answer is given.
 */
export class Simulator {
  private columns: StepColumns | null = null;
  private last: Simulated | null = null;
  private made: Made | null = null;

  /** @param whole false: leave battery life and the dark week for later */
  run(alternative: Alternative, maker: InputMaker, whole: boolean): Simulated | null {
    const key = JSON.stringify([alternative.site, alternative.capital, alternative.name]);
    if (this.last?.key === key && this.made?.maker === maker && (this.last.whole || !whole)) return this.last;
    const made = this.inputsOf(alternative.site, maker);
    if (made === null) return null;
    this.last = this.simulated(key, alternative, made, whole);
    return this.last;
  }

  private simulated(
    key: string,
    alternative: Alternative,
    { inputs: made, darkest }: Made,
    whole: boolean,
  ): Simulated {
    const { site, name, note, changes, capital } = alternative;
    const { inputs, periodEnds, airAtStartC, yields, acArrayShare } = made;
    const plant = plantFromSite(site, airAtStartC, acArrayShare);
    const controls = controlsFromSite(site);
    if (this.columns?.socFrac.length !== inputs.count) this.columns = makeColumns(inputs.count);
    const { columns } = this;
    const before = performance.now();
    const ledger = simulate(plant, controls, inputs, { columns, periodEnds });
    const simulatedMs = performance.now() - before;
    const life = whole ? batteryLifeYears(site, inputs.stepMin, columns) : null;
    const result: AlternativeResult = {
      ...{ name, note, changes, plant, controls, inputs, ledger, columns, yields },
      efficiencyFit: efficiencyFit(site.inverter),
      money: moneyOf(site, capital, ledger, life),
      batteryLifeYears: life,
      darkWeek: findDarkWeek(inputs, columns, darkest),
      checks: [],
    };
    return { key, result, whole, simulatedMs };
  }

  /** The series, made anew only where something that they depend on has changed. */
  private inputsOf(site: Site, maker: InputMaker): Made | null {
    const key = seriesKey(site);
    if (this.made?.key === key && this.made.maker === maker) return this.made;
    const inputs = maker.make(site, false);
    this.made = inputs && { key, maker, inputs, darkest: darkestDays(inputs.inputs) };
    return this.made;
  }
}

/** A site without what its series do not depend on, and levers change most often. */
function seriesKey({ control, battery, money: _money, ...site }: Site): string {
  const { charge: _charge, peak: _peak, ...rest } = control;
  return JSON.stringify([site, rest, battery?.busV]);
}
