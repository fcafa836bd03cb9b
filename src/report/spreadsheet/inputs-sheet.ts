import type { Alternative } from '../../scenarios/alternatives.ts';
import { bankPrice } from '../../scenarios/life-cycle.ts';
import type { AlternativeResult, Study } from '../../scenarios/study.ts';
import {
  cellOf,
  changeable,
  formula,
  head,
  number,
  type SheetRow,
  text,
  title,
  type WorkbookSheet,
} from './cell.ts';

const SHEET = 'Inputs';

/** What money is worked out from, a row each. */
export type InputKey =
  | 'fuelPerL'
  | 'fuelEscalation'
  | 'discountRate'
  | 'serviceEveryH'
  | 'serviceCost'
  | 'unservedPerKwh'
  | 'visitCost'
  | 'overhaulCost'
  | 'bank'
  | 'capital'
  | 'fuelL'
  | 'runH'
  | 'unservedKwh'
  | 'visits'
  | 'servedKwh';

interface InputRow {
  key: InputKey;
  label: string;
  format: string;
  of: (alternative: Alternative, result: AlternativeResult) => number;
}

const years = ({ ledger }: AlternativeResult) => (ledger.count * ledger.stepMin) / 60 / 8760;

/** Prices first: they may be changed. What was simulated comes after them. */
function inputRows(currency: string): InputRow[] {
  return [
    {
      key: 'fuelPerL',
      label: `Fuel price, ${currency}/L`,
      format: '0.00##',
      of: ({ site }) => site.money.fuelPerL,
    },
    {
      key: 'fuelEscalation',
      label: 'Real rise of the fuel price, a year',
      format: '0.0##%',
      of: ({ site }) => site.money.fuelEscalation,
    },
    {
      key: 'discountRate',
      label: 'Real discount rate, a year',
      format: '0.0##%',
      of: ({ site }) => site.money.discountRate,
    },
    {
      key: 'serviceEveryH',
      label: 'Service every, run h',
      format: '0',
      of: ({ site }) => site.money.serviceEveryH,
    },
    {
      key: 'serviceCost',
      label: `A service visit, ${currency}`,
      format: '#,##0.00',
      of: ({ site }) => site.money.serviceCost,
    },
    {
      key: 'unservedPerKwh',
      label: `What load not supplied spoils or stops, ${currency}/kWh`,
      format: '#,##0.00',
      of: ({ site }) => site.money.unservedPerKwh,
    },
    {
      key: 'visitCost',
      label: `A call-out, ${currency}`,
      format: '#,##0.00',
      of: ({ site }) => site.money.visitCost,
    },
    {
      key: 'overhaulCost',
      label: `An overhaul, ${currency}`,
      format: '#,##0.00',
      of: ({ site }) => site.money.overhaulCost,
    },
    {
      key: 'bank',
      label: `A new battery bank, ${currency}`,
      format: '#,##0.00',
      of: ({ site }) => bankPrice(site),
    },
    {
      key: 'capital',
      label: `To build, ${currency}`,
      format: '#,##0.00',
      of: (_, { money }) => money.capital,
    },
    {
      key: 'fuelL',
      label: 'Fuel a year, L (simulated)',
      format: '#,##0.00',
      of: (_, result) => result.ledger.totals.fuelL / years(result),
    },
    {
      key: 'runH',
      label: 'Run hours a year, h (simulated)',
      format: '#,##0.00',
      of: (_, result) => result.ledger.totals.runH / years(result),
    },
    {
      key: 'unservedKwh',
      label: 'Load not supplied a year, kWh (simulated)',
      format: '#,##0.00',
      of: (_, result) => result.ledger.totals.unservedKwh / years(result),
    },
    {
      key: 'visits',
      label: 'Call-outs a year (simulated)',
      format: '#,##0.00',
      of: (_, result) => result.ledger.totals.visits / years(result),
    },
    {
      key: 'servedKwh',
      label: 'Load served a year, kWh (simulated)',
      format: '#,##0.00',
      of: (_, result) => result.ledger.totals.servedKwh / years(result),
    },
  ];
}

const ROWS_ABOVE = 5;
const PRICES = 10;

/** The cell of an input of an alternative, for formulas. */
export function inputCell(key: InputKey, alternative: number): string {
  const place = inputRows('').findIndex((row) => row.key === key);
  return cellOf(SHEET, ROWS_ABOVE + place, alternative + 1);
}

/** Where what running costs depends on stands. */
export interface UseCells {
  fuelL: string;
  runH: string;
  unservedKwh: string;
  visits: string;
}

/** Running cost by an alternative's prices: fuel, service, load not supplied, call-outs. */
export function runningFormula({ fuelL, runH, unservedKwh, visits }: UseCells, alternative: number): string {
  const price = (key: InputKey) => inputCell(key, alternative);
  return [
    `${fuelL}*${price('fuelPerL')}`,
    `${runH}/${price('serviceEveryH')}*${price('serviceCost')}`,
    `${unservedKwh}*${price('unservedPerKwh')}`,
    `${visits}*${price('visitCost')}`,
  ].join('+');
}

/**
 * Prices and what was simulated, a column an alternative. Where an alternative's price is that of the first, it is a
 * formula that takes it from there: a price changed once is changed everywhere.
 */
export function inputsSheet(study: Study, alternatives: readonly Alternative[]): WorkbookSheet {
  const rows = inputRows(study.site.currency);
  const data: SheetRow[] = [
    [title(`${study.site.name}: inputs`)],
    [text(`Made by Darkweek ${study.made.version} from inputs ${study.made.inputsHash}.`)],
    [
      text(
        'Change a yellow cell (the fuel price, say): comparison, months and money follow. What was simulated does not.',
      ),
    ],
    [],
    [head('Input'), ...alternatives.map(({ name }) => head(name))],
    ...rows.map((row, r) => [
      text(row.label),
      ...alternatives.map((_, i) => inputValue(study, alternatives, row, r, i)),
    ]),
  ];
  return { sheet: SHEET, data, columns: [{ width: 38 }, ...alternatives.map(() => ({ width: 16 }))] };
}

function inputValue(study: Study, alternatives: readonly Alternative[], row: InputRow, r: number, i: number) {
  const value = row.of(alternatives[i], study.alternatives[i]);
  if (r >= PRICES) return number(value, row.format);
  const same = i > 0 && row.key !== 'capital' && row.key !== 'bank';
  if (same && value === row.of(alternatives[0], study.alternatives[0]))
    return formula(cellOf(SHEET, ROWS_ABOVE + r, 1).replace(`${SHEET}!`, ''), row.format);
  return changeable(value, row.format);
}
