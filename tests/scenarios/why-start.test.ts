/**
 * Claims about what would have avoided a start, checked by running the site again from its file with the same change
 * as an alternative, and with one unit less; windows and counts are worked out here a second time.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Rerunner } from '../../src/scenarios/rerun.ts';
import type { AlternativeResult } from '../../src/scenarios/study.ts';
import { startStories, startStory, typicalRun } from '../../src/scenarios/why-start.ts';
import { loadMoved } from '../../src/scenarios/why-start-block.ts';
import { candidatesFor } from '../../src/scenarios/why-start-candidates.ts';
import type { Remedy } from '../../src/scenarios/why-start-remedies.ts';
import { stateAtStart } from '../../src/scenarios/why-start-state.ts';
import type { GeneratorRun } from '../../src/sim/ledger.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { type Changes, type ColdFarm, runFarm } from './cold-farm.ts';

const anyFarm: fc.Arbitrary<ColdFarm> = fc.record({
  seed: fc.integer({ min: 0, max: 1e6 }).map(String),
  modules: fc.integer({ min: 1, max: 6 }),
  kWp: fc.integer({ min: 2, max: 8 }).map((half) => half / 2),
  startSoc: fc.integer({ min: 20, max: 50 }).map((percent) => percent / 100),
  peakKw: fc.option(fc.integer({ min: 15, max: 28 }).map((tenths) => tenths / 10)),
  airC: fc.integer({ min: -8, max: 30 }),
  heater: fc.boolean(),
  cooler: fc.boolean(),
});

/** The same kind of change with another amount, written anew from the site's values. */
function changesWith(farm: ColdFarm, { kind }: Remedy, value: number): Changes {
  if (kind === 'startSoc') return { 'control.charge.startSoc': value };
  if (kind === 'peakKw') return { 'control.peak.startKw': value };
  if (kind === 'modules') return { 'battery.modules': value, 'cabinet.batteryKjPerK': 40 * value };
  if (kind === 'ratedKva') {
    const more: Changes = { 'inverter.ratedKva': value, 'inverter.idleW': round(30 * (value / 4)) };
    if (farm.peakKw !== null) more['control.peak.startKw'] = round(farm.peakKw * (value / 4));
    return more;
  }
  if (kind !== 'kWp') throw new Error(`no amounts of ${kind}`);
  const times = value / (farm.kWp + 1);
  return {
    'arrays.roof.kWp': round(farm.kWp * times),
    'arrays.roof.controllerA': round(10 * times),
    'arrays.wall.kWp': round(times),
    'arrays.wall.inverterKw': round(0.8 * times),
  };
}

function round(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

/** What became of run `i`, by the rule that the report states. */
function became(before: GeneratorRun[], i: number, after: GeneratorRun[], endH: number): string {
  const { startH } = before[i];
  const middles = before.map((run, k) => ((k === 0 ? 0 : before[k - 1].endH) + run.startH) / 2);
  middles.push(((before.at(-1)?.endH ?? 0) + endH) / 2);
  const [from, to] = [Math.max(startH - 6, middles[i]), Math.min(startH + 6, middles[i + 1])];
  for (const run of after) {
    if (run.startH >= from && run.startH <= to) return 'stays';
    if (run.startH < startH && startH < run.endH) return 'stays';
  }
  // starts within two days, and on to the middle of the standstill there, at most a day further
  let first = i;
  while (first > 0 && before[first - 1].startH >= startH - 48) first--;
  let last = i;
  while (last + 1 < before.length && before[last + 1].startH <= startH + 48) last++;
  const lower = Math.max(startH - 72, first === 0 ? 0 : middles[first]);
  const upper = Math.min(startH + 72, last === before.length - 1 ? endH : middles[last + 1]);
  const count = (runs: GeneratorRun[]) => runs.filter((r) => r.startH >= lower && r.startH < upper).length;
  return count(after) < count(before) ? 'gone' : 'moved';
}

/** As good as another outcome for a search: one that goes is at least moved. */
const atLeast = (found: string, wanted: string) => found === 'gone' || found === wanted;

describe('what would have avoided a start', () => {
  it('is true of the site run again from its file, and not of one unit less', () => {
    const told: Record<string, number> = {};
    fc.assert(
      fc.property(anyFarm, (farm) => {
        const { study, again } = runFarm(farm);
        if (!study || !again) throw new Error('no study');
        const [result] = study.alternatives;
        const { runs } = result.ledger;
        const stories = startStories(new Rerunner(again.alternatives[0].site, result, again.maker));
        const claims = stories.flatMap(({ run, remedies }) => remedies.map((remedy) => ({ run, remedy })));
        const sized = claims.filter(({ remedy }) => remedy.kind !== 'block');
        const lesser = sized.filter(({ remedy }) => remedy.outcome !== 'stays' && hasLess(remedy));
        const rerun = runFarm(farm, [
          ...sized.map(({ remedy }, k) => ({ name: `claim ${k}`, changes: remedy.changes })),
          ...lesser.map(({ remedy }, k) => ({
            name: `less ${k}`,
            changes: changesWith(farm, remedy, oneLess(remedy)),
          })),
        ]).study?.alternatives;
        const named = (name: string) => rerun?.find((each) => each.name === name) as AlternativeResult;
        for (const [k, { run, remedy }] of sized.entries()) {
          const { ledger } = named(`claim ${k}`);
          expect(became(runs, run, ledger.runs, 240)).toBe(remedy.outcome);
          expect(remedy.whole?.starts).toBe(ledger.totals.starts);
          expect(remedy.whole?.fuelL).toBe(ledger.totals.fuelL);
          expect(remedy.whole?.unservedKwh).toBe(ledger.totals.unservedKwh);
          told[`${remedy.kind} ${remedy.outcome}`] = (told[`${remedy.kind} ${remedy.outcome}`] ?? 0) + 1;
        }
        for (const [k, { run, remedy }] of lesser.entries()) {
          const found = became(runs, run, named(`less ${k}`).ledger.runs, 240);
          expect(atLeast(found, remedy.outcome)).toBe(false);
          told.lesser = (told.lesser ?? 0) + 1;
        }
      }),
      { numRuns: 60 },
    );
    // enough of each was claimed for the claims to be worth checking
    for (const kind of ['startSoc', 'modules', 'kWp', 'peakKw', 'ratedKva'])
      expect(told[`${kind} gone`] ?? 0, kind).toBeGreaterThan(2);
    expect(told.lesser).toBeGreaterThan(50);
    expect(Object.keys(told).some((key) => key.endsWith('moved'))).toBe(true);
  }, 60_000);

  it('of a day’s load used later: that load is moved, nothing else, and the start goes as said', () => {
    let told = 0;
    fc.assert(
      fc.property(anyFarm, (farm) => {
        const { study, again } = runFarm(farm);
        if (!study || !again) throw new Error('no study');
        const [{ plant, controls, inputs, ledger }] = study.alternatives;
        const rerunner = new Rerunner(again.alternatives[0].site, study.alternatives[0], again.maker);
        for (const { run, remedies } of startStories(rerunner))
          for (const { block, to, unit, outcome } of remedies) {
            if (block === null) continue;
            const length = block.toStep - block.fromStep;
            const runsWith = (share: number) => {
              const kw = inputs.loadKw[0].slice();
              let kwh = 0;
              for (let i = 0; i < length; i++) {
                const part = share * inputs.loadKw[0][block.fromStep + i];
                kw[block.fromStep + i] -= part;
                kw[block.intoStep + i] += part;
                kwh += part / 2;
              }
              const runs = simulate(plant, controls, { ...inputs, loadKw: [kw] }).runs;
              return { became: became(ledger.runs, run, runs, 240), kwh };
            };
            expect(runsWith(to).kwh).toBeCloseTo(block.kwh, 9);
            expect(runsWith(to).became).toBe(outcome);
            if (outcome === 'stays') continue;
            told++;
            if (to > unit + 1e-9) expect(atLeast(runsWith(to - unit).became, outcome)).toBe(false);
          }
      }),
      { numRuns: 60 },
    );
    expect(told).toBeGreaterThan(20);
  }, 60_000);
});

describe('a generator that is set to run always', () => {
  it('is told what it does without, and nothing of sizes', () => {
    const farm: ColdFarm = {
      ...{ seed: 'always', modules: 4, kWp: 3, startSoc: 0.3, peakKw: null, airC: 5 },
      ...{ heater: false, cooler: false },
    };
    const changes = { 'control.continuous': true, 'control.charge': null, 'control.minRunMin': 30 };
    const { study, again } = runFarm(farm, [
      { name: 'always', changes },
      { name: 'not always', changes: { ...changes, 'control.continuous': false } },
    ]);
    if (!study || !again) throw new Error('no study');
    const [, always, never] = study.alternatives;
    expect(always.ledger.runs.map(({ cause }) => cause)).toEqual(['continuous']);
    const rerunner = new Rerunner(again.alternatives[1].site, always, again.maker);
    const { remedies } = startStory(rerunner, 0, ['asked']);
    expect(remedies).toHaveLength(1);
    expect(remedies[0]).toMatchObject({ kind: 'notAlways', outcome: 'gone', block: null });
    expect(remedies[0].whole?.starts).toBe(0);
    expect(remedies[0].whole?.unservedKwh).toBe(never.ledger.totals.unservedKwh);
  });
});

/** One unit less is another site only where it is not the site as filed. */
function hasLess({ from, to, unit, kind }: Remedy): boolean {
  return kind !== 'heater' && kind !== 'cooler' && Math.abs(to - from) > 1.5 * unit;
}

function oneLess({ from, to, unit }: Remedy): number {
  return round(to > from ? to - unit : to + unit);
}

describe('load used at another time', () => {
  it('keeps its energy and its shape', () => {
    const load = [Float64Array.from([1, 2, 3, 4, 5, 6]), Float64Array.from([9, 9, 9, 9, 9, 9])];
    const block = { fromStep: 1, toStep: 3, intoStep: 4, kwh: 5, phases: [0] };
    const [moved, other] = loadMoved(load, block, 0.5);
    expect([...moved]).toEqual([1, 1, 1.5, 4, 6, 7.5]);
    expect(other).toBe(load[1]);
    expect([...load[0]]).toEqual([1, 2, 3, 4, 5, 6]);
  });
});

describe('the state that led to a start', () => {
  const farm: ColdFarm = {
    ...{ seed: 'state', modules: 3, kWp: 2, startSoc: 0.35, peakKw: 2.2, airC: -3 },
    ...{ heater: true, cooler: false },
  };
  const { study, again } = runFarm(farm);
  if (!study || !again) throw new Error('no study');
  const [result] = study.alternatives;
  const { runs } = result.ledger;
  const rerunner = new Rerunner(again.alternatives[0].site, result, again.maker);

  it('reads how long the battery was low from the steps before', () => {
    const charges = runs.flatMap(({ cause }, i) => (cause === 'charge' ? [i] : []));
    expect(charges.length).toBeGreaterThan(2);
    for (const i of charges) {
      const { state } = startStory(rerunner, i, ['asked']);
      const askedH = runs[i].startH - 20 / 3600;
      expect(state.step).toBe(Math.floor(askedH * 2 + 1e-9));
      const low = (state.lowForH ?? -1) * 2;
      expect(low).toBeGreaterThanOrEqual(1);
      for (let k = 1; k <= low; k++)
        expect(result.columns.socFrac[state.step - k]).toBeLessThanOrEqual(farm.startSoc);
      expect(result.columns.socFrac[state.step - low - 1]).toBeGreaterThan(farm.startSoc);
      expect(state.cellC).toBe(result.columns.cellC[state.step - 1]);
    }
  });

  it('says what the load was above, for a start on a high load', () => {
    const peaks = runs.flatMap(({ cause }, i) => (cause === 'peak' ? [i] : []));
    expect(peaks.length).toBeGreaterThan(1);
    for (const i of peaks) {
      const { state } = startStory(rerunner, i, ['asked']);
      const needKw = state.loadKw[0] - state.acArrayKw[0];
      expect(state.excess).toBe(needKw > 4 * 0.9 ? 'inverters' : 'threshold');
      expect(needKw).toBeGreaterThan(2.2);
      expect(state.phases).toEqual([0]);
    }
  });

  it('counts inverter units that are out of service, and goes by a calendar’s thresholds', () => {
    const i = runs.findIndex(({ cause }) => cause === 'peak');
    const full = stateAtStart(result, i);
    const inputs = {
      ...result.inputs,
      unitsOut: [new Uint8Array(480).fill(1)],
      thresholdSet: new Uint8Array(480).fill(1),
    };
    const sets = [{ startSoc: 0.5, stopSoc: 0.9, urgentSoc: 0.2, peakStartKw: 3.6, peakStopKw: 1 }];
    const inverter = { ...result.plant.inverter, units: 3 };
    const other: AlternativeResult = {
      ...result,
      inputs,
      plant: { ...result.plant, inverter },
      controls: { ...result.controls, sets },
    };
    const state = stateAtStart(other, i);
    expect(state.inverterLimitKw[0]).toBeCloseTo((full.inverterLimitKw[0] * 2) / 3, 9);
    expect(state.thresholds).toMatchObject({ peakStartKw: 3.6, byCalendar: true });
    const kinds = (at: typeof state) =>
      candidatesFor(again.alternatives[0].site, result, 'peak', at).map(({ kind }) => kind);
    expect(kinds(full)).toContain('peakKw');
    expect(kinds(state)).not.toContain('peakKw');
  });

  it('sums the three days before, and compares them with all', () => {
    const i = runs.findIndex(({ startH }) => startH > 100);
    const { state } = startStory(rerunner, i, ['asked']);
    let kwh = 0;
    for (let k = state.step - 144; k < state.step; k++) kwh += result.inputs.loadKw[0][k] / 2;
    expect(state.daysBefore).toBe(3);
    expect(state.loadKwhADay).toBeCloseTo(kwh / 3, 9);
    expect(state.usualLoadKwhADay).toBeCloseTo(result.ledger.totals.loadKwh / 10, 1);
    expect(state.sinceRunH).toBeCloseTo(runs[i].startH - runs[i - 1].endH, 9);
  });

  it('looks at the longest run, the first of the dark week and one of each cause', () => {
    const stories = startStories(rerunner);
    const of = (why: string) => stories.find(({ chosenFor }) => chosenFor.some((each) => each === why))?.run;
    const longest = Math.max(...runs.map(({ startH, endH }) => endH - startH));
    const run = runs[of('longest') ?? -1];
    expect(run.endH - run.startH).toBe(longest);
    const week = (result.darkWeek?.fromStep ?? 0) / 2;
    expect(of('first of the dark week')).toBe(runs.findIndex(({ startH }) => startH >= week));
    for (const cause of ['charge', 'peak'])
      expect(
        stories.some((story) => story.chosenFor.includes('typical') && runs[story.run].cause === cause),
      ).toBe(true);
  });
});

describe('the most typical run', () => {
  it('lies in the middle of its cause, and is none where nothing ran', () => {
    const run = (startH: number, hours: number, kwh: number, cause = 'charge') => ({
      ...{ startH, endH: startH + hours, kwh, cause },
    });
    const ledger = {
      runs: [run(6, 1, 5), run(31, 2, 9), run(56, 2.2, 10), run(79, 8, 40), run(100, 2, 9, 'peak')],
    };
    const result = { ledger } as unknown as AlternativeResult;
    expect(typicalRun(result, 'charge')).toBe(1);
    expect(typicalRun(result, 'peak')).toBe(4);
    expect(typicalRun(result, 'continuous')).toBe(-1);
  });
});
