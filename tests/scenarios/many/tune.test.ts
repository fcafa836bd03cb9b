/** Rules that cost least, against every set of values that there is. */
import { beforeAll, describe, expect, it } from 'vitest';
import { type Evaluate, makeEvaluator } from '../../../src/scenarios/many/evaluate.ts';
import { FLAT_FRAC } from '../../../src/scenarios/many/flat.ts';
import type { Point } from '../../../src/scenarios/many/lattice-search.ts';
import { excessOf } from '../../../src/scenarios/many/limits.ts';
import { runningCostOf } from '../../../src/scenarios/many/score.ts';
import { changesAt, type Rule, settingsOf } from '../../../src/scenarios/many/settings.ts';
import { spaceOf } from '../../../src/scenarios/many/settings-space.ts';
import { type TuneFindings, type TuneRequest, tune } from '../../../src/scenarios/many/tune.ts';
import { byTheYear } from '../../../src/scenarios/many/year-outcome.ts';
import { HUT, POST, requestOf, SHED, siteOf } from './tune-sites.ts';

/** An evaluator that counts its runs. */
function counting(text: string): { evaluate: Evaluate; runs: () => number } {
  const { evaluate } = makeEvaluator(requestOf(text));
  let runs = 0;
  return {
    evaluate: (variants, stepMin) => {
      runs += variants.length;
      return evaluate(variants, stepMin);
    },
    runs: () => runs,
  };
}

function asked(text: string, rules: readonly Rule[], more: Partial<TuneRequest> = {}): TuneRequest {
  const site = siteOf(text);
  const { evaluate } = makeEvaluator(requestOf(text));
  return { site, base: {}, evaluate, stepMin: 60, rules, seasons: [], limits: {}, mostRuns: 400, ...more };
}

/** Every point of a space. */
function everyPoint(lengths: readonly number[]): Point[] {
  return lengths.reduce<number[][]>(
    (points, length) => points.flatMap((point) => Array.from({ length }, (_, i) => [...point, i])),
    [[]],
  );
}

describe('against every set of values', () => {
  it.each<[string, string, Rule[]]>([
    [
      'where to start and stop, on a hut with restricted nights',
      HUT,
      ['startSoc', 'stopSoc', 'chargeDelayMin'],
    ],
    ['peaks, on a shed with one heavy phase', SHED, ['peakStartKw', 'peakStopKw', 'peakHoldMin']],
    ['charging and minimum run, of a set with few hours', POST, ['stopSoc', 'chargeTargetKw', 'minRunMin']],
  ])(
    '%s',
    async (_, text, rules) => {
      const site = siteOf(text);
      const settings = settingsOf(site, rules, []);
      const { lengths, isAllowed } = spaceOf(site, settings);
      const points = everyPoint(lengths).filter(isAllowed);
      const { evaluate } = makeEvaluator(requestOf(text));
      const outcomes = await byTheYear(evaluate, 60)(points.map((point) => changesAt(site, settings, point)));

      const { evaluate: counted, runs } = counting(text);
      const mostRuns = Math.floor(points.length * 0.06);
      const found = await tune(asked(text, rules, { evaluate: counted, mostRuns }));
      if (found === null) throw new Error('nothing to tune');
      const { limits } = found.limits;
      const costs = outcomes
        .filter((outcome) => excessOf(outcome, limits) === 0)
        .map((outcome) => runningCostOf(outcome));
      const best = Math.min(...costs);
      const chosen = runningCostOf(found.chosen);
      expect(found.brokenChosen).toEqual([]);
      expect(chosen).toBeLessThanOrEqual(best * 1.005);
      expect(chosen).toBeGreaterThanOrEqual(best);
      expect(runs()).toBeLessThanOrEqual(points.length / 10);
      // there was something to find
      expect(runningCostOf(found.today)).toBeGreaterThan(best * 1.005);
    },
    180_000,
  );
});

const PATHS: Partial<Record<Rule, string>> = {
  startSoc: 'control.charge.startSoc',
  stopSoc: 'control.charge.stopSoc',
  minRunMin: 'control.minRunMin',
};

async function found(request: TuneRequest): Promise<TuneFindings> {
  const result = await tune(request);
  if (result === null) throw new Error('nothing to tune');
  return result;
}

describe('how flat it is', () => {
  const rules: Rule[] = ['startSoc', 'stopSoc', 'minRunMin'];
  let hut: TuneFindings;

  beforeAll(async () => {
    hut = await found(asked(HUT, rules));
  }, 60_000);

  it('is told from runs of every value with the others as chosen', async () => {
    const evaluate = byTheYear(makeEvaluator(requestOf(HUT)).evaluate, 60);
    const top = runningCostOf(hut.chosen) * (1 + FLAT_FRAC);
    for (const { rule, values, curve, flat, chosen } of hut.settings) {
      const places = [...values.keys()].filter((i) => curve[i].cost !== null);
      const again = await evaluate(places.map((i) => ({ ...hut.changes, [String(PATHS[rule])]: values[i] })));
      const isFlat = values.map(() => false);
      for (const [n, i] of places.entries()) {
        expect(curve[i].cost).toBe(runningCostOf(again[n]));
        isFlat[i] = runningCostOf(again[n]) <= top && excessOf(again[n], hut.limits.limits) === 0;
      }
      // the stretch around the chosen value, and not a value more
      expect(isFlat[chosen]).toBe(true);
      expect(isFlat.slice(flat.from, flat.to + 1)).not.toContain(false);
      expect(isFlat[flat.from - 1] ?? false).toBe(false);
      expect(isFlat[flat.to + 1] ?? false).toBe(false);
    }
  });

  it('names the limits that a value breaks', async () => {
    const tight = await found(asked(HUT, rules, { limits: { startsADay: 1 } }));
    expect(tight.chosen.mostStartsADay).toBe(1);
    expect(runningCostOf(tight.chosen)).toBeGreaterThanOrEqual(runningCostOf(hut.chosen));
    const broken = new Set(tight.settings.flatMap(({ curve }) => curve.flatMap((point) => point.broken)));
    expect(broken).toContain('startsADay');
  });

  it('leaves what gains nothing as it is', async () => {
    // a charging output above what charger and load can take changes nothing
    const site = siteOf(HUT);
    const { settings, chosen } = await found(asked(HUT, ['startSoc', 'chargeTargetKw']));
    const target = settings[1];
    expect(target.chosen).toBe(target.today);
    expect(target.values[target.today]).toBeNull();
    expect(site.control.chargeTargetKw).toBeNull();
    const top = target.curve[target.values.length - 2];
    expect(top.cost).toBe(runningCostOf(chosen));
  });
});

describe('what is asked', () => {
  it('limits that nothing can keep are said to be broken, and broken as little as can be', async () => {
    const site = siteOf(POST);
    const least = await found(asked(POST, ['startSoc', 'stopSoc'], { limits: { runHours: 1 } }));
    expect(least.brokenChosen).toEqual(['runHours']);
    expect(least.chosen.runH).toBeLessThan(least.today.runH);
    expect(site.generator?.ratingClass).toBe('limitedTime');
    const byClass = await found(asked(POST, ['startSoc'], {}));
    expect(byClass.limits.limits.runHours).toBe(500);
    expect(byClass.limits.sources.runHours).toBe('rating class');
  });

  it('thresholds of a season of its own cost no more than the same all the time', async () => {
    const rules: Rule[] = ['startSoc', 'stopSoc'];
    const seasons = [{ name: 'May', months: [5] }];
    const plain = await found(asked(HUT, rules));
    const seasonal = await found(asked(HUT, rules, { seasons, mostRuns: 800 }));
    expect(seasonal.settings.map(({ season }) => season?.name ?? null)).toEqual([null, null, 'May', 'May']);
    expect(runningCostOf(seasonal.chosen)).toBeLessThanOrEqual(runningCostOf(plain.chosen) * 1.005);
    const { evaluate } = makeEvaluator(requestOf(HUT));
    const [again] = await byTheYear(evaluate, 60)([seasonal.changes]);
    expect(again).toEqual(seasonal.chosen);
    expect(seasonal.changes['control.calendar']).toHaveLength(1);
  });

  it('the rules of an alternative are changed on top of what it changes', async () => {
    const text = HUT.replace('modules: 3', 'modules: 6');
    const bigger = await found(asked(text, ['startSoc', 'stopSoc']));
    const { evaluate } = makeEvaluator(requestOf(HUT));
    const base = { 'battery.modules': 6 };
    const same = await found(asked(HUT, ['startSoc', 'stopSoc'], { site: siteOf(text), base, evaluate }));
    expect(same.chosen).toEqual(bigger.chosen);
    expect(same.changes).toEqual({ ...base, ...bigger.changes });
  });

  it('a site without rules that have numbers has nothing to tune', async () => {
    const text = HUT.slice(0, HUT.indexOf('control:')).concat('control: { continuous: true }\n');
    expect(await tune(asked(text, ['startSoc', 'stopSoc']))).toBeNull();
  });
});
