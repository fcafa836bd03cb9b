/** Years one after the other: sums on paper, and what must not change between one year and the next. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeCalendar, makeClock } from '../../src/scenarios/clock.ts';
import { controlsFromSite } from '../../src/scenarios/controls-from-site.ts';
import { bankAfterYear, newBank } from '../../src/scenarios/horizon-battery.ts';
import { simulateYears } from '../../src/scenarios/horizon-years.ts';
import { InputMaker, type SiteInputs } from '../../src/scenarios/inputs-from-site.ts';
import { plantFromSite } from '../../src/scenarios/plant-from-site.ts';
import { parseSite } from '../../src/scenarios/site-document.ts';
import { readSite } from '../../src/scenarios/site-file.ts';
import type { Site } from '../../src/scenarios/site-schema.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { makeCycleList } from '../../src/sim/wear/cycle-list.ts';
import { plainDays, plainYearsSite } from './plain-years.ts';

function yearsOf(site: Site, make: (site: Site) => SiteInputs) {
  const steps = simulateYears(site, make);
  let next = steps.next();
  while (!next.done) next = steps.next();
  return next.value;
}

const WEAR = `chargeEfficiency: 1, dischargeEfficiency: 0.95, wear: { cycleLife: [{ depth: 0.25, cycles: 10000 }, { depth: 1, cycles: 2500 }],
  fadeFirstYear: 0.02, timeExponent: 0.5, referenceC: 25, resistancePerAgeFade: 2, resistancePerCycleFade: 1 }`;

// By hand. The table is N = 2500/depth, straight in logarithms; cells at their reference of 25 °C; 5 kWh a night.
// Year 1: 5/0.95 = 5.263158 kWh out of 10 is a depth of 0.5263158, N = 4750, 365 cycles are 0.2·365/4750 = 0.01536842
// by cycles; 0.02 by age; 0.96463158 is left; resistance 1 + 2·0.02 + 0.01536842 = 1.05536842.
// Year 2: the discharge efficiency is 1 − 0.05·1.05536842 = 0.94723158; 5/0.94723158 = 5.27854020 kWh out of 9.6463158
// is a depth of 0.54720790, N = 4568.6475, 0.01597847 by cycles; by age 0.02·√2 = 0.02828427;
// 1 − 0.02828427 − 0.01536842 − 0.01597847 = 0.94036884 is left.
describe('two years on paper', () => {
  const { years } = yearsOf(plainYearsSite(WEAR, 'years: 2'), () => plainDays(365, 1, 3));
  const [first, second] = years.map(({ battery }) => battery!);

  it('capacity and resistance', () => {
    expect(first.startFrac).toBe(1);
    expect(first.endFrac).toBeCloseTo(0.96463158, 8);
    expect(second.startFrac).toBe(first.endFrac);
    expect(second.resistanceFrac).toBeCloseTo(1.05536842, 8);
    expect(second.endFrac).toBeCloseTo(0.94036884, 8);
  });

  it('state of charge against what is left, and full cycles', () => {
    expect(first.minSoc).toBeCloseTo(1 - 0.5263158, 7);
    expect(second.minSoc).toBeCloseTo(1 - 0.5472079, 7);
    expect(first.fullCycles).toBeCloseTo((365 * 5) / 10, 9);
    expect(second.fullCycles).toBeCloseTo((365 * 5) / 9.6463158, 5);
  });

  it('power limits shrink with the capacity', () => {
    // 7.9 kW of load on a limit of 8 kW: all of it in the first year, 8 · 0.9646... kW in the second
    const site = plainYearsSite(WEAR, 'years: 2');
    const strained = yearsOf({ ...site, generator: null }, () => {
      const made = plainDays(365, 0.2, 3);
      for (let day = 0; day < 365; day++) made.inputs.loadKw[0][24 * day] = 7.9;
      return made;
    }).years;
    expect(strained[0].unservedKwh).toBe(0);
    const limit = 8 * strained[1].battery!.startFrac;
    expect(strained[1].unservedKwh).toBeCloseTo(365 * (7.9 - limit), 6);
    expect(limit).toBeLessThan(7.9);
  });
});

describe('a battery in its years', () => {
  // 5 kWh a night from 10 kWh without loss, no age; a failed cycle test is a loss of 0.05 (end of life 0.95). The
  // battery shrinks as it wears, so that cycles deepen: it loses 0.05·365·(0.5/c)/2500 = 0.00365/c in a year.
  const cyclesOnly = `chargeEfficiency: 1, dischargeEfficiency: 1, wear: { fadeFirstYear: 0, endOfLife: 0.95,
    cycleLife: [{ depth: 0.25, cycles: 10000 }, { depth: 1, cycles: 2500 }] }`;
  const left = [1];
  for (let year = 1; year < 14; year++) left.push(left[year - 1] - 0.00365 / left[year - 1]);

  it('is replaced on the day on which it is due, and the new one ages for the rest of that year', () => {
    const { years } = yearsOf(plainYearsSite(cyclesOnly, 'years: 20'), () => plainDays(365, 1, 3));
    left.forEach((capacity, i) => {
      expect(years[i].battery!.startFrac).toBeCloseTo(capacity, 9);
    });
    expect(years.filter(({ battery }) => battery!.replacedAt.length > 0).map(({ year }) => year)).toEqual([
      14,
    ]);
    const lostInYear14 = 0.00365 / left[13];
    const share = (left[13] - 0.95) / lostInYear14;
    expect(years[13].battery!.replacedAt[0]).toBeCloseTo(share, 9);
    expect(years[13].battery!.endFrac).toBeCloseTo(1 - lostInYear14 * (1 - share), 9);
    expect(years[14].battery!.startFrac).toBe(years[13].battery!.endFrac);
    expect(years[13].battery!.health.map(({ capacityFrac }) => capacityFrac)).toEqual([
      expect.closeTo(left[13], 9),
      expect.closeTo(0.95, 9),
      1,
      years[13].battery!.endFrac,
    ]);
  });

  it('is not bought for what is left of the last year', () => {
    const { years, worthLeftFrac } = yearsOf(plainYearsSite(cyclesOnly, 'years: 14'), () =>
      plainDays(365, 1, 3),
    );
    expect(years.flatMap(({ battery }) => battery!.replacedAt)).toEqual([]);
    expect(years[13].battery!.endFrac).toBeCloseTo(left[13] - 0.00365 / left[13], 9);
    expect(years[13].battery!.endFrac).toBeLessThan(0.95);
    expect(worthLeftFrac).toBe(0);
  });

  it('stays to its stated age even when it is worn, and is worth the rest of that age at the end', () => {
    const site = plainYearsSite(cyclesOnly, 'years: 20, batteryYears: 16');
    const { years, worthLeftFrac } = yearsOf(site, () => plainDays(365, 1, 3));
    expect(years.filter(({ battery }) => battery!.replacedAt.length > 0).map(({ year }) => year)).toEqual([
      16,
    ]);
    expect(years[15].battery!.replacedAt[0]).toBeCloseTo(1, 9);
    expect(years[15].battery!.startFrac).toBeLessThan(0.95);
    expect(worthLeftFrac).toBeCloseTo(12 / 16, 9);
  });

  it('without wear keeps its capacity and lasts twelve years', () => {
    const { years, worthLeftFrac } = yearsOf(plainYearsSite('', 'years: 20'), () => plainDays(365, 1, 3));
    expect(years.every(({ battery }) => battery!.endFrac === 1)).toBe(true);
    expect(years.filter(({ battery }) => battery!.replacedAt.length > 0).map(({ year }) => year)).toEqual([
      12,
    ]);
    expect(worthLeftFrac).toBeCloseTo(4 / 12, 9);
  });
});

describe('a bank that wears out several times a year', () => {
  it('is replaced each time', () => {
    const site = plainYearsSite(
      `wear: { fadeFirstYear: 0.5, timeExponent: 1, cycleLife: [{ depth: 0.25, cycles: 900000 }, { depth: 1, cycles: 900000 }] }`,
    );
    const bank = newBank(site)!;
    const use = { cycles: makeCycleList(), meanCellC: 25, meanSocFrac: 0.5 };
    // by hand: half of it lost in a year, and a fifth is the end: every 0.4 of a year
    const { replacedAt, bank: after } = bankAfterYear(bank, use, true);
    expect(replacedAt).toEqual([expect.closeTo(0.4, 9), expect.closeTo(0.8, 9)]);
    expect(after.wear.capacityFrac).toBeCloseTo(0.9, 9);
    expect(bankAfterYear(after, use, true).replacedAt).toHaveLength(3);
  });
});

describe('from one year to the next', () => {
  const FARM = resolve(import.meta.dirname, '../../profiles/sites');
  const { document } = parseSite(
    readFileSync(resolve(FARM, 'farm.yaml'), 'utf8').replace('stepMin: 5', 'stepMin: 15'),
    'farm.yaml',
  );
  const maker = new InputMaker((path) => readFileSync(resolve(FARM, path)), null, document!.placeOf);
  const farm = readSite(document!).site!;
  const unfading: Site = {
    ...farm,
    battery: { ...farm.battery!, wear: null },
    money: { ...farm.money, years: 2 },
  };
  const made = maker.make(unfading)!;
  const { years } = yearsOf(unfading, () => made);

  it('two unfading years are one run over the series twice', () => {
    const { inputs, airAtStartC, acArrayShare } = made;
    const twice = (values?: Float64Array) => values && Float64Array.from([...values, ...values]);
    const flags = (values?: Uint8Array) => values && Uint8Array.from([...values, ...values]);
    const whole = simulate(plantFromSite(unfading, airAtStartC, acArrayShare), controlsFromSite(unfading), {
      stepMin: inputs.stepMin,
      count: 2 * inputs.count,
      loadKw: inputs.loadKw.map((kw) => twice(kw)!),
      dcArrayKw: twice(inputs.dcArrayKw),
      acArrayKw: twice(inputs.acArrayKw),
      airC: twice(inputs.airC),
      cabinetSunWPerM2: twice(inputs.cabinetSunWPerM2),
      restricted: flags(inputs.restricted),
      night: flags(inputs.night),
    }).totals;
    for (const key of [
      'fuelL',
      'runH',
      'starts',
      'loadKwh',
      'servedKwh',
      'unservedKwh',
      'curtailedKwh',
    ] as const)
      expect(Math.abs(years[0][key] + years[1][key] - whole[key]), key).toBeLessThan(1e-9 * whole.loadKwh);
    expect(whole.starts).toBeGreaterThan(300);
    // the second year does begin elsewhere than the first, or this says little
    expect(years[1].fuelL).not.toBe(years[0].fuelL);
  });

  it('the first year is the one that is simulated alone, bit by bit', () => {
    const { inputs, airAtStartC, acArrayShare } = made;
    const plant = plantFromSite(farm, airAtStartC, acArrayShare);
    const { totals } = simulate(plant, controlsFromSite(farm), inputs);
    const fading = simulateYears(farm, () => made).next().value as (typeof years)[0];
    for (const year of [years[0], fading]) {
      expect(year.fuelL).toBe(totals.fuelL);
      expect(year.servedKwh).toBe(totals.servedKwh);
      expect(year.starts).toBe(totals.starts);
    }
  });

  it('unfading years that end as they began are all alike', () => {
    // 9 kWh a night out of 10: the generator starts at 20 % and stops at 80 %; the sun fills the battery by the evening
    const site = plainYearsSite('', 'years: 4');
    const alike = yearsOf(site, () => plainDays(365, 1.8, 3)).years;
    expect(alike[0].fuelL).toBeGreaterThan(500);
    for (const { fuelL, runH, starts, servedKwh } of alike)
      expect([fuelL, runH, starts, servedKwh]).toEqual([
        alike[0].fuelL,
        alike[0].runH,
        alike[0].starts,
        alike[0].servedKwh,
      ]);
  });

  it('fuel in the tank is carried over', () => {
    // 1000 L of fuel, never filled up, last less than a year
    const dry: Site = { ...unfading, tank: { ...farm.tank!, orderAtL: null } };
    const dryYears = yearsOf(dry, () => made).years;
    expect(dryYears[0].fuelL).toBeCloseTo(900 - 40, 6);
    expect(dryYears[1].fuelL).toBe(0);
  });
});

describe('load that grows', () => {
  it('is multiplied year after year, the first as it is', () => {
    const site = plainYearsSite('', 'years: 3', 'horizon: { loadGrowth: 0.1 }');
    const { years } = yearsOf(site, () => plainDays(365, 1, 3));
    expect(years[0].loadKwh).toBeCloseTo(1825, 9);
    expect(years[1].loadKwh).toBeCloseTo(1825 * 1.1, 9);
    expect(years[2].loadKwh).toBeCloseTo(1825 * 1.21, 9);
  });
});

describe('a lead-acid battery in its years', () => {
  it('fades, gives what is asked of it, and is replaced like any other', () => {
    const site = plainYearsSite(`leadAcid: { atHand: 0.6, ratePerH: 0.5 }, ${WEAR}`, 'years: 10');
    const { years } = yearsOf(site, () => plainDays(365, 1, 3));
    const batteries = years.map(({ battery }) => battery!);
    const replaced = batteries.findIndex(({ replacedAt }) => replacedAt.length > 0);
    expect(replaced).toBeGreaterThan(2);
    for (let i = 1; i <= replaced; i++) {
      expect(batteries[i].startFrac).toBeLessThan(batteries[i - 1].startFrac);
      expect(batteries[i].minSoc).toBeLessThan(batteries[i - 1].minSoc);
    }
    expect(batteries[replaced + 1].minSoc).toBeGreaterThan(batteries[replaced].minSoc);
    for (const { servedKwh } of years) expect(servedKwh).toBeCloseTo(1825, 6);
  });
});

describe('load that may be shed or may wait', () => {
  it('grows with the rest', () => {
    // by hand: 5 kWh a night, half of which may be shed, and 2 kWh of pumping a day: 7 · 365 kWh, then 10 % more
    const text = `horizon: { loadGrowth: 0.1 }
shiftable: [{ name: pump, watts: 1000, kwhPerDay: 2, deadline: '18:00' }]`;
    const site = plainYearsSite('', 'years: 3', text);
    const calendar = makeCalendar(makeClock('UTC', 0, 365 * 86_400)!, 0, 60, 8760);
    const { years } = yearsOf(site, () => {
      const made = plainDays(365, 1, 3);
      const sheddableKw = made.inputs.loadKw.map((kw) => kw.map((value) => value / 2));
      const shiftDeadline = [Uint8Array.from(calendar.minuteOfDay, (minute) => Number(minute === 1080))];
      return { ...made, inputs: { ...made.inputs, sheddableKw, shiftDeadline } };
    });
    years.forEach(({ loadKwh }, i) => {
      // up to a day's pumping may fall on either side of a year's end
      expect(Math.abs(loadKwh - 7 * 365 * 1.1 ** i)).toBeLessThan(2 * 1.1 ** i + 1e-6);
    });
    expect(years.every(({ unservedKwh }) => unservedKwh === 0)).toBe(true);
  });
});

describe('hours of the engine over the years', () => {
  it('make service and overhaul due by their sum', () => {
    const site = plainYearsSite('', 'years: 6, serviceEveryH: 100, overhaulEveryH: 1000');
    const { years } = yearsOf(site, () => plainDays(365, 1, 0));
    let hours = 0;
    for (const { runH, serviceVisits, overhauls } of years) {
      const before = hours;
      hours += runH;
      expect(serviceVisits).toBe(Math.floor(hours / 100) - Math.floor(before / 100));
      expect(overhauls).toBe(Math.floor(hours / 1000) - Math.floor(before / 1000));
    }
    expect(hours).toBeGreaterThan(1000);
    expect(years.some(({ runH, serviceVisits }) => serviceVisits !== Math.floor(runH / 100))).toBe(true);
  });
});
