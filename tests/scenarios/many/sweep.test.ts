import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { makeEvaluator } from '../../../src/scenarios/many/evaluate.ts';
import { CAPITAL, Filed } from '../../../src/scenarios/many/ground.ts';
import { KeptOutcomes } from '../../../src/scenarios/many/kept-outcomes.ts';
import { bestCell, cellOf, runCells, servesEnough } from '../../../src/scenarios/many/sweep.ts';
import { planSweep, type SweepPlan, type SweepRequest } from '../../../src/scenarios/many/sweep-plan.ts';
import { runStudy } from '../../../src/scenarios/run-study.ts';
import { SMALL_SITE } from '../small-site.ts';
import { small } from './small-requests.ts';

const filed = new Filed(SMALL_SITE, 'site.yaml');
const ask = (more: Partial<SweepRequest>): SweepRequest => ({ vary: [], seed: 's', prices: [], ...more });

function plan(more: Partial<SweepRequest>): SweepPlan {
  const planned = planSweep(ask(more), filed);
  if (Array.isArray(planned)) throw new Error(planned.map(issueSentence).join('\n'));
  return planned;
}

function problems(more: Partial<SweepRequest>): string[] {
  const planned = planSweep(ask(more), filed);
  return Array.isArray(planned) ? planned.map(issueSentence) : [];
}

describe('planSweep', () => {
  it('is the full grid, the last number quickest', () => {
    const { variants, cells, gridSize } = plan({
      vary: ['battery.modules=2,4', 'control.charge.startSoc=0.2,0.3'],
    });
    expect(gridSize).toBe(4);
    expect(cells).toEqual([
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
    ]);
    expect(variants).toEqual([
      { 'battery.modules': 2, 'control.charge.startSoc': 0.2 },
      { 'battery.modules': 2, 'control.charge.startSoc': 0.3 },
      { 'battery.modules': 4, 'control.charge.startSoc': 0.2 },
      { 'battery.modules': 4, 'control.charge.startSoc': 0.3 },
    ]);
  });

  it('adds prices and the capital of alternatives', () => {
    const vary = ['generator.ratedKw=4,5,8', 'alternative=as filed,more modules'];
    const { variants } = plan({ vary, prices: ['generator.ratedKw=500'] });
    // 5 kW as filed; the alternative costs 3000
    expect(variants.map((changes) => changes[CAPITAL] ?? 0)).toEqual([-500, 2500, 0, 3000, 1500, 4500]);
    expect(variants.map((changes) => changes['battery.modules'] ?? 2)).toEqual([2, 4, 2, 4, 2, 4]);
  });

  it('takes prices from the site file, unless others are stated', () => {
    const list = 'prices: { perModule: 900, perKwp: 600, perGeneratorKw: 300, perInverterKva: 200 }';
    const priced = new Filed(`${SMALL_SITE}${list}\n`, 'site.yaml');
    const pricesOf = (...prices: string[]) => {
      const vary = [
        ...['battery.modules=2,3', 'arrays.roof.kWp=2,4', 'generator.ratedKw=5,6', 'inverter.ratedKva=5,6'],
        'control.charge.startSoc=0.2,0.3',
      ];
      const planned = planSweep(ask({ vary, prices }), priced);
      return Array.isArray(planned) ? planned.map(issueSentence) : planned.prices;
    };
    expect(pricesOf()).toEqual([900, 600, 300, 200, 0]);
    expect(pricesOf('battery.modules=1')).toEqual([1, 600, 300, 200, 0]);
    expect(plan({ vary: ['battery.modules=2,3'] }).prices).toEqual([0]);
  });

  it('refuses to pay for a number twice', () => {
    expect(
      problems({
        vary: ['battery.modules=1,2', 'alternative=more modules'],
        prices: ['battery.modules=900'],
      }),
    ).toMatchInlineSnapshot(`
      [
        "--vary 'alternative': sweep: found 'more modules', which changes battery.modules at a price of its own; expected either it or battery.modules",
      ]
    `);
    expect(problems({ vary: ['battery.modules=1,2', 'alternative=more modules'] })).toEqual([]);
  });

  it('says what is wrong with what was asked', () => {
    expect(
      problems({ vary: ['battery.modules=1:4:1'], prices: ['battery.modules=x', 'tank=3'] }),
    ).toMatchInlineSnapshot(`
      [
        "--price 'battery.modules=x': sweep: found 'x'; expected a price of one more: 'battery.modules=1600'",
        "--price 'tank=3': sweep: found 'tank'; expected a number that is varied, and that the site as filed has",
      ]
    `);
    expect(
      problems({ vary: ['battery.modules=1:1000:1', 'generator.ratedKw=1:1000:1'] }),
    ).toMatchInlineSnapshot(`
      [
        "--vary: sweep: found 1000000 variants; expected at most 200000, or a sample: --sample 500",
      ]
    `);
    expect(
      plan({ vary: ['battery.modules=1:1000:1', 'generator.ratedKw=1:1000:1'], sample: 20 }).cells,
    ).toHaveLength(20);
  });
});

describe('a sweep', () => {
  const vary = ['battery.modules=1:4:1', 'control.charge.startSoc=0.2,0.3,0.4,0.85', 'arrays.roof.kWp=2,4'];
  const prices = ['battery.modules=900', 'arrays.roof.kWp=700'];
  const evaluator = makeEvaluator(small());
  const kept = (text: string | null = null) => {
    const file = { text: text ?? '' };
    const write = (more: string, how: 'append' | 'replace') => {
      file.text = how === 'replace' ? more : file.text + more;
    };
    const zero = { inputsHash: 'x', version: '0', filed: {} as never };
    return { file, keeper: new KeptOutcomes(text, zero, write, () => 0) };
  };

  it('finds the best that running every variant by itself finds', async () => {
    const planned = plan({ vary, prices });
    const attempts = await runCells(planned, evaluator.tryEach, kept().keeper, () => {});
    const cells = planned.cells.map((at, i) => cellOf(at, attempts[i]));
    const [asFiled] = await evaluator.evaluate([{}]);
    const best = bestCell(cells, asFiled.unservedKwh);

    // by another way: each variant written into the site file as an alternative
    let least = { cost: Number.POSITIVE_INFINITY, at: [] as number[] };
    for (const [i, modules] of [1, 2, 3, 4].entries())
      for (const [j, soc] of [0.2, 0.3, 0.4, 0.85].entries())
        for (const [k, kWp] of [2, 4].entries()) {
          const capital = 900 * (modules - 2) + 700 * (kWp - 3);
          const changes = `{ battery.modules: ${modules}, control.charge.startSoc: ${soc}, arrays.roof.kWp: ${kWp} }`;
          const site = SMALL_SITE.slice(0, SMALL_SITE.indexOf('alternatives:'));
          const text = `${site}alternatives: [{ name: it, capital: ${capital}, changes: ${changes} }]\n`;
          const { study } = runStudy({ ...small(text), version: '0' });
          // a start above the stop contradicts itself
          expect(study === null).toBe(soc === 0.85);
          if (study === null) continue;
          const { money, ledger } = study.alternatives[1];
          if (ledger.totals.unservedKwh > asFiled.unservedKwh + 1e-3) continue;
          if (money.lifeCycleCost < least.cost) least = { cost: money.lifeCycleCost, at: [i, j, k] };
        }
    expect(best).not.toBeNull();
    expect(cells[best!].at).toEqual(least.at);
    expect(cells[best!].outcome?.lifeCycleCost).toBe(least.cost);
    const wrong = cells.filter(({ outcome }) => outcome === null);
    expect(wrong).toHaveLength(8);
    expect(wrong[0].problems).toEqual(['control.charge.stopSoc: found 0.8; expected above startSoc, 0.85']);
  });

  it('runs only what was not kept, and gives the same', async () => {
    const planned = plan({ vary, prices });
    const whole = kept();
    const attempts = await runCells(planned, evaluator.tryEach, whole.keeper, () => {});
    const half = `${whole.file.text.split('\n').slice(0, 15).join('\n')}\n`;
    const again = kept(half);
    expect(again.keeper.before).toBe(14);
    let ran = 0;
    const counting: typeof evaluator.tryEach = (variants, stepMin, onDone) => {
      ran = variants.length;
      return evaluator.tryEach(variants, stepMin, onDone);
    };
    const told: number[] = [];
    expect(await runCells(planned, counting, again.keeper, (done) => told.push(done))).toEqual(attempts);
    expect(ran).toBe(32 - 14);
    expect(told).toEqual(Array.from({ length: 19 }, (_, i) => i));
    expect(again.file.text.split('\n')).toHaveLength(whole.file.text.split('\n').length);
  });

  it('takes what was kept of a coarser grid into a finer one', async () => {
    const first = kept();
    await runCells(plan({ vary: ['battery.modules=2:4:2'] }), evaluator.tryEach, first.keeper, () => {});
    const second = kept(first.file.text);
    let ran = 0;
    await runCells(
      plan({ vary: ['battery.modules=2:4:1'] }),
      (variants, ...rest) => {
        ran = variants.length;
        return evaluator.tryEach(variants, ...rest);
      },
      second.keeper,
      () => {},
    );
    expect(ran).toBe(1);
  });
});

describe('bestCell', () => {
  const cell = (lifeCycleCost: number, unservedKwh: number) => ({
    at: [0],
    outcome: { lifeCycleCost, unservedKwh } as never,
    problems: [],
  });

  it('is the cheapest that serves enough, the first of equals, or none', () => {
    const wrong = { at: [0], outcome: null, problems: ['x'] };
    expect(bestCell([wrong, cell(5, 2), cell(7, 0), cell(6, 1), cell(6, 0.5)], 1)).toBe(3);
    expect(bestCell([cell(5, 2), cell(4, 3)], 1)).toBeNull();
    expect(bestCell([], 1)).toBeNull();
    expect(servesEnough({ unservedKwh: 1.0005 } as never, 1)).toBe(true);
    expect(servesEnough({ unservedKwh: 1.002 } as never, 1)).toBe(false);
  });
});
