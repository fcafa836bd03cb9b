import type { HorizonAlternative, HorizonYear } from '../../scenarios/horizon-result.ts';
import { bareFigure, decimalsFor, digits, type Kind } from '../numbers.ts';

/** A column of the table of years: its head, its unit and a text for each year. */
export interface YearColumn {
  head: string;
  unit: string;
  texts: string[];
  /** words rather than a number */
  words: boolean;
}

/** The years of an alternative as columns; those that say nothing in any year are left out. */
export function yearColumns(alternative: HorizonAlternative, currency: string): YearColumn[] {
  const { years, has, loadGrowth, money } = alternative;
  const number = (head: string, unit: string, kind: Kind, of: (year: HorizonYear) => number): YearColumn => {
    const values = years.map(of);
    const decimals = kind === 'kwh' ? decimalsFor(kind, values) : 0;
    return { head, unit, texts: values.map((value) => bareFigure(kind, value, decimals)), words: false };
  };
  const ifAny = (head: string, of: (year: HorizonYear) => number): YearColumn[] => {
    if (!years.some((year) => of(year) > 0)) return [];
    return [
      { head, unit: '', texts: years.map((year) => (of(year) > 0 ? digits(of(year)) : '')), words: false },
    ];
  };
  const columns = [number('Year', '', 'count', ({ year }) => year)];
  if (years.some(({ weather }) => weather !== null))
    columns.push({
      head: 'Weather',
      unit: '',
      texts: years.map(({ weather }) => weather ?? ''),
      words: true,
    });
  if (loadGrowth !== 0) columns.push(number('Load', 'kWh', 'kwh', ({ loadKwh }) => loadKwh));
  if (has.generator)
    columns.push(
      number('Fuel', 'L', 'litres', ({ fuelL }) => fuelL),
      number('Runs', 'h', 'hours', ({ runH }) => runH),
      number('Starts', '', 'count', ({ starts }) => starts),
    );
  columns.push(number('Unserved', 'kWh', 'kwh', ({ unservedKwh }) => unservedKwh));
  if (years.some(({ shedKwh }) => shedKwh > 0))
    columns.push(number('Shed', 'kWh', 'kwh', ({ shedKwh }) => shedKwh));
  if (has.battery)
    columns.push(
      { head: 'Capacity', unit: '%', texts: years.map(capacityText), words: false },
      number('Lowest charge', '%', 'share', ({ battery }) => battery?.minSoc ?? 0),
    );
  columns.push(
    ...ifAny('Call-outs', ({ visits }) => visits),
    ...ifAny('Services', ({ serviceVisits }) => serviceVisits),
    ...ifAny('Overhauls', ({ overhauls }) => overhauls),
    ...ifAny('New battery', ({ battery }) => battery?.replacedAt.length ?? 0),
  );
  if (has.money) columns.push(number('Paid', currency, 'money', ({ year }) => money.cashFlow[year].total));
  return columns;
}

/** Capacity left at the year's start and end: "97 to 95". */
function capacityText({ battery }: HorizonYear): string {
  if (battery === null) return '';
  return `${digits(100 * battery.startFrac)} to ${digits(100 * battery.endFrac)}`;
}
