/** Random visits: sites without one part or another, logs without columns, nothing to change, nothing to compare. */
import fc from 'fast-check';
import { RECORDED } from '../../../src/scenarios/log/site-record.ts';
import {
  CAUSES,
  ESTIMATED,
  type Estimate,
  FAULTS,
  type Fault,
  type Retune,
  type Sums,
  type Visit,
} from '../../../src/scenarios/visit/visit.ts';
import { evidenceOf, richVisit } from './fixture-visit.ts';

const DAY_S = 86_400;
const FROM_S = Date.UTC(2025, 5, 3, 22) / 1000;

/** Often nothing, often 1, else anything: where grammar breaks. */
const amount = (max: number) =>
  fc.oneof(
    fc.constantFrom(0, 1, 0.004),
    fc.double({ min: 0, max, noNaN: true }),
    fc.double({ min: 0, max: 3, noNaN: true }),
  );
const orNull = <T>(value: fc.Arbitrary<T>) => fc.option(value, { freq: 4, nil: null });

const sums = (fuel: boolean, hours: boolean): fc.Arbitrary<Sums> =>
  fc.record({
    loadKwh: orNull(amount(20_000)),
    arrayKwh: orNull(amount(20_000)),
    generatorKwh: orNull(amount(8000)),
    fuelL: fuel ? amount(4000) : fc.constant(null),
    runH: hours ? amount(900) : fc.constant(null),
    starts: hours ? fc.nat(500) : fc.constant(null),
    lowestSoc: orNull(fc.double({ min: 0, max: 1, noNaN: true })),
  });

const stretch = (days: number) =>
  fc.tuple(fc.nat(days - 1), fc.nat(days - 1)).map(([a, b]) => ({
    fromS: FROM_S + Math.min(a, b) * DAY_S,
    toS: FROM_S + (Math.max(a, b) + 1) * DAY_S,
  }));

const column = fc.constantFrom<string>(...RECORDED, 'array:barn');

const estimateOf = (key: Estimate['key'], days: number): fc.Arbitrary<Estimate> =>
  fc.oneof(
    fc
      .record({
        value: amount(2),
        half: fc.oneof(fc.constant(0), fc.double({ min: 1e-6, max: 0.5, noNaN: true })),
        designed: orNull(amount(2)),
        count: fc.constantFrom(1, 2, 40),
        of: fc.constantFrom('days' as const, 'nights' as const, 'runs' as const, 'swings' as const),
        stretch: stretch(days),
      })
      .map(({ value, half, designed, count, of, stretch }) => ({
        ...{ key, value, low: value - half, high: value + half, designed, basis: { count, of }, ...stretch },
      })),
    fc
      .record({
        why: fc.constantFrom('no-column' as const, 'too-little' as const, 'not-told-apart' as const),
        lacks: column,
      })
      .map((refused) => ({ key, value: null, ...refused })),
  );

const faultOf = (kind: Fault['kind'], days: number): fc.Arbitrary<Fault> =>
  fc
    .record({
      part: orNull(fc.constantFrom('barn', 'phase 2')),
      size: amount(5),
      told: fc.array(amount(40), { minLength: 5, maxLength: 5 }),
      unit: fc.constantFrom(
        '0 to 1' as const,
        'kW' as const,
        '°C' as const,
        '1/day' as const,
        'L/day' as const,
        'L' as const,
      ),
      stretch: stretch(days),
    })
    .map(({ part, size, unit, stretch, told }) => ({
      kind,
      part,
      size,
      unit,
      ...stretch,
      evidence: evidenceOf(kind, (i) => told[i]),
    }));

const range = fc
  .tuple(fc.double({ min: -5, max: 30, noNaN: true }), amount(5), amount(5))
  .map(([value, below, above]) => ({ value, low: value - below, high: value + above }));

const NONE = { value: 0, low: 0, high: 0 };

function retuneFor(generator: boolean): fc.Arbitrary<Retune> {
  const nothing = (why: Retune['why']): Retune => ({
    ...{ changes: null, why, litresAMonth: NONE, hoursAMonth: NONE, startsAMonth: NONE },
  });
  if (!generator) return fc.constant(nothing('no-generator'));
  return fc.oneof(
    fc.constantFrom(nothing('nothing-better'), nothing('not-calibrated')),
    fc.record({
      changes: fc.subarray(
        [
          { path: 'control.charge.startSoc', from: 0.4, to: 0.25 },
          { path: 'control.minRunMin', from: 45, to: 75 },
          { path: 'control.chargeTargetKw', from: null, to: 12 },
        ],
        { minLength: 1 },
      ),
      why: fc.constant('found' as const),
      litresAMonth: range,
      hoursAMonth: range,
      startsAMonth: range,
    }),
  );
}

const flags = fc.record({
  generator: fc.boolean(),
  battery: fc.boolean(),
  array: fc.boolean(),
  cabinet: fc.boolean(),
});

/** Faults and estimates that a site with these parts can have. */
function fits(what: string, { generator, battery, array, cabinet }: Visit['parts']): boolean {
  if (/dead-string|arrayFactor|^sun|^array/.test(what) && !array) return false;
  if (/weak|fuel|charge|start|stop|hours/i.test(what) && !generator) return false;
  if (/^soc|usable|oneWay|battery|thresholds|chargeKw|Soc$|heater|timeConstant/.test(what) && !battery)
    return false;
  if (/heater|cooler|cooling|timeConstant|cabinet/.test(what) && !cabinet) return false;
  return true;
}

export const randomVisit: fc.Arbitrary<Visit> = fc
  .record({
    parts: flags,
    days: fc.constantFrom(1, 9, 40, 130, 500),
    fuel: fc.boolean(),
    hours: fc.boolean(),
  })
  .chain(({ parts, days, fuel, hours }) => {
    const visit = richVisit();
    const dayKwh = fc.array(fc.oneof(fc.constant(null), amount(60)), {
      minLength: days,
      maxLength: days,
    });
    const those = <T extends string>(all: readonly T[]) =>
      fc.subarray(all.filter((each) => fits(each, parts)));
    return fc.record({
      site: fc.constant({ ...visit.site, name: 'Site', note: '' }),
      invented: fc.boolean(),
      parts: fc.constant(parts),
      fuelPerL: orNull(fc.constantFrom(0, 0.5, 1.6)),
      tank: orNull(fc.record({ levelL: amount(900), litresADay: amount(30), daysLeft: orNull(amount(200)) })),
      timeZone: fc.constantFrom('Europe/Vienna', '+02:00'),
      fromS: fc.constant(FROM_S),
      toS: fc.constant(FROM_S + days * DAY_S),
      stepMin: fc.constantFrom(1, 5, 15),
      record: fc.record({
        ...{ file: fc.constant('log.csv'), timeZone: fc.constant('+01:00'), rows: fc.nat(100_000) },
        columns: fc.subarray(visit.record.columns),
        gaps: fc.subarray(visit.record.gaps.map((gap) => ({ ...gap, startS: FROM_S }))),
        ...{ duplicates: fc.nat(2), resets: fc.nat(2) },
        clock: fc.record({
          addedH: fc.constantFrom(0, 1, -0.25),
          driftHPerDay: fc.constantFrom(0, 0.001, -0.001),
          by: fc.constantFrom('sun' as const, 'right' as const, 'unknown' as const),
        }),
      }),
      comparison: fc.record({
        designed: sums(true, true),
        ran: sums(fuel, hours),
        calibrated: sums(fuel, hours),
        coverage: fc.constantFrom(0, 0.004, 0.6, 1),
        fuelFrom: fc.constantFrom('tank' as const, 'curve' as const, null),
        filled: fc.record({ loadSteps: fc.nat(100), sunSteps: fc.nat(100) }),
        asDesigned: fc.boolean(),
        causes: those(CAUSES).chain((kinds) =>
          fc.tuple(
            ...kinds.map((kind) =>
              fc.record({
                kind: fc.constant(kind),
                generatorKwh: fc.double({ min: -500, max: 900, noNaN: true }),
                fuelL: fuel ? fc.double({ min: -200, max: 400, noNaN: true }) : fc.constant(null),
                runH: fc.double({ min: -60, max: 90, noNaN: true }),
              }),
            ),
          ),
        ),
        days: fc.record({
          ...{ designedKwh: dayKwh, ranKwh: dayKwh, calibratedKwh: dayKwh },
          startS: fc.constant(Array.from({ length: days }, (_, day) => FROM_S + day * DAY_S)),
        }),
      }),
      estimates: those(ESTIMATED).chain((keys) => fc.tuple(...keys.map((key) => estimateOf(key, days)))),
      calibration: fc.constant({}),
      faults: those(FAULTS).chain((kinds) => fc.tuple(...kinds.map((kind) => faultOf(kind, days)))),
      notLookedFor: those(FAULTS).map((kinds) => kinds.map((kind) => ({ kind, lacks: 'cellC' }))),
      retune: retuneFor(parts.generator),
      extensions: fc.subarray(visit.extensions),
      doubts: fc.subarray(visit.doubts),
      made: fc.constant(visit.made),
    });
  })
  .map((visit) => visit as Visit);
