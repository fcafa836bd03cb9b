import { parseHTML } from 'linkedom';
import { beforeAll, describe, expect, it } from 'vitest';
import { climateSentences } from '../../src/report/climate-words.ts';
import { coldWeekTitle, withAndWithout } from '../../src/report/cold-week-title.ts';
import { studyJson } from '../../src/report/json.ts';
import { reportPage } from '../../src/report/page.ts';
import { makeView, type StudyView } from '../../src/report/view.ts';
import { startWords } from '../../src/report/why-start.ts';
import type { ClimateRow } from '../../src/scenarios/climate-decision.ts';
import { Rerunner } from '../../src/scenarios/rerun.ts';
import type { AlternativeResult, Study } from '../../src/scenarios/study.ts';
import { withStories } from '../../src/scenarios/study-stories.ts';
import { type StartStory, startStories } from '../../src/scenarios/why-start.ts';
import type { Remedy } from '../../src/scenarios/why-start-remedies.ts';
import { type ColdFarm, runFarm } from '../scenarios/cold-farm.ts';

const FARM: ColdFarm = {
  ...{ seed: 'told', modules: 3, kWp: 3, startSoc: 0.35, peakKw: 2.2, airC: -7 },
  ...{ heater: true, cooler: false },
};

let study: Study;
let view: StudyView;
let result: AlternativeResult;

beforeAll(() => {
  const plain = runFarm(FARM, [
    { name: 'four modules', changes: { 'battery.modules': 4 } },
    { name: 'no heater', changes: { 'cabinet.heater': null } },
  ]);
  if (!plain.study || !plain.again) throw new Error('no study');
  study = withStories(plain.study, plain.again);
  view = makeView(study);
  result = study.alternatives[0];
});

function remedy(more: Partial<Remedy>): Remedy {
  return {
    ...{ kind: 'modules' as const, outcome: 'gone' as const, from: 3, to: 6, unit: 1, changes: {} },
    ...{ movedToH: null, causeThen: null, whole: { starts: 7, fuelL: 40, unservedKwh: 0 }, block: null },
    ...more,
  };
}

/** What is said of a start with these remedies alone. */
function said(...remedies: Remedy[]): string[] {
  const [story] = result.startStories as StartStory[];
  return startWords(view, result, { ...story, remedies }).remedies;
}

describe('what would have avoided a start, in words', () => {
  it('says what goes, what one unit less does, and what the whole time comes to', () => {
    const { starts, fuelL } = result.ledger.totals;
    expect(said(remedy({}))).toEqual([
      `6 battery modules instead of 3 would have avoided it (5 would not); the whole time then has 7 starts and 40 L instead of ${starts} and ${fuelL.toFixed(0)} L.`,
    ]);
    expect(said(remedy({ to: 4 }))[0]).toContain('4 battery modules instead of 3 would have avoided it; ');
    expect(said(remedy({ kind: 'startSoc', from: 0.35, to: 0.29, unit: 0.01 }))[0]).toContain(
      'A start at 29 % instead of 35 % would have avoided it (30 % would not)',
    );
  });

  it('says what goes unserved for it', () => {
    expect(said(remedy({ whole: { starts: 7, fuelL: 40, unservedKwh: 123 } }))[0]).toMatch(
      /, but 123 kWh of load goes unserved instead of /,
    );
  });

  it('says where it only moves, and what does nothing', () => {
    const [moved, not] = said(
      remedy({ kind: 'peakKw', from: 2.2, to: 2.5, unit: 0.1, outcome: 'moved', movedToH: 30 }),
      remedy({ outcome: 'stays', causeThen: 'peak' }),
    );
    expect(moved).toMatch(
      /^A peak start at 2.5 kW per phase instead of 2.2 kW would only move it \(2.4 kW would not\): it would come on Thu 2 Jan, 06:00;/,
    );
    expect(not).toMatch(/^Not avoided by 6 battery modules.*, the most that was tried\.$/);
  });

  it('says so where nothing avoids it, and where nothing was tried', () => {
    expect(said(remedy({ outcome: 'stays' }), remedy({ outcome: 'stays', kind: 'kWp', to: 6 }))).toEqual([
      'Nothing that was tried avoids it: neither 6 battery modules nor 6 kWp of array.',
    ]);
    expect(said()[0]).toMatch(/^No other size or threshold was tried: it started because /);
  });

  it('names the load that is used later', () => {
    const block = { fromStep: 40, toStep: 46, intoStep: 64, kwh: 1.24, phases: [0] };
    const [sentence] = said(remedy({ kind: 'block', from: 0, to: 0.15, unit: 0.05, block, whole: null }));
    expect(sentence).toBe(
      '15 % of the load from 20:00 to 23:00 (1.2 kWh) used 12 h later would have avoided it (10 % would not).',
    );
  });
});

describe('a start by hand', () => {
  it('is told with the charge at which somebody is asked, and what would have avoided it', () => {
    const byHand = {
      'control.charge': null,
      'control.peak': null,
      'control.hand': { startSoc: 0.5, responseMin: 60, stopSoc: 0.9 },
    };
    const filed = { ...FARM, peakKw: null };
    const plain = runFarm(filed, [{ name: 'by hand', changes: byHand }]);
    if (!plain.study || !plain.again) throw new Error('no study');
    const found = startStories(
      new Rerunner(plain.again.alternatives[1].site, plain.study.alternatives[1], plain.again.maker),
    );
    expect(found.length).toBeGreaterThan(0);
    const hand = plain.study.alternatives[1];
    for (const story of found) {
      const { socStart, cause } = hand.ledger.runs[story.run];
      expect(cause).toBe('hand');
      const { why, remedies } = startWords(makeView(plain.study), hand, story);
      expect(why[0]).toBe(
        `It started because a person started it: somebody is asked at 50 %, and the battery was at ${(100 * socStart).toFixed(0)} % then.`,
      );
      expect(remedies.join(' ')).toMatch(/start at \d+ %/);
      const lower = story.remedies.find(({ kind }) => kind === 'startSoc');
      expect(Object.keys(lower?.changes ?? {})).toEqual(['control.hand.startSoc']);
      const again = runFarm(filed, [{ name: 'lower', changes: { ...byHand, ...lower?.changes } }]).study;
      const { starts, fuelL } = again?.alternatives[1].ledger.totals ?? {};
      expect([starts, fuelL]).toEqual([lower?.whole?.starts, lower?.whole?.fuelL]);
    }
  });
});

describe('a start in words', () => {
  it('tells the cause with its threshold, and the days before', () => {
    for (const story of result.startStories ?? []) {
      const { cause, litres } = result.ledger.runs[story.run];
      const { heading, why, remedies } = startWords(view, result, story);
      expect(heading).toContain(`run ${story.run + 1}, `);
      expect(heading).toMatch(litres < 9.95 ? /\d\.\d L$/ : /\d L$/);
      if (cause === 'charge') expect(why[0]).toMatch(/the 35 % at which it starts|urgent/);
      if (cause === 'peak') expect(why[0]).toMatch(/wanted \d\.\d kW of the inverters/);
      expect(why.join(' ')).toMatch(/The load was \d\.\d kW then/);
      expect(remedies.length).toBeGreaterThan(0);
      expect([heading, ...why, ...remedies].join(' ')).not.toMatch(/NaN|undefined|null|Infinity/);
    }
    const causes = new Set(result.startStories?.map(({ run }) => result.ledger.runs[run].cause));
    expect(causes).toEqual(new Set(['charge', 'peak']));
  });
});

describe('the cabinet in words', () => {
  const row: ClimateRow = {
    ...{ variant: 'as it is', changes: {}, climateKwh: 65, heaterKwh: 61, coolerKwh: 4, frostKwh: 2 },
    ...{ deratedKwh: 0, unservedKwh: 0, runH: 400, starts: 90, fuelL: 2000, coldestCellC: 3 },
    ...{ hottestCellC: 30, batteryLifeYears: 12.4, lifeCycleCost: 90_000 },
  };
  const sentencesOf = (...others: ClimateRow[]) =>
    climateSentences(view, result, { rows: [row, ...others], coldWeek: null });

  it('says what the heater takes and saves, as the two rows differ', () => {
    const without: ClimateRow = {
      ...row,
      ...{ variant: 'no heater', heaterKwh: 0, frostKwh: 591, unservedKwh: 11, runH: 900, fuelL: 2598 },
      ...{ batteryLifeYears: 13.5, lifeCycleCost: 118_000 },
    };
    expect(sentencesOf(without)).toEqual([
      'The heater takes 61 kWh in 10 days and saves 598 L and 500 h of generator running: charging refused by cold or hot cells 2 kWh instead of 591 kWh, load unserved 0 kWh instead of 11 kWh and battery life 12.4 years instead of 13.5 years; over 20 years that is $28,000 less.',
    ]);
  });

  it('says what does harm, what goes both ways, and what makes no difference', () => {
    const insulated = { ...row, variant: 'half the heat loss' as const, runH: 410, fuelL: 2050 };
    const shaded = { ...row, variant: 'full shade' as const, runH: 390, fuelL: 2010 };
    const uncooled = { ...row, variant: 'no cooler' as const, fuelL: 1999, frostKwh: 2.4 };
    expect(sentencesOf(insulated, shaded, uncooled)).toEqual([
      'Insulation that halves the heat loss costs 50 L and 10 h of generator running.',
      'Shading the cabinet fully costs 10 L, and saves 10 h of generator running.',
      'The cooler takes 4.0 kWh in 10 days and makes next to no difference to fuel and generator hours.',
    ]);
  });

  it('turns the sentence round for a heater that is not there', () => {
    const bare = study.alternatives[2];
    if (!bare.climate?.coldWeek) throw new Error('no climate');
    const [sentence] = climateSentences(view, bare, bare.climate);
    expect(sentence).toMatch(/^A heater of \d+ W would take \d.* that (saves|costs|makes) /);
    expect(withAndWithout(bare.climate.coldWeek).map(({ variant }) => variant)).toEqual([
      'with heater',
      'as it is',
    ]);
  });

  it('names the coldest cells of the week with and without', () => {
    const week = result.climate?.coldWeek;
    if (!week) throw new Error('no week');
    const coldest = week.runs.map(({ cellC }) =>
      Math.min(...cellC)
        .toFixed(1)
        .replace('-', '−'),
    );
    expect(coldWeekTitle(view, result, week)).toContain(
      `with a heater the cells come down to ${coldest[0]} °C, without it to ${coldest[1]} °C`,
    );
  });
});

describe('the report page of a study that was run again', () => {
  it('shows stories of the first alternative, and the cabinet where it is the first or changed', () => {
    const page = reportPage(study);
    const { document } = parseHTML(page);
    const heads = (id: string) =>
      [...document.querySelectorAll(`#${id} h3`)].map((head) => head.textContent ?? '');
    const [first, modules, bare] = ['alternative-1', 'alternative-2', 'alternative-3'].map(heads);
    const climate = 'The cabinet’s climate: what it costs and what it saves';
    expect(first).toContain('Why it started, and what would have avoided it');
    expect(first).toContain(climate);
    expect(modules).not.toContain(climate);
    expect(modules).not.toContain('Why it started, and what would have avoided it');
    expect(bare).toContain(climate);
    expect(document.querySelector('#alternative-1')?.textContent?.replaceAll('\u00a0', ' ')).toContain(
      'No cooler was tried, for the air inside never comes up to 38 °C.',
    );
    expect(document.querySelector('#alternative-1')?.textContent).not.toContain('No heater was tried');
    expect(page).not.toMatch(/NaN|undefined/);
  });

  it('gives a script the same, without the steps of the coldest week', () => {
    const [first] = studyJson(study).alternatives;
    expect(first.startStories?.length).toBe(result.startStories?.length);
    expect(first.climate?.rows[1].fuelL).toBe(result.climate?.rows[1].fuelL);
    expect(first.climate).not.toHaveProperty('coldWeek');
  });
});
