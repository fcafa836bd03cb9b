import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { acceptanceTest, expectedChargeA } from '../../../src/report/sheet/acceptance.ts';
import { commissioningSheet, settingGroups } from '../../../src/report/sheet/page.ts';
import type { SheetSource } from '../../../src/report/sheet/setting.ts';
import { handover } from '../handover.ts';

const farm = handover('farm').sheet;
const hut = handover('hut').sheet;
const workshop = handover('workshop').sheet;

function enteredFor(source: SheetSource, name: string): string | undefined {
  return settingGroups(source)
    .flatMap(({ settings }) => settings)
    .find((setting) => setting.name === name)?.value;
}

function expected(source: SheetSource, name: string): string | undefined {
  return acceptanceTest(source).find((step) => step.name === name)?.expect;
}

describe('settings of the farm, worked by hand', () => {
  it.each([
    ['Start at state of charge', '30 %, for 1 min'],
    // 16 cells · 3.0 V
    ['Fallback start by voltage', '48.0 V at the battery, under load, for 60 s'],
    ['Stop at state of charge', '80 %, or 4 h after charging begins to taper'],
    // 5800 / (230 · 0.9) = 28.0 A, 4200 / 207 = 20.3 A
    ['Start by load', '5.8 kW = 28 A per phase, for 60 s'],
    ['Load is over', 'below 4.2 kW = 20 A per phase, for 10 min'],
    ['Restricted hours', '22:00 to 05:00; a run that meets them goes on'],
    // 20,000 / 3 / 230 = 28.99 A
    ['Generator input limit', '28 A per phase'],
    ['Minimum run; longest run', '45 min on load; 24 h'],
    ['Start delay; warm-up; cool-down; rest', '20 s; 1 min; 3 min; 5 min'],
    ['Service message', 'every 250 run hours'],
    // 6000 · 0.94 / 51.2 = 110.2 A
    ['Charging current from the generator', '110 A per phase at 51.2 V'],
    // 12 · 2500 / 51.2 = 585.9 A; 12 · 3000 / 51.2 = 703.1 A
    ['Battery current, charge; discharge', '585 A; 703 A'],
    ['Low-battery cut-off; back on at', '10 %; 15 %; fallback 44.8 V under load'],
    ['Heater on; off', '3 °C; 6 °C at the cells; blocked below 25 %'],
    ['Cooler on; off', '38 °C; 34 °C in the air of the cabinet'],
    ['Fuel warning; order at', '300 L of 1,000 L'],
  ])('%s: %s', (name, value) => {
    expect(enteredFor(farm, name)).toBe(value);
  });

  it('expects 330 A into the battery from 18.0 kW of the generator', () => {
    // entered: 110 A a phase = 5.632 kW at the bus, 5.991 kW drawn; three phases 17.974 kW, 330 A
    const { acKw, batteryA } = expectedChargeA(farm)!;
    expect(acKw).toBeCloseTo((3 * 110 * 51.2) / 1000 / 0.94, 9);
    expect(batteryA).toBeCloseTo(330, 9);
    expect(expected(farm, 'Charging current')).toMatch(/^330 A into the battery at 51\.2 V.*18\.0 kW/);
  });

  it('expects the start a delay and a start later', () => {
    // 1 min + 20 s; 60 s + 20 s
    expect(expected(farm, 'Start by charge')).toMatch(/^Engine runs after 80 s/);
    expect(expected(farm, 'Start by load')).toMatch(/^Engine runs after 80 s/);
  });

  it('says that lithium iron phosphate is flat, and how many starts a month to expect', () => {
    const [start] = settingGroups(farm);
    expect(start.note).toMatch(/nearly flat between 30 and 80 %/);
    const starts = farm.result.ledger.periods.map(({ startsByCause }) => startsByCause.charge);
    const { watch } = start.settings[0];
    expect(watch).toContain(`${Math.min(...starts)} (`);
    expect(watch).toContain(`${Math.max(...starts)} (`);
  });
});

describe('settings of other sites', () => {
  it('derate the generator before its limit is worked out', () => {
    // ISO 3046-1, naturally aspirated and thermally limited (factors from memory), 1000 m and 40 °C: 0.83042 (derived);
    // 20 kW · 0.83042 / 3 / 230 V = 24.07 A
    const derated = handover('farm', (text) =>
      text.replace(
        '  ratedKw: 20\n',
        '  ratedKw: 20\n  siteDerating: { altitudeM: 1000, airC: 40, engine: natural }\n',
      ),
    ).sheet;
    expect(enteredFor(derated, 'Generator input limit')).toBe('24 A per phase');
  });

  it('put a single-phase set on its phase', () => {
    // all 20 kW on one phase: 86.96 A, cut to the 50 A that an inverter passes
    const single = handover('farm', (text) =>
      text.replace('  ratedKw: 20\n', '  ratedKw: 20\n  phase: 2\n'),
    ).sheet;
    expect(enteredFor(single, 'Generator input limit')).toBe('50 A on phase 2, none on the others');
  });

  it('are cut to what a small battery takes', () => {
    // one module of 2.5 kW: 48.8 A; the charger could give 1.2 · 0.94 / 51.2 = 22.03 A
    expect(enteredFor(hut, 'Charging current from the generator')).toBe('22 A at 51.2 V');
    // 30 chargers' worth of current would be 660 A: the battery's 48 A stand
    const strong = handover('hut', (text) => text.replace('chargerKw: 1.2', 'chargerKw: 36')).sheet;
    expect(enteredFor(strong, 'Charging current from the generator')).toBe('48 A at 51.2 V');
  });

  it('name only what the site has', () => {
    const names = settingGroups(hut).flatMap(({ settings }) => settings.map(({ name }) => name));
    expect(names.join()).not.toMatch(/Start by load|AC-coupled|Heater|Cooler|shedding|by a person/);
    expect(acceptanceTest(hut).map(({ name }) => name)).not.toContain('Phase balance');
    expect(enteredFor(workshop, 'AC-coupled array, generator on load')).toMatch(
      /^held back, generator at 30 %/,
    );
    const bare = handover('hut', (text) => text, 3).sheet;
    expect(bare.result.name).toBe('no generator');
    const titles = settingGroups(bare).map(({ title }) => title);
    expect(titles).toEqual(['Battery, chargers, inverters']);
    expect(JSON.stringify(settingGroups(bare))).not.toMatch(/generator brings|Generator input/);
  });

  it('cover hand start, full charge, exercise, calendar, shedding and lock-outs', () => {
    const rich = handover('farm', (text) =>
      text
        .replace(
          '  minRunMin: 45\n',
          `  minRunMin: 45
  hand: { startSoc: 0.25, responseMin: 20, stopSoc: 0.7 }
  full: { everyDays: 30 }
  exercise: { everyDays: 14, at: '10:00', runMin: 20, unlessWithinDays: 7 }
  shed: { belowSoc: 0.2, aboveSoc: 0.35 }
  lock: { trips: 3 }
  calendar: [{ name: winter, months: [11, 12, 1], startSoc: 0.4 }]
`,
        )
        .replace('  warmUpMin: 1\n', '  warmUpMin: 1\n  startFailures: { chance: 0.1, retries: 2 }\n'),
    ).sheet;
    expect(enteredFor(rich, 'Started by a person')).toBe('at 25 %, to 70 %');
    expect(enteredFor(rich, 'Periodic full charge')).toBe('every 30 days, to 99 %, at most 4 h in the taper');
    expect(enteredFor(rich, 'Exercise run')).toBe(
      'every 14 days at 10:00, 20 min on load, not if it ran within 7 days',
    );
    expect(enteredFor(rich, 'Winter: Nov, Dec and Jan')).toBe('start 40 %');
    expect(enteredFor(rich, 'Load shedding, contactor off; on')).toBe(
      '20 %; 35 %; after an overload off for 10 min',
    );
    expect(enteredFor(rich, 'Restart after an overload')).toMatch(
      /locks out after 3 trips, each within 60 min/,
    );
    expect(enteredFor(rich, 'Start attempts')).toBe('3, 30 s apart');
  });
});

describe('the sheet', () => {
  const page = commissioningSheet(farm, '2026-01-31');
  const { document } = parseHTML(page);

  it('has every setting, test step and design check with its verdict', () => {
    const rows = [...document.querySelectorAll('tbody th[scope=row]')].map((cell) => cell.textContent ?? '');
    const settings = settingGroups(farm).flatMap(({ settings: all }) => all.map(({ name }) => name));
    const steps = acceptanceTest(farm).map(({ name }) => name);
    const plain = (text: string) => text.replaceAll('\u00a0', ' ');
    const shown = rows.map(plain);
    for (const name of [...settings, ...steps]) expect(shown).toContain(plain(name));
    for (const { title } of farm.result.checks)
      expect(shown.some((row) => row.startsWith(plain(title)))).toBe(true);
    const open = farm.result.checks.filter(({ verdict }) => verdict !== 'fine');
    expect(document.querySelectorAll('td.verdict').length).toBe(open.length);
    expect(open.length).toBeGreaterThan(0);
  });

  it('leaves room to write for every setting and test, and says why and what to watch', () => {
    const settings = settingGroups(farm).flatMap(({ settings: all }) => all);
    expect(document.querySelectorAll('td.blank').length).toBe(settings.length + acceptanceTest(farm).length);
    for (const { why, watch } of settings)
      for (const text of [why, watch]) expect(text).toMatch(/^[A-Z0-9].{8,}[.?]$/);
  });

  it.each([
    ['farm', farm],
    ['hut', hut],
    ['workshop', workshop],
  ] as const)('has no broken figure: %s', (_, source) => {
    const text = commissioningSheet(source, '2026-01-31').replace(/<style>.*?<\/style>/s, '');
    const broken = /NaN|undefined|null|Infinity|(?<![\d.,])1 (?:days|hours|starts|services|years|times)\b/g;
    expect(text.match(broken)).toBeNull();
  });

  it('is one file that needs no network and no script', () => {
    expect(page).not.toMatch(/<script|<link|<iframe|<img|@import|src=|https?:/);
  });
});
