import type { Cell, CellObject, Row } from 'write-excel-file/node';

export type SheetRow = Row;
export type SheetCell = Cell;

/** One sheet of a workbook. */
export interface WorkbookSheet {
  sheet: string;
  data: Row[];
  columns: { width: number }[];
}

const HEAD = { fontWeight: 'bold', backgroundColor: '#e8e8e8', wrap: true } as const;

/** The head of a column. */
export function head(value: string): CellObject {
  return { value, ...HEAD };
}

/** A line that names what is below it. */
export function title(value: string): CellObject {
  return { value, fontWeight: 'bold', fontSize: 14 };
}

export function text(value: string): CellObject {
  return { value, type: String };
}

/** A number; empty where there is none. @param format of a spreadsheet: '0.00' */
export function number(value: number | null, format = '#,##0.00'): Cell {
  return value === null || !Number.isFinite(value) ? null : { value, type: Number, format };
}

/** A value that a reader is meant to change. */
export function changeable(value: number, format: string): CellObject {
  return { value, type: Number, format, backgroundColor: '#fff2b3', fontWeight: 'bold' };
}

/** @param value without the sign of equality, as files have it */
export function formula(value: string, format = '#,##0.00'): CellObject {
  return { value, type: 'Formula', format };
}

/** "A" of 0, "AA" of 26. */
export function columnName(place: number): string {
  const tail = String.fromCharCode(65 + (place % 26));
  return place < 26 ? tail : columnName(Math.floor(place / 26) - 1) + tail;
}

/** "Inputs!$C$4"; rows and columns count from 0. */
export function cellOf(sheet: string, row: number, column: number): string {
  return `${sheet}!$${columnName(column)}$${row + 1}`;
}
