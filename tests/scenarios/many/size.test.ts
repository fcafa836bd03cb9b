/** Sizes weighed against each other, against every choice run at the finest step. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { issueSentence } from '../../../src/scenarios/issue.ts';
import { type Catalogue, readCatalogue } from '../../../src/scenarios/many/catalogue.ts';
import { type Evaluate, makeEvaluator } from '../../../src/scenarios/many/evaluate.ts';
import { brokenLimits } from '../../../src/scenarios/many/limits.ts';
import type { Outcome } from '../../../src/scenarios/many/outcome.ts';
import { onLine } from '../../../src/scenarios/many/prices.ts';
import { findSizes, type SizeFindings, type SizeRequest } from '../../../src/scenarios/many/size.ts';
import { sizeChanges } from '../../../src/scenarios/many/size-changes.ts';
import { allSizes, sizeLists, sizeOf } from '../../../src/scenarios/many/sizes.ts';
import { byTheYear } from '../../../src/scenarios/many/year-outcome.ts';
import { uniformPresentValue } from '../../../src/scenarios/present-value.ts';
import { prepareStudy } from '../../../src/scenarios/run-study.ts';
import { farmByHours } from './small-requests.ts';
import { HUT, requestOf, siteOf } from './tune-sites.ts';

const FILE = 'profiles/equipment/catalogue.yaml';

function catalogueOf(yaml = readFileSync(FILE, 'utf8')): Catalogue {
  const { catalogue, issues } = readCatalogue(yaml, FILE);
  if (catalogue === null) throw new Error(issues.map(issueSentence).join('; '));
  return catalogue;
}

function farm() {
  const request = farmByHours();
  const { alternatives } = prepareStudy({ ...request, version: '' }, request.readFile);
  if (alternatives === null) throw new Error('the farm is broken');
  return { request, alternatives, site: alternatives[0].site };
}

describe('catalogue', () => {
  it('says that it is invented, and its prices rise with size', () => {
    const catalogue = catalogueOf();
    expect(catalogue.invented).toBe(true);
    for (const phases of [1, 3]) {
      const sets = catalogue.generators.filter((set) => set.phases === phases);
      expect(sets.length).toBeGreaterThan(2);
      for (const [i, set] of sets.entries()) {
        expect(set.fuel[set.fuel.length - 1].kW).toBe(set.ratedKw);
        // litres per kWh at full load, common practice for small diesels: 0.28 to 0.45
        const perKwh = set.fuel[set.fuel.length - 1].lPerH / set.ratedKw;
        expect(perKwh).toBeGreaterThan(0.28);
        expect(perKwh).toBeLessThan(0.45);
        if (i > 0) expect(set.price).toBeGreaterThan(sets[i - 1].price);
      }
    }
  });

  it('is refused with every problem and its line', () => {
    const wrong = readFileSync(FILE, 'utf8')
      .replace('perKwh: 350', 'perKwh: dear')
      .replace('ratedKva: 3,', 'ratedKva: -3,')
      .replace('currency: $', 'currency: $\ncolour: red');
    const { catalogue, issues } = readCatalogue(wrong, FILE);
    expect(catalogue).toBeNull();
    expect(issues.map(({ path }) => path).sort()).toEqual([
      'battery.perKwh',
      'colour',
      'inverters.0.ratedKva',
    ]);
    const lines = wrong.split('\n');
    for (const { path, at } of issues) {
      const word = path.split('.').at(-1) ?? '';
      expect(lines[(at.line ?? 0) - 1]).toContain(word);
    }
  });

  it('may not have the same size twice', () => {
    const twice = readFileSync(FILE, 'utf8').replace('ratedKva: 5,', 'ratedKva: 3,');
    const { issues } = readCatalogue(twice, FILE);
    expect(issues.map(issueSentence)).toEqual([
      expect.stringContaining('inverters.1: found a second one of 3 kVA; expected one of each size'),
    ]);
    expect(twice.split('\n')[(issues[0].at.line ?? 0) - 1]).toContain('price: 3300');
  });
});

describe('what goes with a size', () => {
  it('is nothing for the sizes that the site has', () => {
    const { site } = farm();
    expect(sizeChanges(sizeOf(site), site, catalogueOf())).toEqual({});
  });

  it('is for twice the battery what the farm lists for its second cabinet, to the last figure', async () => {
    const { request, alternatives, site } = farm();
    const [, twice] = alternatives;
    expect(twice.name).toBe('24 modules');
    const changes = sizeChanges({ ...sizeOf(site), modules: 24 }, site, catalogueOf());
    const listed = Object.fromEntries(twice.changes.map(({ path, to }) => [path, to]));
    expect(changes).toEqual({ ...listed, 'money.capital': 92_000 + 21_000 });
    const { evaluate } = makeEvaluator(request);
    const [a, b] = await evaluate([changes, { ...listed, 'money.capital': 113_000 }]);
    expect(a).toEqual(b);
  });

  it('is for the larger generator the fuel curve that the farm lists, and a dearer visit', () => {
    const { alternatives, site } = farm();
    const bigger = alternatives.find(({ name }) => name === '30 kW generator');
    const changes = sizeChanges({ ...sizeOf(site), generatorKw: 30 }, site, catalogueOf());
    for (const { path, to } of bigger?.changes ?? []) expect(changes[path]).toEqual(to);
    expect(changes['money.capital']).toBe(92_000 + (bigger?.capital ?? 0));
    expect(changes['money.serviceCost']).toBe(420 + 480 - 420);
    expect(changes['money.overhaulCost']).toBe(9000 + 11_000 - 9000);
  });

  it('moves chargers, limits and peak thresholds with the inverters', () => {
    const { site } = farm();
    expect(sizeChanges({ ...sizeOf(site), inverterKva: 10 }, site, catalogueOf())).toEqual({
      'inverter.ratedKva': 10,
      'inverter.chargerKw': 7.5,
      'inverter.acInputA': 62.5,
      'inverter.idleW': 37.5,
      'control.peak.startKw': 7.25,
      'control.peak.stopKw': 5.25,
      'money.capital': 92_000 + 3 * (6000 - 4900),
    });
  });

  it('adds whole strings to an array, with what they are connected to', () => {
    const { site } = farm();
    const catalogue = catalogueOf();
    const lists = sizeLists(site, catalogue, { arrayKwp: [26, 30] });
    // eight strings of 16 kWp and four of 8 kWp: 26 kWp is nine and four, 30 kWp ten and five
    expect(lists.arrays.map(({ arrayKwp }) => arrayKwp)).toEqual([24, 26, 30]);
    const [, , bigger] = lists.arrays;
    expect(sizeChanges({ ...sizeOf(site), ...bigger }, site, catalogue)).toEqual({
      'arrays.0.kWp': 20,
      'arrays.0.controllerA': 375,
      'arrays.0.strings.strings': 10,
      'arrays.0.controller.maxInputA': 187.5,
      'arrays.0.controller.ratedKw': 25,
      'arrays.1.kWp': 10,
      'arrays.1.controllerA': 175,
      'arrays.1.strings.strings': 5,
      'arrays.1.controller.maxInputA': 93.75,
      'arrays.1.controller.ratedKw': 12.5,
      'money.capital': 92_000 + 6 * 950,
    });
  });

  it('is priced by the site where it has prices of its own, and whole where it states no capital', () => {
    const { site } = farm();
    const own = { ...site, prices: { perModule: 1000, perGeneratorKw: 100 } };
    const size = { ...sizeOf(site), modules: 13, generatorKw: 30 };
    expect(sizeChanges(size, own, catalogueOf())['money.capital']).toBe(92_000 + 1000 + 1000);
    const unpriced = { ...site, money: { ...site.money, capital: 0 } };
    // generator, inverters, battery, arrays
    const whole = 14_600 + 3 * 4900 + 12 * 5 * 350 + 24 * 950;
    expect(sizeChanges(sizeOf(site), unpriced, catalogueOf())['money.capital']).toBe(whole);
  });

  it('is priced on the line through the catalogue', () => {
    const points = [
      [10, 100],
      [20, 300],
      [40, 500],
    ] as const;
    expect([10, 15, 30, 60, 5].map((x) => onLine(points, x))).toEqual([100, 200, 400, 700, 0]);
    expect(onLine([[5, 7]], 100)).toBe(7);
  });
});

const SMALL_CATALOGUE = `
currency: $
generators:
  - { ratedKw: 3, phases: 1, price: 3600, service: 260, overhaul: 2600, fuel: [{ kW: 0.75, lPerH: 0.65 }, { kW: 3, lPerH: 1.3 }] }
  - { ratedKw: 8, phases: 1, price: 7400, service: 310, overhaul: 4600, fuel: [{ kW: 2, lPerH: 1.2 }, { kW: 8, lPerH: 2.8 }] }
inverters: [{ ratedKva: 1.5, price: 1500 }, { ratedKva: 3, price: 2300 }, { ratedKva: 8, price: 4900 }]
battery: { perKwh: 350, times: [0.34, 0.67, 1.67, 3] }
array: { perKwp: 950, times: [0.5, 1.5, 3] }
`;

describe('sizes found', () => {
  // load and sky are read at twenty minutes as they are at sixty, so that a coarse step ranks well
  const text = HUT.replace('stepMin: 60', 'stepMin: 20');
  const site = siteOf(text);
  const catalogue = catalogueOf(SMALL_CATALOGUE);
  const request = (evaluate: Evaluate): SizeRequest => ({
    ...{ site, base: {}, evaluate, stepMin: 20, catalogue, asked: {}, limits: {} },
  });
  const sizes = allSizes(sizeLists(site, catalogue, {}));
  let found: SizeFindings;
  let all: Outcome[];

  beforeAll(async () => {
    const { evaluate } = makeEvaluator(requestOf(text));
    found = await findSizes(request(evaluate));
    all = await byTheYear(evaluate, 60)(sizes.map((size) => sizeChanges(size, site, catalogue)));
  }, 60_000);

  it('looks coarsely first, and finely at what could be best', () => {
    expect(found.effort.choices).toBe(3 * 4 * 5 * 4);
    expect(found.effort.trials.some(({ isUsed }) => isUsed)).toBe(true);
    expect(found.effort.fineRuns).toBeLessThan(sizes.length / 2);
    expect(found.effort.coarseRuns).toBeGreaterThan(sizes.length);
  });

  it('names the cheapest of all that keep the limits', () => {
    const good = all.filter((outcome) => brokenLimits(outcome, found.limits.limits).length === 0);
    expect(good.length).toBeLessThan(all.length);
    const least = Math.min(...good.map(({ lifeCycleCost }) => lifeCycleCost));
    expect(found.cheapest?.outcome.lifeCycleCost).toBe(least);
    expect(least).toBeLessThan(found.own.outcome.lifeCycleCost);
  });

  it('has nothing on the frontiers that another choice beats, and leaves nothing out', () => {
    const annuity = uniformPresentValue(site.money.discountRate, site.money.years);
    const good = all.filter((outcome) => brokenLimits(outcome, found.limits.limits).length === 0);
    const later = (outcome: Outcome) => (outcome.lifeCycleCost - outcome.capital) / annuity;
    const unbeaten = good.filter(
      (one) => !good.some((other) => beats([other.capital, later(other)], [one.capital, later(one)])),
    );
    expect(found.frontier.map(({ outcome }) => outcome.capital)).toEqual(
      [...new Set(unbeaten.map(({ capital }) => capital))].sort((a, b) => a - b),
    );
    for (const { outcome, yearlyCost } of found.frontier) expect(yearlyCost).toBeCloseTo(later(outcome), 9);
    for (const { mostCapital, sizes: onIt } of found.fuelFrontiers) {
      const within = all.filter(({ capital }) => mostCapital === null || capital <= mostCapital);
      const best = within.filter(
        (one) =>
          !within.some((other) => beats([other.unservedKwh, other.fuelL], [one.unservedKwh, one.fuelL])),
      );
      const points = new Set(best.map(({ unservedKwh, fuelL }) => `${unservedKwh} ${fuelL}`));
      expect(new Set(onIt.map(({ outcome }) => `${outcome.unservedKwh} ${outcome.fuelL}`))).toEqual(points);
    }
  });

  it('shows the designer’s own choice as the site has it', async () => {
    const { evaluate } = makeEvaluator(requestOf(text));
    const [own] = await byTheYear(evaluate, 60)([{}]);
    // it states no capital: that is the catalogue's, and comes on top of what is paid later
    const { capital, lifeCycleCost, levelised, ...rest } = found.own.outcome;
    expect(own).toMatchObject(rest);
    expect(lifeCycleCost - capital).toBeCloseTo(own.lifeCycleCost, 6);
    expect(levelised).toBeGreaterThan(own.levelised ?? 0);
    expect(found.own.size).toMatchObject({ generatorKw: 5, inverterKva: 5, modules: 3, arrayKwp: 3 });
  });

  it('shows all choices only where they are few', async () => {
    expect(found.all).toBeNull();
    const { evaluate } = makeEvaluator(requestOf(text));
    const asked = { generatorKw: [8], inverterKva: [5], modules: [3, 5], arrayKwp: [3] };
    const few = await findSizes({ ...request(evaluate), asked });
    const places = few.all?.map(({ size }) => [size.generatorKw, size.modules]);
    expect(places).toEqual([
      [5, 3],
      [8, 3],
      [5, 5],
      [8, 5],
    ]);
  });

  it('is the same whoever evaluates in whatever portions', async () => {
    const { evaluate } = makeEvaluator(requestOf(text));
    const inPortions: Evaluate = async (variants, stepMin) => {
      const half = Math.ceil(variants.length / 2);
      const second = await evaluate(variants.slice(half), stepMin);
      return [...(await evaluate(variants.slice(0, half), stepMin)), ...second];
    };
    expect(await findSizes(request(inPortions))).toEqual(found);
  });
});

function beats(a: readonly number[], b: readonly number[]): boolean {
  return a.every((value, i) => value <= b[i]) && a.some((value, i) => value < b[i]);
}
