/** Contradictions about people, faults, chosen loads, calendars, sets and battery cabinets are told, each at its place. */
import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { checkStudy } from '../../src/scenarios/run-study.ts';
import { SMALL_SITE, smallSiteFile } from './small-site.ts';

/** What is said of the small site with pieces of its text replaced, and lines added at its end; places as the text there. */
function said(replacements: [string, string][], ...lines: string[]): string[] {
  let text = SMALL_SITE.replace(/alternatives:[\s\S]*/, '');
  for (const [from, to] of replacements) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  text += lines.map((line) => `${line}\n`).join('');
  const { issues } = checkStudy({ text, file: 'site.yaml', readFile: smallSiteFile, version: '0' });
  return issues
    .filter(({ code }) => code !== 'coarse-load')
    .map((issue) => `${issue.severity} ${issueSentence(issue).replace(/site\.yaml:(\d+):(\d+)/, textAt)}`);

  /** The key and value at a place. */
  function textAt(_: string, line: string, column: string): string {
    const whole = text.split('\n')[Number(line) - 1];
    const key = /(\w+: )?$/.exec(whole.slice(0, Number(column) - 1));
    return `at '${key?.[0]}${whole.slice(Number(column) - 1).split(/ ?[,}\]]/)[0]}'`;
  }
}

const CHARGE = 'charge: { startSoc: 0.3, stopSoc: 0.8 }';
const control = (text: string): [string, string] => [CHARGE, `${CHARGE}\n  ${text}`];
const noBattery: [string, string] = [
  'battery: { modules: 2, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }\n',
  '',
];
const noGenerator: [string, string] = [
  'generator: { ratedKw: 5, fuel: [{ kW: 0, lPerH: 0.6 }, { kW: 5, lPerH: 1.9 }] }\n',
  '',
];
const cabinet = (name: string, modules: number) =>
  `{ name: ${name}, modules: ${modules}, airKjPerK: 50, batteryKjPerK: 300, airToOutsideWPerK: 5, airToBatteryWPerK: 8 }`;
const SECOND = 'secondGenerator: { ratedKw: 3, fuel: [{ kW: 0, lPerH: 0.4 }, { kW: 3, lPerH: 1.2 }] }';

describe('people and faults', () => {
  it('a span must have a length, each is told at once', () => {
    expect(
      said(
        [],
        'people: { away: [{ from: 2025-03-05, to: 2025-03-05 }], attended: [{ from: "08:00", to: "08:00" }] }',
        'faults:',
        '  generator: [{ from: 2025-03-05, to: 2025-03-04T12:00 }]',
        '  bypass: [{ from: 2025-03-06, to: 2025-03-06 }]',
        '  units: [{ from: 2025-03-07, to: 2025-03-07, phase: 1 }]',
      ),
    ).toEqual([
      `error at 'to: 2025-03-05': people.away.0.to: found 2025-03-05; expected after 2025-03-05; the last day is not included`,
      `error at 'to: 2025-03-04T12:00': faults.generator.0.to: found 2025-03-04T12:00; expected after 2025-03-05; the last day is not included`,
      `error at 'to: 2025-03-06': faults.bypass.0.to: found 2025-03-06; expected after 2025-03-06; the last day is not included`,
      `error at 'to: 2025-03-07': faults.units.0.to: found 2025-03-07; expected after 2025-03-07; the last day is not included`,
      `error at '{ from: "08:00"': people.attended.0: found 08:00 to 08:00; expected two times that differ`,
    ]);
  });

  it('a span beside the period is doubted, one that reaches into it is not', () => {
    expect(
      said(
        [],
        'people: { away: [{ from: 2026-03-02, to: 2026-03-04 }, { from: 2025-01-01, to: 2025-03-01T12:00 }] }',
        'faults:',
        '  generator: [{ from: 2025-02-01, to: 2025-03-01 }, { from: 2025-03-09T12:00, to: 2025-04-01 }]',
      ),
    ).toEqual([
      `doubt at '{ from: 2026-03-02': people.away.0: found 2026-03-02 to 2026-03-04; expected some of it in the period, 10 days from 2025-03-01; it does nothing`,
      `doubt at '{ from: 2025-02-01': faults.generator.0: found 2025-02-01 to 2025-03-01; expected some of it in the period, 10 days from 2025-03-01; it does nothing`,
    ]);
  });

  it('what fails must be there', () => {
    expect(
      said(
        [noGenerator, [`control:\n  ${CHARGE}\n`, '']],
        'faults:',
        '  generator: [{ from: 2025-03-05, to: 2025-03-06 }]',
        '  bypass: [{ from: 2025-03-05, to: 2025-03-06 }]',
        '  units: [{ from: 2025-03-05, to: 2025-03-06, phase: 2, units: 2 }]',
      ),
    ).toEqual([
      `error at 'generator: [{ from: 2025-03-05': faults.generator: found a generator out of order; expected a generator`,
      `error at 'bypass: [{ from: 2025-03-05': faults.bypass: found a board on the generator alone; expected a generator`,
      `error at 'phase: 2': faults.units.0.phase: found phase 2; expected at most 1`,
      `error at 'units: 2': faults.units.0.units: found 2; expected at most 1 a phase`,
    ]);
  });
});

describe('starts by hand, full charges, exercise runs', () => {
  it('by state of charge need a battery', () => {
    const rules = 'hand: { startSoc: 0.3, stopSoc: 0.8 }\n  full: { everyDays: 14 }';
    const got = said([noBattery, control(rules), ['coupling: dc', 'coupling: ac']]);
    expect(got).toContain(
      `error at 'hand: { startSoc: 0.3': control.hand: found a rule by state of charge; expected a battery`,
    );
    expect(got).toContain(
      `error at 'full: { everyDays: 14': control.full: found a full charge; expected a battery`,
    );
  });

  it('must stop above where they start, and ask before it is dark', () => {
    expect(said([control('hand: { startSoc: 0.1, stopSoc: 0.1 }')])).toEqual([
      `error at 'stopSoc: 0.1': control.hand.stopSoc: found 0.1; expected above startSoc, 0.1`,
      `doubt at 'startSoc: 0.1': control.hand.startSoc: found 0.1; expected above the cut-off, 0.1; else somebody is asked when it is dark already`,
    ]);
  });

  it('at a share just above 1 are no percentage', () => {
    const [slip, percent] = said([control('hand: { startSoc: 1.2, stopSoc: 80 }')]);
    expect(slip).toContain('control.hand.startSoc: found 1.2; expected at most 1');
    expect(percent).toContain('control.hand.stopSoc: found 80; expected a share from 0 to 1: 0.8 for 80 %');
  });

  it('longer than the longest run are doubted', () => {
    expect(said([control('exercise: { everyDays: 7, at: "10:00", runMin: 90 }\n  maxRunH: 1')])).toEqual([
      `doubt at 'runMin: 90': control.exercise.runMin: found 90 min; expected within the longest run`,
    ]);
  });
});

describe('loads that are dropped or shifted', () => {
  it('are dropped below where they come back, and there must be some', () => {
    expect(said([control('shed: { belowSoc: 0.5, aboveSoc: 0.5 }')])).toEqual([
      `error at 'aboveSoc: 0.5': control.shed.aboveSoc: found 0.5; expected above belowSoc, 0.5`,
      `doubt at 'shed: { belowSoc: 0.5': control.shed: found nothing to shed; expected a load or appliance of class 'sheddable'`,
    ]);
    expect(said([['house: 1 }', 'house: 1 }, class: sheddable']])).toEqual([
      `doubt at 'control:': control: found sheddable load that nothing sheds; expected control.shed`,
    ]);
  });

  it('take no more than their power for a day, told without the rounding of a computer', () => {
    expect(said([], 'shiftable: [{ name: pump, watts: 600, kwhPerDay: 20, deadline: "18:00" }]')).toEqual([
      `error at 'kwhPerDay: 20': shiftable.0.kwhPerDay: found 20 kWh; expected at most 14.4 kWh, its power for a day`,
    ]);
  });

  it('must be few enough, counted by phase', () => {
    const three = [1, 2, 3].map(
      (i) => `  - { name: p${i}, watts: 900, kwhPerDay: 2, phase: all, deadline: "18:00" }`,
    );
    expect(said([['phases: 1', 'phases: 3']], 'shiftable:', ...three)).toEqual([
      `error at 'shiftable:': shiftable: found 9 single-phase loads; expected at most 8; a three-phase one is three`,
    ]);
    expect(said([], 'shiftable:', ...three)).toEqual([]);
  });

  it('stand on phases that are there, and fit into a day', () => {
    const loads = [
      '  - { name: a, watts: 500, kwhPerDay: 12.5, phase: 1, deadline: "18:00" }',
      '  - { name: b, watts: 500, kwhPerDay: 12, phase: 2, deadline: "18:00" }',
    ];
    expect(said([], 'shiftable:', ...loads)).toEqual([
      `error at 'kwhPerDay: 12.5': shiftable.0.kwhPerDay: found 12.5 kWh; expected at most 12 kWh, its power for a day`,
      `error at 'phase: 2': shiftable.1.phase: found phase 2; expected at most 1, or 'all'`,
    ]);
  });
});

describe('a calendar of thresholds', () => {
  it('changes only what there is', () => {
    expect(
      said([
        [
          CHARGE,
          'calendar:\n    - { name: a, startSoc: 0.4, peakStartKw: 3 }\n    - { name: b, stopSoc: 0.9, peakStopKw: 2 }',
        ],
      ]),
    ).toEqual([
      `doubt at 'control:': control: found a generator that nothing starts; expected charge, peak, hand, full, exercise or continuous`,
      `error at 'startSoc: 0.4': control.calendar.0.startSoc: found a charge threshold; expected control.charge`,
      `error at 'peakStartKw: 3': control.calendar.0.peakStartKw: found a peak threshold; expected control.peak`,
      `error at 'stopSoc: 0.9': control.calendar.1.stopSoc: found a charge threshold; expected control.charge`,
      `error at 'peakStopKw: 2': control.calendar.1.peakStopKw: found a peak threshold; expected control.peak`,
    ]);
  });

  it('and stays in order with what it leaves as it is', () => {
    const calendar =
      'peak: { startKw: 3, stopKw: 2 }\n  calendar:\n    - { name: a, startSoc: 0.85 }\n    - { name: b, peakStartKw: 1 }\n    - { name: c, startSoc: 0.4, hours: { from: "06:00", to: "06:00" } }';
    expect(said([control(calendar)])).toEqual([
      `error at '{ name: a': control.calendar.0.stopSoc: found 0.8; expected above where it starts then, 0.85`,
      `error at '{ name: b': control.calendar.1.peakStopKw: found 2 kW; expected at most 1 kW, where it starts then`,
      `error at 'hours: { from: "06:00"': control.calendar.2.hours: found 06:00 to 06:00; expected two times that differ`,
    ]);
  });
});

describe('sets and cabinets', () => {
  it('a second set needs a first, and phases that are there', () => {
    expect(said([noGenerator, [`control:\n  ${CHARGE}\n`, '']], SECOND)).toEqual([
      `error at 'secondGenerator: { ratedKw: 3': secondGenerator: found a second set; expected a first one, generator`,
    ]);
    expect(said([['ratedKw: 5,', 'ratedKw: 5, phase: 2,']], SECOND.replace('{', '{ phase: 3,'))).toEqual([
      `error at 'phase: 2': generator.phase: found phase 2; expected at most 1`,
      `error at 'phase: 3': secondGenerator.phase: found phase 3; expected at most 1`,
    ]);
  });

  it('battery cabinets hold no more modules than there are, and stand in weather', () => {
    expect(said([], `batteryCabinets: [${cabinet('a', 2)}, ${cabinet('b', 1)}]`)).toEqual([
      `error at 'batteryCabinets: [{ name: a': batteryCabinets: found 3 modules in them; expected at most battery.modules, 2`,
    ]);
    const got = said(
      [noBattery, ['weather: { format: csv, file: sky.csv, stamp: start, global: ghi, air: air }\n', '']],
      `batteryCabinets: [${cabinet('a', 2)}]`,
    );
    expect(got).toContain(
      `error at 'batteryCabinets: [{ name: a': batteryCabinets: found a cabinet; expected a weather file with the air temperature`,
    );
    expect(got).toContain(
      `error at 'batteryCabinets: [{ name: a': batteryCabinets: found 2 modules; expected a battery`,
    );
  });
});
