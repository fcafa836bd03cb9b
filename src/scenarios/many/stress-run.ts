import type { Alternative } from '../alternatives.ts';
import { lifeCycleOf, type UseOfYear } from '../cash-flow.ts';
import { startFails } from '../fault-flags.ts';
import type { SumsOfSpan } from '../horizon-spans.ts';
import { growthBy, type YearConditions, type YearDone, yearsUnder } from '../horizon-years.ts';
import type { SiteInputs } from '../inputs-from-site.ts';
import { bankPrice } from '../life-cycle.ts';
import type { Site } from '../site-schema.ts';
import type { RunDraw, YearDraw } from './stress-draws.ts';
import type { StressFigures, StressRun } from './stress-result.ts';
import type { StressWeathers } from './stress-weathers.ts';

/** An assumption, where neither the generator nor the stress states it. */
const USUAL_START_FAILURE = 0.05;

/** Simulates the years of a study as they were drawn. */
export function simulateRun(alternative: Alternative, draw: RunDraw, weathers: StressWeathers): StressRun {
  const { site, capital } = alternative;
  const { run, loadFactor, fuelPriceFactor } = draw;
  const done: Omit<YearDone, 'inputs' | 'columns'>[] = [];
  // series and steps are let go year by year
  for (const { inputs: _, columns: __, ...kept } of yearsOfRun(site, draw, weathers)) done.push(kept);
  const priced: Site = { ...site, money: { ...site.money, fuelPerL: site.money.fuelPerL * fuelPriceFactor } };
  const uses = done.map(({ year }): UseOfYear => {
    const { fuelL, runH, servedKwh, unservedKwh, visits, battery } = year;
    return { fuelL, runH, servedKwh, unservedKwh, visits, batteries: battery?.replacedAt.length ?? 0 };
  });
  const worth = done[done.length - 1].worthAsLastFrac;
  const life = lifeCycleOf(priced, site.money.capital + capital, uses, bankPrice(site), worth);
  const years = done.map(({ year, spans, unservedByCauseKwh }, i) => ({
    ...figuresOf(priced, year, i),
    draw: draw.years[i],
    capacityFrac: year.battery?.startFrac ?? null,
    starts: year.starts,
    loadKwh: year.loadKwh,
    unservedH: year.unservedH,
    unservedByCauseKwh,
    months: spans.map((month) => figuresOf(priced, month, i)),
  }));
  return { run, loadFactor, fuelPriceFactor, years, lifeCycleCost: life.lifeCycleCost };
}

/** The years of a run one by one. */
export function yearsOfRun(site: Site, draw: RunDraw, weathers: StressWeathers): Generator<YearDone, void> {
  const conditions = (year: number): YearConditions => {
    const drawn = draw.years[year - 1];
    const { name, made } = weathers.at(site, drawn.weather);
    const stressed = stressedSite(site, draw.startSeed, drawn);
    const loadFactor = growthBy(site, year) * draw.loadFactor;
    return { weather: name, made: withFaults(made, stressed, drawn), loadFactor, site: stressed };
  };
  return yearsUnder(site, conditions, true);
}

/** The chance that a start attempt fails; null without a generator, or where it never does. */
export function startFailureChance({ stress, generator }: Site): number | null {
  if (!generator) return null;
  const chance = stress.startFailureChance ?? generator.startFailures?.chance ?? USUAL_START_FAILURE;
  return chance > 0 ? chance : null;
}

function stressedSite(site: Site, seed: string, { late }: YearDraw): Site {
  const { generator, tank, stress } = site;
  const chance = startFailureChance(site);
  const rule = generator?.startFailures ?? { retries: 2, pauseS: 30 };
  return {
    ...site,
    generator: generator && {
      ...generator,
      startFailures: chance === null ? null : { ...rule, chance, seed },
    },
    tank: tank && late ? { ...tank, leadDays: tank.leadDays + stress.lateDelivery.days } : tank,
  };
}

function withFaults(made: SiteInputs, { generator }: Site, { late, which }: YearDraw): SiteInputs {
  const { refillSteps } = made.inputs;
  const missed = late && refillSteps ? Math.floor(which * refillSteps.length) : -1;
  return {
    ...made,
    inputs: {
      ...made.inputs,
      startFails: startFails(generator) ?? undefined,
      refillSteps: refillSteps?.filter((_, i) => i !== missed),
    },
  };
}

/** @param index of the year, from 0 */
function figuresOf(
  { money }: Site,
  { fuelL, runH, unservedKwh, visits }: Pick<SumsOfSpan, 'fuelL' | 'runH' | 'unservedKwh' | 'visits'>,
  index: number,
): StressFigures {
  const fuel = fuelL * money.fuelPerL * (1 + money.fuelEscalation) ** index;
  const service = (runH / money.serviceEveryH) * money.serviceCost;
  const trouble = unservedKwh * money.unservedPerKwh + visits * money.visitCost;
  return { fuelL, runH, unservedKwh, running: fuel + service + trouble };
}
