import type { Study } from '../../scenarios/study.ts';
import { comparisonRows } from '../comparison-table.ts';
import { hasMoney } from '../facts.ts';
import type { Figure } from '../figures.ts';
import { unitOf } from '../numbers.ts';
import { localMs, type StudyView } from '../view.ts';
import { START_LABELS } from '../words.ts';
import {
  formula,
  head,
  number,
  type SheetCell,
  type SheetRow,
  text,
  title,
  type WorkbookSheet,
} from './cell.ts';
import { inputCell, runningFormula } from './inputs-sheet.ts';
import { lifeCycleCell, servedCell } from './money-sheet.ts';

/** All alternatives side by side; money by formulas. */
export function comparisonSheet(study: Study): WorkbookSheet {
  const rows = comparisonRows(study);
  const data: SheetRow[] = [
    [title('Side by side, sums of the simulated period')],
    [],
    [head('Figure'), head('Unit'), ...study.alternatives.map(({ name }) => head(name))],
    ...rows.map(({ figure, values }) => [
      text(figure.part ? `   ${figure.label}` : figure.label),
      text(unitOf(figure.kind, study.site.currency)),
      ...values.map((value, i) => moneyFormula(study, figure, i) ?? number(value, formatOf(figure))),
    ]),
  ];
  const columns = [{ width: 40 }, { width: 10 }, ...study.alternatives.map(() => ({ width: 16 }))];
  return { sheet: 'Comparison', data, columns };
}

function formatOf({ kind }: Figure): string {
  if (kind === 'share') return '0.0%';
  if (kind === 'count') return '#,##0';
  return kind === 'moneyPerKwh' ? '0.0000' : '#,##0.00';
}

/** Money follows the inputs; null for figures of the simulation. */
function moneyFormula(study: Study, figure: Figure, place: number): SheetCell {
  const input = (key: Parameters<typeof inputCell>[0]) => inputCell(key, place);
  if (figure.key === 'capital') return formula(input('capital'));
  if (figure.key === 'runningFirstYear')
    return formula(
      runningFormula(
        {
          fuelL: input('fuelL'),
          runH: input('runH'),
          unservedKwh: input('unservedKwh'),
          visits: input('visits'),
        },
        place,
      ),
    );
  if (figure.key === 'lifeCycleCost') return formula(lifeCycleCell(study, place));
  if (figure.key === 'levelised' && study.alternatives[place].money.levelisedCostPerKwh !== null)
    return formula(`${lifeCycleCell(study, place)}/${servedCell(study, place)}`, '0.0000');
  return null;
}

const MONTH_HEADS = [
  'Choice',
  'Year',
  'Month',
  'Load, kWh',
  'Array used, kWh',
  'Generator, kWh',
  'Not supplied, kWh',
  'Fuel, L',
  'Run hours, h',
  'Starts',
  'Call-outs',
];

/** Months of every alternative and their sums; months are those of the calendar by the site's clock. */
export function monthsSheet(view: StudyView): WorkbookSheet {
  const { study, months } = view;
  const priced = hasMoney(study);
  const heads = priced ? [...MONTH_HEADS, `Running cost, ${study.site.currency}`] : MONTH_HEADS;
  const data: SheetRow[] = [[title('Month by month')], [], heads.map(head)];
  for (const [place, { name, ledger }] of study.alternatives.entries()) {
    if (ledger.periods.length !== months.length) continue;
    const from = data.length;
    for (const [i, totals] of ledger.periods.entries()) {
      const line = data.length + 1;
      data.push([
        text(name),
        number(months[i].year, '0'),
        number((view.calendar.monthIndex[months[i].fromStep] % 12) + 1, '0'),
        number(totals.loadKwh),
        number(totals.dcUsedKwh + totals.acUsedKwh),
        number(totals.generatorKwh),
        number(totals.unservedKwh),
        number(totals.fuelL),
        number(totals.runH),
        number(totals.starts, '0'),
        number(totals.visits, '0'),
        ...(priced
          ? [
              formula(
                runningFormula(
                  {
                    fuelL: `H${line}`,
                    runH: `I${line}`,
                    unservedKwh: `G${line}`,
                    visits: `K${line}`,
                  },
                  place,
                ),
              ),
            ]
          : []),
      ]);
    }
    data.push(sumOf(name, from, data.length, heads.length), []);
  }
  return { sheet: 'Months', data, columns: [{ width: 24 }, ...heads.slice(1).map(() => ({ width: 14 }))] };
}

function sumOf(name: string, from: number, to: number, columns: number): SheetRow {
  const cells: SheetCell[] = [text(`${name}: sum`), null, null];
  for (let column = 3; column < columns; column++) {
    const letter = String.fromCharCode(65 + column);
    cells.push(formula(`SUM(${letter}${from + 1}:${letter}${to})`));
  }
  return cells;
}

const RUN_HEADS = [
  'Choice',
  'Start, local time',
  'End, local time',
  'Length, h',
  'On load, h',
  'Cause',
  'Charge at start',
  'Charge at end',
  'Generator, kWh',
  'Fuel, L',
  'Mean on load, kW',
  'Ran dry',
];

/** Every generator run of every alternative. */
export function runsSheet(view: StudyView): WorkbookSheet {
  const data: SheetRow[] = [[title('Generator runs')], [], RUN_HEADS.map(head)];
  for (const { name, ledger } of view.study.alternatives)
    for (const run of ledger.runs)
      data.push([
        text(name),
        text(localText(view, run.startH)),
        text(localText(view, run.endH)),
        number(run.endH - run.startH),
        number(run.onLoadH),
        text(START_LABELS[run.cause]),
        number(run.socStart, '0.0%'),
        number(run.socEnd, '0.0%'),
        number(run.kwh),
        number(run.litres),
        number(run.meanKw),
        text(run.ranDry ? 'yes' : ''),
      ]);
  return {
    sheet: 'Runs',
    data,
    columns: [{ width: 20 }, { width: 18 }, { width: 18 }, ...RUN_HEADS.slice(3).map(() => ({ width: 14 }))],
  };
}

/** "2025-01-12 18:05:00": sorts as text, and no program shifts it to another time zone. */
function localText(view: StudyView, hours: number): string {
  return new Date(localMs(view, hours)).toISOString().slice(0, 19).replace('T', ' ');
}
