import writeExcelFile from 'write-excel-file/node';
import type { Alternative } from '../../scenarios/alternatives.ts';
import type { Study } from '../../scenarios/study.ts';
import { hasMoney } from '../facts.ts';
import { makeView } from '../view.ts';
import type { WorkbookSheet } from './cell.ts';
import { comparisonSheet, monthsSheet, runsSheet } from './figures-sheets.ts';
import { inputsSheet } from './inputs-sheet.ts';
import { moneySheet } from './money-sheet.ts';
import { withoutTimes } from './zip-times.ts';

/** The sheets of a study's workbook: inputs, comparison, months, money year by year, generator runs. */
function sheetsOf(study: Study, alternatives: readonly Alternative[]): WorkbookSheet[] {
  const view = makeView(study);
  const sheets = [inputsSheet(study, alternatives), comparisonSheet(study), monthsSheet(view)];
  if (hasMoney(study)) sheets.push(moneySheet(study, alternatives));
  if (study.alternatives.some(({ ledger }) => ledger.runs.length > 0)) sheets.push(runsSheet(view));
  return sheets;
}

/**
 * The study as a spreadsheet (Office Open XML) whose money follows its prices by formulas.
 * @param alternatives the sites of the study's alternatives, in their order
 * @returns the file; the same study gives the same bytes
 */
export async function workbook(study: Study, alternatives: readonly Alternative[]): Promise<Uint8Array> {
  return withoutTimes(await writeExcelFile(sheetsOf(study, alternatives)).toBuffer());
}
