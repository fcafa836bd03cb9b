import { describe, expect, it } from 'vitest';
import { moneyOf } from '../../src/scenarios/life-cycle.ts';
import type { Site } from '../../src/scenarios/site-schema.ts';
import type { Ledger } from '../../src/sim/ledger.ts';

/** A ledger of one year that holds just what money depends on. */
function ledgerOf(
  fuelL: number,
  runH: number,
  servedKwh: number,
  { unservedKwh = 0, visits = 0, count = 8760 } = {},
): Ledger {
  const totals = { fuelL, runH, servedKwh, unservedKwh, visits } as Ledger['totals'];
  return { stepMin: 60, count, totals, periods: [totals] } as unknown as Ledger;
}

function siteWith(money: Partial<Site['money']>, modules = 0): Site {
  const base = {
    years: 20,
    discountRate: 0.06,
    capital: 50_000,
    fuelPerL: 1,
    fuelEscalation: 0,
    serviceEveryH: 100,
    serviceCost: 0,
    overhaulEveryH: 100_000,
    overhaulCost: 0,
    unservedPerKwh: 0,
    visitCost: 0,
    batteryYears: 12,
    batteryPerModule: 0,
  };
  return { money: { ...base, ...money }, battery: modules > 0 ? { modules } : null } as Site;
}

// worked example derived for this project: 6 %, 20 years, 20 000 kWh a year served, 2 000 a year for service
describe('life-cycle cost', () => {
  const service = { serviceEveryH: 250, serviceCost: 500 };
  const ledger = ledgerOf(9000, 1000, 20_000);

  it('capital, service and fuel', () => {
    const money = moneyOf(siteWith(service), 0, ledger, null);
    expect(money.lifeCycleCost).toBeCloseTo(176_169.1334, 3);
    expect(money.levelisedCostPerKwh).toBeCloseTo(0.76796139, 8);
    expect(money.runningFirstYear).toBe(11_000);
  });

  it('with a battery in year 10', () => {
    const money = moneyOf(
      siteWith({ ...service, batteryYears: 10, batteryPerModule: 15_000 }, 1),
      0,
      ledger,
      null,
    );
    expect(money.batteryReplacedInYears).toEqual([10]);
    expect(money.lifeCycleCost).toBeCloseTo(184_545.0551, 3);
    expect(money.levelisedCostPerKwh).toBeCloseTo(0.80447394, 8);
  });

  it('without a stated life replaces the battery when it is worn out, else after twelve years', () => {
    const site = siteWith({ ...service, batteryYears: null, batteryPerModule: 15_000 }, 1);
    expect(moneyOf(site, 0, ledger, 6.6).batteryReplacedInYears).toEqual([7, 14]);
    expect(moneyOf(site, 0, ledger, null).batteryReplacedInYears).toEqual([12]);
    const stated = siteWith({ ...service, batteryYears: 10, batteryPerModule: 15_000 }, 1);
    expect(moneyOf(stated, 0, ledger, 6.6).batteryReplacedInYears).toEqual([10]);
  });

  it('with a battery in year 12 and four twelfths of it left at the end', () => {
    const money = moneyOf(
      siteWith({ ...service, batteryYears: 12, batteryPerModule: 15_000 }, 1),
      0,
      ledger,
      null,
    );
    expect(money.batteryReplacedInYears).toEqual([12]);
    expect(money.lifeCycleCost).toBeCloseTo(182_064.6502, 3);
    expect(money.levelisedCostPerKwh).toBeCloseTo(0.79366129, 8);
  });

  it('credits a first battery that outlives the study: five twenty-fifths of it', () => {
    const money = moneyOf(
      siteWith({ ...service, batteryYears: 25, batteryPerModule: 15_000 }, 1),
      0,
      ledger,
      null,
    );
    expect(money.batteryReplacedInYears).toEqual([]);
    expect(money.cashFlow[20].residual).toBeCloseTo(-3000, 9);
  });

  it('with fuel rising 3 % a year from year 1 on', () => {
    // the worked example's first payment is already one rise up; ours begins at today's price
    const money = moneyOf(siteWith({ ...service, fuelPerL: 1.03, fuelEscalation: 0.03 }), 0, ledger, null);
    expect(money.lifeCycleCost).toBeCloseTo(207_925.2502, 3);
    expect(money.levelisedCostPerKwh).toBeCloseTo(0.90639354, 8);
  });

  it('overhauls fall in the years in which their hours are reached', () => {
    const money = moneyOf(siteWith({ overhaulEveryH: 3500, overhaulCost: 4000 }), 0, ledger, null);
    expect(money.overhaulsInYears).toEqual([4, 7, 11, 14, 18]);
  });

  it('trouble that has a price is paid every year, in parts of its own', () => {
    const trouble = ledgerOf(9000, 1000, 20_000, { unservedKwh: 12, visits: 3 });
    const money = moneyOf(siteWith({ ...service, unservedPerKwh: 30, visitCost: 150 }), 0, trouble, null);
    // 12·30 and 3·150 a year; 6 % over 20 years: 11.46992122 times
    expect([money.unservedFirstYear, money.visitsFirstYear]).toEqual([360, 450]);
    for (const { year, unserved, visits } of money.cashFlow)
      expect([unserved, visits]).toEqual(year === 0 ? [0, 0] : [360, 450]);
    expect(money.lifeCycleCost).toBeCloseTo(176_169.1334 + 810 * 11.46992122, 3);
    expect(money.runningFirstYear).toBe(11_000 + 810);
    expect(money.runningByMonth).toEqual([11_810]);
    // not escalated with the fuel
    expect(money.cashFlow[20].total).toBeCloseTo(11_810, 9);
  });

  it('trouble without a price costs nothing', () => {
    const trouble = ledgerOf(9000, 1000, 20_000, { unservedKwh: 12, visits: 3 });
    expect(moneyOf(siteWith(service), 0, trouble, null)).toEqual(moneyOf(siteWith(service), 0, ledger, null));
  });

  it('trouble of half a year counts twice', () => {
    const half = ledgerOf(0, 0, 10_000, { unservedKwh: 6, visits: 1, count: 4380 });
    const money = moneyOf(siteWith({ unservedPerKwh: 30, visitCost: 150 }), 0, half, null);
    expect([money.unservedFirstYear, money.visitsFirstYear]).toEqual([360, 300]);
  });

  it('has no levelised cost when nothing was served', () => {
    expect(moneyOf(siteWith({}), 0, ledgerOf(0, 0, 0), null).levelisedCostPerKwh).toBeNull();
  });
});
