import type { AlternativeResult } from '../scenarios/study.ts';
import type { Totals } from '../sim/ledger.ts';
import type { Figure } from './figures.ts';
import type { Kind } from './numbers.ts';

/** A total of the ledger as a figure, left out where it is nothing everywhere. */
function total(key: keyof Totals, label: string, kind: Kind, options: Partial<Figure> = {}): Figure {
  return {
    ...{ key, label, kind, decides: false, better: 'less', part: false, onlyIfAny: true },
    of: ({ ledger }: AlternativeResult) => ledger.totals[key] as number,
    ...options,
  };
}

/** Load dropped or moved on purpose, and short overloads. */
export function chosenLoadFigures(): Figure[] {
  return [
    total('shedKwh', 'Load shed on purpose', 'kwh'),
    total('shedH', 'time shed', 'hours', { part: true }),
    total('shiftedKwh', 'Shiftable load run on surplus', 'kwh', { better: 'more' }),
    total('shiftForcedKwh', 'Shiftable load run at its deadline', 'kwh'),
    total('shiftMissedKwh', 'Shiftable load not run', 'kwh'),
    total('overloadKwh', 'Short overloads carried', 'kwh', { better: null }),
    total('trips', 'Inverter trips', 'count'),
    total('lockOuts', 'Inverters locked out', 'count'),
  ];
}

/** What goes wrong with the generator, who has to come, and its second set. */
export function generatorCareFigures(): Figure[] {
  return [
    total('failedAttempts', 'Start attempts that failed', 'count'),
    total('startLockOuts', 'Generator locked out', 'count'),
    total('visits', 'Persons called and come', 'count'),
    total('secondRunH', 'of its hours, the second set', 'hours', { better: null }),
    total('secondFuelL', 'of the fuel, the second set’s', 'litres', { better: null }),
    total('ownKwh', 'Generator’s own use', 'kwh'),
  ];
}
