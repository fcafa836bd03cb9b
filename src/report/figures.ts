import { MOST_BATTERY_YEARS } from '../scenarios/battery-life.ts';
import type { AlternativeResult, Study } from '../scenarios/study.ts';
import { START_CAUSES } from '../sim/causes.ts';
import { groupKwh, groupsWorthALine, LOSS_GROUPS, type LossGroup } from './array-losses.ts';
import { arrayUsedKwh, hasArray, hasBattery, hasGenerator, hasMoney } from './facts.ts';
import { chosenLoadFigures, generatorCareFigures } from './figures-chosen.ts';
import type { Kind } from './numbers.ts';
import { LOSS_LABELS, START_LABELS } from './words.ts';

/** One figure of the comparison: what it is called and how it is read from a result. */
export interface Figure {
  key: string;
  label: string;
  kind: Kind;
  /** a figure that decides between alternatives: it gets a picture of its own */
  decides: boolean;
  /** which way is better; null: neither by itself */
  better: 'less' | 'more' | null;
  /** a part of the figure above it */
  part: boolean;
  /** left out where it is nothing in every alternative */
  onlyIfAny: boolean;
  /** null where the alternative has nothing of the sort */
  of: (result: AlternativeResult) => number | null;
}

/** The figures that a study's site has, in the order in which they are shown. */
export function figuresOf(study: Study): Figure[] {
  const lost = LOSS_GROUPS.filter((group) =>
    study.alternatives.some((one) => groupsWorthALine(one).includes(group)),
  );
  const all = [
    ...generatorFigures(),
    ...supplyFigures(),
    ...lost.map(lostFigure),
    ...climateFigures(),
    ...batteryFigures(),
  ];
  if (hasMoney(study)) all.push(...moneyFigures(study));
  return all.filter((figure) => isInSite(figure, study.alternatives));
}

function isInSite(figure: Figure, results: readonly AlternativeResult[]): boolean {
  const values = results.map(figure.of).filter((value) => value !== null);
  return values.length > 0 && (!figure.onlyIfAny || values.some((value) => value !== 0));
}

type Options = Partial<Pick<Figure, 'decides' | 'better' | 'part' | 'onlyIfAny'>>;

function make(key: string, label: string, kind: Kind, of: Figure['of'], options: Options = {}): Figure {
  return { key, label, kind, of, decides: false, better: 'less', part: false, onlyIfAny: false, ...options };
}

function generatorFigures(): Figure[] {
  const ifGenerator = (read: (result: AlternativeResult) => number) => (result: AlternativeResult) =>
    hasGenerator(result) ? read(result) : null;
  return [
    make(
      'runH',
      'Generator runs',
      'hours',
      ifGenerator(({ ledger }) => ledger.totals.runH),
      { decides: true },
    ),
    make(
      'nightH',
      'of that at night',
      'hours',
      ifGenerator(({ ledger }) => ledger.totals.nightH),
      {
        part: true,
        onlyIfAny: true,
      },
    ),
    make(
      'lowLoadH',
      'of that below 30 % load',
      'hours',
      ifGenerator(({ ledger }) => ledger.totals.lowLoadH),
      {
        part: true,
      },
    ),
    make(
      'starts',
      'Generator starts',
      'count',
      ifGenerator(({ ledger }) => ledger.totals.starts),
      { decides: true },
    ),
    ...START_CAUSES.map((cause) =>
      make(
        `starts:${cause}`,
        START_LABELS[cause],
        'count',
        ifGenerator(({ ledger }) => ledger.totals.startsByCause[cause]),
        { part: true, onlyIfAny: true, better: null },
      ),
    ),
    make(
      'fuelL',
      'Fuel',
      'litres',
      ifGenerator(({ ledger }) => ledger.totals.fuelL),
      { decides: true },
    ),
    make(
      'deliveries',
      'Fuel deliveries',
      'count',
      ({ plant, ledger }) => (plant.tank ? ledger.totals.deliveries : null),
      {
        onlyIfAny: true,
      },
    ),
    ...generatorCareFigures(),
  ];
}

function supplyFigures(): Figure[] {
  return [
    make('unservedKwh', 'Load unserved', 'kwh', ({ ledger }) => ledger.totals.unservedKwh, { decides: true }),
    make('unservedH', 'time unserved', 'hours', ({ ledger }) => ledger.totals.unservedH, {
      part: true,
      onlyIfAny: true,
    }),
    make('outages', 'interruptions', 'count', ({ ledger }) => ledger.totals.outages, {
      part: true,
      onlyIfAny: true,
    }),
    ...chosenLoadFigures(),
    make('arrayShare', 'Share of the array in the supply', 'share', arrayShare, { better: 'more' }),
    make('curtailedKwh', 'Array output turned away', 'kwh', (result) =>
      hasArray(result) ? result.ledger.totals.curtailedKwh : null,
    ),
    make(
      'frostKwh',
      'refused: cells too cold or hot',
      'kwh',
      (result) => (hasArray(result) && hasBattery(result) ? result.ledger.totals.frostKwh : null),
      { part: true, onlyIfAny: true },
    ),
  ];
}

/** Energy that snow, horizon or converters keep from the site. */
function lostFigure(group: LossGroup): Figure {
  return make(`lost:${group}`, LOSS_LABELS[group], 'kwh', (result) => groupKwh(result, group), {
    onlyIfAny: true,
  });
}

function climateFigures(): Figure[] {
  return [
    make('climateKwh', 'Cabinet heating and cooling', 'kwh', ({ plant, ledger }) =>
      plant.cabinet ? ledger.totals.climateKwh : null,
    ),
  ];
}

function batteryFigures(): Figure[] {
  return [
    make(
      'minSoc',
      'Battery at its lowest',
      'share',
      (result) => (hasBattery(result) ? result.ledger.extremes.minSoc : null),
      {
        better: 'more',
      },
    ),
    make('cycles', 'Full equivalent cycles', 'cycles', fullCycles),
    make(
      'batteryYears',
      `Battery life (${MOST_BATTERY_YEARS} at most)`,
      'years',
      (result) => (hasBattery(result) ? result.batteryLifeYears : null),
      {
        better: 'more',
      },
    ),
  ];
}

function moneyFigures(study: Study): Figure[] {
  const { years } = study.alternatives[0].money;
  const over = years === 1 ? '1 year' : `${years} years`;
  return [
    make('co2Kg', 'CO₂ in the first year', 'kg', (result) =>
      hasGenerator(result) ? result.money.co2FirstYearKg : null,
    ),
    make('capital', 'Capital', 'money', ({ money }) => money.capital),
    make('runningFirstYear', 'Running cost, first year', 'money', ({ money }) => money.runningFirstYear, {
      decides: true,
    }),
    make('lifeCycleCost', `Life-cycle cost over ${over}`, 'money', ({ money }) => money.lifeCycleCost, {
      decides: true,
    }),
    make('levelised', 'Levelised cost of energy', 'moneyPerKwh', ({ money }) => money.levelisedCostPerKwh),
  ];
}

/** Array energy used over array and generator energy; null where nothing was generated or there is no array. */
function arrayShare(result: AlternativeResult): number | null {
  const { totals } = result.ledger;
  const generated = arrayUsedKwh(totals) + totals.generatorKwh;
  return hasArray(result) && generated > 0 ? arrayUsedKwh(totals) / generated : null;
}

/** Energy taken out of the store over its capacity. */
function fullCycles(result: AlternativeResult): number | null {
  const { battery } = result.plant;
  if (battery === null) return null;
  return result.ledger.totals.dischargeKwh / battery.dischargeEff / battery.capacityKwh;
}
