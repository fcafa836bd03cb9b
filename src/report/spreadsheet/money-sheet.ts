import type { Alternative } from '../../scenarios/alternatives.ts';
import { bankPrice } from '../../scenarios/life-cycle.ts';
import type { YearOfMoney } from '../../scenarios/money.ts';
import type { AlternativeResult, Study } from '../../scenarios/study.ts';
import {
  cellOf,
  columnName,
  formula,
  head,
  number,
  type SheetCell,
  type SheetRow,
  text,
  title,
  type WorkbookSheet,
} from './cell.ts';
import { inputCell } from './inputs-sheet.ts';

const SHEET = 'Money';
const HEADS = [
  'Year',
  'To build',
  'Fuel',
  'Service',
  'Not supplied',
  'Call-outs',
  'Overhaul',
  'Battery',
  'Residual',
  'Total',
  'Present value',
  'Served, discounted kWh',
];
/** Columns that formulas name. */
const TOTAL = 9;
const PRESENT = 10;
const SERVED = 11;
const ROWS_ABOVE = 2;

/** Rows of an alternative's block: its name, heads, years 0 to the last, sums, an empty row. */
function blockRows(years: number): number {
  return years + 5;
}

/** The row in which an alternative's sums stand. */
function sumRow(study: Study, place: number): number {
  const before = study.alternatives
    .slice(0, place)
    .reduce((sum, { money }) => sum + blockRows(money.years), 0);
  return ROWS_ABOVE + before + 2 + study.alternatives[place].money.years + 1;
}

/** Cells with what comes out, for other sheets. */
export function lifeCycleCell(study: Study, place: number): string {
  return cellOf(SHEET, sumRow(study, place), PRESENT);
}

export function servedCell(study: Study, place: number): string {
  return cellOf(SHEET, sumRow(study, place), SERVED);
}

/** Money year by year, an alternative below the other, worked out from the inputs by formulas. */
export function moneySheet(study: Study, alternatives: readonly Alternative[]): WorkbookSheet {
  const data: SheetRow[] = [[title(`Money year by year, ${study.site.currency}, in today’s money`)], []];
  for (const [i, result] of study.alternatives.entries())
    data.push(...block(alternatives[i], result, i, data.length));
  return { sheet: SHEET, data, columns: [{ width: 26 }, ...HEADS.slice(1).map(() => ({ width: 15 }))] };
}

function block(
  { site }: Alternative,
  { name, money }: AlternativeResult,
  place: number,
  row: number,
): SheetRow[] {
  const first = row + 2;
  const last = first + money.years;
  const sums = HEADS.map((_, column) => {
    if (column === 0) return text('Sum');
    const letter = columnName(column);
    return formula(`SUM(${letter}${first + 1}:${letter}${last + 1})`);
  });
  return [
    [{ value: name, fontWeight: 'bold' }],
    HEADS.map(head),
    ...money.cashFlow.map((year, i) => yearRow(year, site, place, first + i)),
    sums,
    [],
  ];
}

function yearRow(flow: YearOfMoney, site: Alternative['site'], place: number, row: number): SheetRow {
  const { year } = flow;
  const input = (key: Parameters<typeof inputCell>[0]) => inputCell(key, place);
  const line = row + 1;
  const from = (column: number) => `${columnName(column)}${line}`;
  const discount = `(1+${input('discountRate')})^A${line}`;
  const cells: SheetCell[] = [
    number(year, '0'),
    year === 0 ? formula(input('capital')) : number(0),
    year === 0
      ? number(0)
      : formula(`${input('fuelL')}*${input('fuelPerL')}*(1+${input('fuelEscalation')})^(A${line}-1)`),
    year === 0 ? number(0) : formula(`${input('runH')}/${input('serviceEveryH')}*${input('serviceCost')}`),
    year === 0 ? number(0) : formula(`${input('unservedKwh')}*${input('unservedPerKwh')}`),
    year === 0 ? number(0) : formula(`${input('visits')}*${input('visitCost')}`),
    times(flow.overhaul, site.money.overhaulCost, input('overhaulCost')),
    times(flow.battery, bankPrice(site), input('bank')),
    times(flow.residual, bankPrice(site), input('bank')),
    formula(`SUM(B${line}:I${line})`),
    formula(`${from(TOTAL)}/${discount}`),
    year === 0 ? number(0) : formula(`${input('servedKwh')}/${discount}`),
  ];
  return cells;
}

/** A payment as so many times its price, so that it follows the price. */
function times(paid: number, price: number, cell: string): SheetCell {
  if (paid === 0 || price === 0) return number(paid);
  return formula(`${paid / price}*${cell}`);
}
