import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { addAppliances, applianceSums } from '../../src/scenarios/appliances.ts';
import { makeCalendar, makeClock } from '../../src/scenarios/clock.ts';
import { parseSite } from '../../src/scenarios/site-document.ts';
import { readSite } from '../../src/scenarios/site-file.ts';
import type { Appliance } from '../../src/scenarios/site-schema.ts';
import { SMALL_SITE } from './small-site.ts';

const LIBRARY = parse(
  readFileSync(new URL('../../profiles/equipment/appliances.yaml', import.meta.url), 'utf8'),
);

/** Entries checked and completed by the site file's schema. */
function appliances(entries: unknown[]): Appliance[] {
  const { document } = parseSite(SMALL_SITE, 'site.yaml');
  if (!document) throw new Error('no site');
  const { site, issues } = readSite(document, { ...(document.value as object), appliances: entries });
  if (!site) throw new Error(JSON.stringify(issues));
  return site.appliances;
}

const DAYS = 364;
const startS = Date.UTC(2025, 0, 6) / 1000;
const clock = makeClock('UTC', startS, startS + DAYS * 86400);
if (!clock) throw new Error('no clock');
const calendar = makeCalendar(clock, startS, 1, DAYS * 1440);

function year(list: Appliance[], airC: Float64Array | null = null, seed = 's', phases = 1): Float64Array[] {
  const out = Array.from({ length: phases }, () => new Float64Array(DAYS * 1440));
  addAppliances(out, list, calendar, airC, seed);
  return out;
}
const kwhPerDay = (minutes: Float64Array) => minutes.reduce((sum, kw) => sum + kw, 0) / 60 / DAYS;

describe('an appliance list', () => {
  it('gives the energy of watts times hours times duty', () => {
    // by hand: 150 W · 5 h; 2000 W · 2 h · 50 % on two days of seven; 120 W · 24 h · 32 %
    const list = appliances([
      { name: 'lights', watts: 150, hours: [{ from: '17:30', to: '22:30' }] },
      {
        name: 'machine',
        watts: 2000,
        dutyPercent: 50,
        cycleMin: 30,
        hours: [{ from: '09:00', to: '11:00' }],
        weekdays: ['tue', 'fri'],
      },
      { name: 'fridge', watts: 120, dutyPercent: 32, cycleMin: 45 },
    ]);
    const byHand = [0.75, (2 * 2 * 0.5 * 2) / 7, 0.12 * 24 * 0.32];
    const sums = applianceSums(list, calendar, null);
    for (const [i, kwh] of byHand.entries()) expect(sums[i].kwhPerDay).toBeCloseTo(kwh, 9);
    const total = kwhPerDay(year(list)[0]);
    expect(Math.abs(total / byHand.reduce((a, b) => a + b, 0) - 1)).toBeLessThan(0.02);
  });

  it('every entry of the library is valid and comes to its arithmetic within 5 %', () => {
    for (const entry of LIBRARY) {
      const list = appliances([{ ...entry, phase: 'all', startMultiple: 1 }]);
      const [sum] = applianceSums(list, calendar, null);
      expect(Math.abs(kwhPerDay(year(list)[0]) / sum.kwhPerDay - 1), entry.name).toBeLessThan(0.05);
    }
  });

  it('cycles: an appliance of 30 % duty is off most minutes and never above its power', () => {
    const [minutes] = year(appliances([{ name: 'pump', watts: 1000, dutyPercent: 30, cycleMin: 20 }]));
    expect(Math.max(...minutes.subarray(0, 100_000))).toBeLessThanOrEqual(1);
    const off = minutes.subarray(0, 100_000).filter((kw) => kw === 0).length / 100_000;
    expect(off).toBeGreaterThan(0.6);
    expect(off).toBeLessThan(0.75);
  });

  it('a motor takes more in its first minute, and starts as often as it cycles', () => {
    const [minutes] = year(
      appliances([{ name: 'pump', watts: 1000, dutyPercent: 50, cycleMin: 30, startMultiple: 7 }]),
    );
    const day = minutes.subarray(0, 14_400);
    const starts = day.filter((kw, i) => i > 0 && kw > 0 && day[i - 1] === 0).length / 10;
    expect(starts).toBeGreaterThan(40);
    expect(starts).toBeLessThan(56);
    expect(Math.max(...day)).toBeCloseTo(1 + (6 * 2) / 60, 1);
    const [sum] = applianceSums(
      appliances([{ name: 'pump', watts: 1000, powerFactor: 0.8, startMultiple: 7 }]),
      calendar,
      null,
    );
    expect(sum.startKva).toBeCloseTo(8.75, 9);
  });

  it('a cool room works harder when it is hot, and nothing runs outside its months', () => {
    const cool = appliances([{ name: 'cool room', watts: 1000, dutyPercent: 40, dutyPerK: 1.5 }]);
    const at = (airC: number) => kwhPerDay(year(cool, new Float64Array(DAYS * 1440).fill(airC))[0]);
    expect(at(30) / at(20)).toBeCloseTo(55 / 40, 1);
    const [summer] = year(appliances([{ name: 'irrigation', watts: 1000, months: [12, 1, 2] }]));
    expect(summer.subarray(120 * 1440, 240 * 1440).every((kw) => kw === 0)).toBe(true);
  });

  it('stands on its phase, or is shared', () => {
    const three = appliances([{ name: 'a', watts: 900 }]);
    const shared = year(three, null, 's', 3);
    expect(shared.map((phase) => phase[100])).toEqual([0.3, 0.3, 0.3].map((kw) => expect.closeTo(kw, 12)));
  });

  it('gives the same bits for the same seed, others for another, and does not march in step', () => {
    const list = appliances([{ name: 'fridges', quantity: 2, watts: 100, dutyPercent: 40, cycleMin: 40 }]);
    expect(year(list)).toEqual(year(list));
    expect(year(list)).not.toEqual(year(list, null, 'other'));
    const [both] = year(list);
    expect(both.some((kw) => kw > 0 && kw < 0.15)).toBe(true);
  });
});
