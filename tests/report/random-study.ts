/** Random studies without a simulation: ledgers of any numbers, for what is written and drawn from them. */
import fc from 'fast-check';
import type { Money } from '../../src/scenarios/money.ts';
import type { AlternativeResult, Study } from '../../src/scenarios/study.ts';
import { OUTAGE_CAUSES, type OutageCause, START_CAUSES, type StartCause } from '../../src/sim/causes.ts';
import { makeColumns } from '../../src/sim/columns.ts';
import type { Inputs } from '../../src/sim/inputs.ts';
import type { GeneratorRun, Ledger, Outage, Totals } from '../../src/sim/ledger.ts';
import { inventedChecks } from './fixture-checks.ts';
import { plainMoney } from './fixture-money.ts';
import { inventedControls, inventedPlant } from './fixture-site.ts';
import { inventedYields } from './invented-yields.ts';

/** What a random alternative has. */
interface Parts {
  generator: boolean;
  battery: boolean;
  array: boolean;
  tank: boolean;
  cabinet: boolean;
  charge: boolean;
  peak: boolean;
}

const parts: fc.Arbitrary<Parts> = fc.record({
  generator: fc.boolean(),
  battery: fc.boolean(),
  array: fc.boolean(),
  tank: fc.boolean(),
  cabinet: fc.boolean(),
  charge: fc.boolean(),
  peak: fc.boolean(),
});

/** Sizes that sentences stumble over: nothing, traces, one, and anything. */
const amount = fc.oneof(
  fc.constantFrom(0, 1e-9, 0.004, 0.5, 0.95, 1, 1.04, 9.96, 99.5, 999.6, 12345.6),
  fc.double({ min: 0, max: 50_000, noNaN: true }),
);
const count = fc.oneof(fc.constantFrom(0, 1, 2), fc.integer({ min: 0, max: 3000 }));

/** A study of one to five alternatives over one of a few lengths. */
export const randomStudy: fc.Arbitrary<Study> = fc
  .record({
    days: fc.constantFrom(2, 7, 31, 365, 366),
    stepMin: fc.constantFrom(30, 60),
    alternatives: fc.integer({ min: 1, max: 5 }),
    zone: fc.constantFrom('+10:00', 'UTC', 'Europe/Berlin', 'Australia/Sydney'),
    currency: fc.constantFrom('$', 'AUD', '€', 'kr'),
    priced: fc.boolean(),
  })
  .chain(({ days, stepMin, alternatives, zone, currency, priced }) =>
    fc
      .array(randomResult(days, stepMin, priced), { minLength: alternatives, maxLength: alternatives })
      .map((results) => ({
        site: { name: 'Random <site> & "sons"', note: '', latDeg: 12, lonDeg: -3, currency },
        axis: { startS: Date.UTC(2025, 0, 1) / 1000, stepMin, count: (days * 1440) / stepMin },
        timeZone: zone,
        alternatives: results.map((result, i) => ({
          ...result,
          name: `alternative ${String.fromCharCode(65 + i)}`,
        })),
        sheets: [],
        doubts: [],
        made: { version: '0', inputsHash: '0' },
      }))
      .map(named),
  );

/** A failing study is named by its size, not printed with all its columns. */
function named(study: Study): Study {
  const words = `study of ${study.alternatives.length} alternatives, ${study.axis.count} steps of ${study.axis.stepMin} min`;
  return Object.defineProperty(study, fc.toStringMethod, { value: () => words });
}

function randomResult(days: number, stepMin: number, priced: boolean): fc.Arbitrary<AlternativeResult> {
  return fc
    .record({
      has: parts,
      modules: fc.integer({ min: 1, max: 40 }),
      capital: amount,
      seed: fc.integer({ min: 0, max: 1e6 }),
    })
    .chain(({ has, modules, capital, seed }) =>
      randomLedger(days, stepMin, has).map((ledger) => {
        const plant = inventedPlant(modules);
        if (!has.generator) plant.generator = null;
        if (!has.battery) plant.battery = null;
        if (!has.tank) plant.tank = null;
        if (!has.cabinet) plant.cabinet = null;
        const controls = inventedControls(0.3, 0.8);
        if (!has.charge) controls.charge = null;
        if (!has.peak) controls.peak = null;
        const inputs = randomInputs(ledger.count, stepMin, has.array, seed);
        return {
          name: '',
          note: '',
          changes: [{ path: 'battery.modules', from: 12, to: modules }],
          plant,
          controls,
          inputs,
          ledger,
          columns: randomColumns(ledger.count, has, seed),
          money: priced ? plainMoney(ledger, capital, has.battery ? modules * 5 : 0) : noMoney(ledger),
          yields: has.array ? inventedYields(ledger.periods.length, seed) : [],
          efficiencyFit: null,
          batteryLifeYears: has.battery ? modules : null,
          checks: has.charge ? inventedChecks(modules * 5) : [],
          darkWeek:
            days < 7
              ? null
              : {
                  fromStep: 0,
                  toStep: (7 * 1440) / stepMin,
                  loadKwh: 100,
                  arrayKwh: 20,
                  generatorKwh: 0,
                  unservedKwh: 0,
                },
        };
      }),
    );
}

function randomLedger(days: number, stepMin: number, has: Parts): fc.Arbitrary<Ledger> {
  const hours = days * 24;
  const run = fc.record({
    start: fc.double({ min: 0, max: 0.9999, noNaN: true }),
    length: fc.double({ min: 0.01, max: 30, noNaN: true }),
    cause: fc.constantFrom<StartCause>(...possibleCauses({ ...has, generator: true })),
    soc: fc.double({ min: 0, max: 1, noNaN: true }),
    kwh: amount,
  });
  const outage = fc.record({
    start: fc.double({ min: 0, max: 0.9999, noNaN: true }),
    kwh: amount,
    cause: fc.constantFrom<OutageCause>(...OUTAGE_CAUSES.slice(0, has.generator ? undefined : 3)),
  });
  return fc
    .record({
      totals: randomTotals(has),
      month: randomTotals(has),
      runs: fc.array(run, { maxLength: has.generator ? 40 : 0 }),
      outages: fc.array(outage, { maxLength: 6 }),
      minSoc: fc.double({ min: 0, max: 1, noNaN: true }),
    })
    .map(({ totals, month, runs, outages, minSoc }) => {
      const list = runs
        .map((each): GeneratorRun => {
          const startH = each.start * hours;
          const endH = Math.min(hours, startH + each.length);
          const onLoadH = endH - startH;
          return {
            startH,
            endH,
            onLoadH,
            cause: each.cause,
            socStart: each.soc,
            socEnd: each.soc,
            kwh: each.kwh,
            litres: each.kwh / 3,
            meanKw: onLoadH > 0 ? each.kwh / onLoadH : null,
            ranDry: false,
          };
        })
        .sort((a, b) => a.startH - b.startH);
      return {
        stepMin,
        count: (hours * 60) / stepMin,
        totals,
        periods: days > 360 ? Array.from({ length: 12 }, () => month) : [],
        extremes: {
          minSoc: has.battery ? minSoc : null,
          coldestCellC: 0,
          hottestCellC: 30,
          hottestAirC: 40,
          lowestTankL: has.tank ? 10 : null,
          residualKwh: null,
        },
        runs: list,
        outages: outages
          .map(
            (each): Outage => ({
              startH: each.start * hours,
              endH: each.start * hours + 0.2,
              kwh: each.kwh,
              cause: each.cause,
            }),
          )
          .sort((a, b) => a.startH - b.startH),
        storedStartKwh: 0,
        storedEndKwh: 0,
        tankEndL: 0,
      };
    });
}

function randomTotals(has: Parts): fc.Arbitrary<Totals> {
  return fc
    .record({
      a: fc.array(amount, { minLength: 24, maxLength: 24 }),
      starts: fc.array(count, { minLength: START_CAUSES.length, maxLength: START_CAUSES.length }),
      outages: count,
      served: fc.boolean(),
    })
    .map(({ a, starts, outages, served }) => {
      const byCause = START_CAUSES.map((cause, i) => (possibleCauses(has).includes(cause) ? starts[i] : 0));
      const total = byCause.reduce((sum, each) => sum + each, 0);
      const engine = (value: number) => (has.generator && total > 0 ? value : 0);
      const array = (value: number) => (has.array ? value : 0);
      const unserved = served ? 0 : Math.min(a[0], a[1]);
      const possible = has.generator ? OUTAGE_CAUSES.length : 3;
      const unservedByCause = OUTAGE_CAUSES.map((_, i) => (i === outages % possible ? unserved : 0));
      return {
        loadKwh: a[0],
        servedKwh: a[0] - unserved,
        unservedKwh: unserved,
        unservedByPhaseKwh: [unserved],
        unservedByCauseKwh: byName(OUTAGE_CAUSES, unservedByCause),
        unservedH: unserved > 0 ? a[2] : 0,
        outages: unserved > 0 ? outages : 0,
        generatorKwh: engine(a[3]),
        fuelL: engine(a[4]),
        runH: engine(a[5]),
        onLoadH: engine(a[5]),
        lowLoadH: engine(Math.min(a[5], a[6])),
        nightH: engine(Math.min(a[5], a[7])),
        loadingH: Array.from({ length: 10 }, (_, i) => engine(a[8 + (i % 4)])),
        starts: total,
        startsByCause: byName(START_CAUSES, byCause),
        dcPotentialKwh: array(a[12] + a[13] + 1),
        dcUsedKwh: array(a[12]),
        acPotentialKwh: 0,
        acUsedKwh: 0,
        curtailedKwh: array(a[13] + 1),
        chargeKwh: a[14],
        dischargeKwh: a[15],
        batteryLossKwh: 0,
        standbyKwh: 0,
        idleKwh: 0,
        inverterLossKwh: 0,
        chargerLossKwh: 0,
        climateKwh: has.cabinet ? a[16] : 0,
        coolerKwh: 0,
        heaterKwh: 0,
        frostKwh: array(a[17]),
        deratedKwh: 0,
        overloadKwh: 0,
        trips: 0,
        lockOuts: 0,
        failedAttempts: 0,
        startLockOuts: 0,
        visits: 0,
        ownKwh: 0,
        secondFuelL: 0,
        secondRunH: 0,
        shedKwh: 0,
        shedH: 0,
        shiftedKwh: 0,
        shiftForcedKwh: 0,
        shiftMissedKwh: 0,
        floorH: 0,
        cutoffH: 0,
        deadH: 0,
        deliveries: has.tank ? outages : 0,
        deliveredL: 0,
      };
    });
}

/** A low battery and a full charge start nothing where there is no battery. */
function possibleCauses(has: Parts): StartCause[] {
  if (!has.generator) return [];
  return START_CAUSES.filter((cause) => has.battery || (cause !== 'charge' && cause !== 'full'));
}

function byName<Name extends string>(
  names: readonly Name[],
  values: readonly number[],
): Record<Name, number> {
  return Object.fromEntries(names.map((name, i) => [name, values[i]])) as Record<Name, number>;
}

function randomInputs(count: number, stepMin: number, array: boolean, seed: number): Inputs {
  const wave = (size: number) =>
    Float64Array.from({ length: count }, (_, i) => Math.max(0, size * Math.sin((i + seed) / 7)));
  return { stepMin, count, loadKw: [wave(4)], ...(array ? { dcArrayKw: wave(9) } : {}) };
}

function randomColumns(count: number, has: Parts, seed: number): AlternativeResult['columns'] {
  const columns = makeColumns(count);
  for (let i = 0; i < count; i++) {
    columns.socFrac[i] = has.battery ? (Math.sin((i + seed) / 11) + 1) / 2 : 0;
    columns.batteryKw[i] = has.battery ? 3 * Math.cos((i + seed) / 11) : 0;
    columns.generatorKw[i] = has.generator && i % 50 < 4 ? 12 : 0;
    columns.unservedKw[i] = i % 97 === 0 ? 1 : 0;
    if (has.array) columns.dcUsedKw[i] = Math.max(0, 5 * Math.sin((i + seed) / 7));
    if (has.array) columns.curtailedKw[i] = Math.max(0, 4 * Math.sin((i + seed) / 7));
  }
  return columns;
}

function noMoney(ledger: Ledger): Money {
  const money = plainMoney(ledger, 0, 0);
  const nothing = {
    capital: 0,
    fuel: 0,
    service: 0,
    unserved: 0,
    visits: 0,
    overhaul: 0,
    battery: 0,
    residual: 0,
    total: 0,
    presentValue: 0,
  };
  return {
    ...money,
    fuelFirstYear: 0,
    serviceFirstYear: 0,
    runningFirstYear: 0,
    runningByMonth: ledger.periods.map(() => 0),
    cashFlow: money.cashFlow.map(({ year }) => ({ year, ...nothing })),
    lifeCycleCost: 0,
    levelisedCostPerKwh: null,
    batteryReplacedInYears: [],
  };
}
