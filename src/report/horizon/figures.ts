import type { HorizonAlternative, HorizonStudy } from '../../scenarios/horizon-result.ts';
import { alone, asShown, decimalsFor, digits, figure, type Kind } from '../numbers.ts';
import { counted } from '../words.ts';

/** A figure over all years, beside what the first year multiplied says. */
export interface HorizonFigure {
  label: string;
  kind: Kind;
  /** the years as simulated; null where there is nothing of the sort */
  of: (alternative: HorizonAlternative) => number | null;
  /** the first year multiplied; null where it says nothing about it */
  shortcut: ((alternative: HorizonAlternative) => number) | null;
}

/** The figures over all years that the site has, in the order in which they are shown. */
export function horizonFigures({ alternatives }: HorizonStudy): HorizonFigure[] {
  const any = (has: (alternative: HorizonAlternative) => boolean) => alternatives.some(has);
  const figures: HorizonFigure[] = [];
  if (any(({ has }) => has.generator))
    figures.push(
      make(
        'Fuel',
        'litres',
        ({ sums }) => sums.fuelL,
        ({ shortcut }) => shortcut.fuelL,
      ),
      make(
        'Generator runs',
        'hours',
        ({ sums }) => sums.runH,
        ({ shortcut }) => shortcut.runH,
      ),
    );
  figures.push(
    make(
      'Unserved',
      'kwh',
      ({ sums }) => sums.unservedKwh,
      ({ shortcut }) => shortcut.unservedKwh,
    ),
  );
  if (any(({ has }) => has.battery))
    figures.push(
      make('Batteries bought later', 'count', (one) => (one.has.battery ? replacements(one).length : null)),
      make(
        'Capacity left at the end',
        'share',
        ({ years }) => years[years.length - 1].battery?.endFrac ?? null,
      ),
    );
  if (any(({ has }) => has.money))
    figures.push(
      make(
        'Life-cycle cost',
        'money',
        ({ sums }) => sums.lifeCycleCost,
        ({ shortcut }) => shortcut.lifeCycleCost,
      ),
      make('Levelised cost of energy served', 'moneyPerKwh', ({ money }) => money.levelisedCostPerKwh),
    );
  return figures;
}

function make(
  label: string,
  kind: Kind,
  of: HorizonFigure['of'],
  shortcut: HorizonFigure['shortcut'] = null,
): HorizonFigure {
  return { label, kind, of, shortcut };
}

/** The years in which the battery is replaced, as often as it is. */
export function replacements({ years }: HorizonAlternative): number[] {
  return years.flatMap(({ year, battery }) => (battery?.replacedAt ?? []).map(() => year));
}

/**
 * How far the first year multiplied is off, in words: "11 % too little", "within 0.5 %".
 * @returns null where both are nothing
 */
export function offWords(shortcut: number, simulated: number): string | null {
  if (shortcut === 0 && simulated === 0) return null;
  if (simulated === 0) return 'too much: there is none';
  if (shortcut === 0) return 'none of it';
  const share = shortcut / simulated - 1;
  if (Math.abs(share) < 0.005) return 'within 0.5 %';
  return `${percentOf(share)} too ${share < 0 ? 'little' : 'much'}`;
}

/** The same for a narrow column: "−11 %". */
export function offPercent(shortcut: number, simulated: number): string {
  if (simulated === 0) return '–';
  const share = shortcut / simulated - 1;
  return `${share < 0 ? '−' : '+'}${percentOf(share)}`;
}

function percentOf(share: number): string {
  const percent = 100 * Math.abs(share);
  return `${digits(percent, percent < 9.95 ? 1 : 0)} %`;
}

/** Fuel, hours and the like of one alternative in a sentence. */
export function shown(kind: Kind, value: number, currency = ''): string {
  return kind === 'money' ? figure(kind, value, 0, currency) : alone(kind, value, currency);
}

/** A figure of all alternatives with as many digits as suit them together. */
export function shownTogether(kind: Kind, values: readonly (number | null)[], currency: string): string[] {
  const decimals = decimalsFor(kind, values);
  return values.map((value) => figure(kind, value, decimals, currency));
}

/** Capacity left in whole percent, "81 %". */
export function percentLeft(frac: number): string {
  return figure('share', asShown('share', frac, 0), 0);
}

export function yearsWord(count: number): string {
  return counted(String(count), 'year');
}
