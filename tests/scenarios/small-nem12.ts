import { issueSentence } from '../../src/scenarios/issue.ts';
import { type Nem12Options, readNem12 } from '../../src/scenarios/read-nem12.ts';
import type { Quantity, ReadResult } from '../../src/scenarios/series.ts';

/** Makes small NEM12 files, and says in short what came of reading them. */
export const bytes = (text: string) => new TextEncoder().encode(text);
export const nem = (file: string, options: Nem12Options = {}) => readNem12(bytes(file), 'f.csv', options);
const found = (result: ReadResult, severity: string) =>
  result.issues.filter((issue) => issue.severity === severity).map(issueSentence);
export const errors = (result: ReadResult) => found(result, 'error');
export const doubts = (result: ReadResult) => found(result, 'doubt');
export const codes = (result: ReadResult) => result.issues.map(({ code, at }) => `${code}:${at.line ?? '-'}`);
export const kwh = (result: ReadResult, quantity: Quantity) =>
  result.sheet?.series.find((one) => one.quantity === quantity)?.total;

/** A file of one channel; each day has one value all day long. */
const head = '100,NEM12,202601010000,A,B';
export const channel = (suffix = 'E1', unit = 'kWh', minutes: number | string = 30, nmi = 'NEM1201009') =>
  `200,${nmi},${suffix},${suffix},${suffix},N1,X,${unit},${minutes},`;
export const day = (
  date: number | string,
  value: number | string,
  minutes = 30,
  end = 'A,,,20260101000000,',
) => `300,${date},${new Array(1440 / minutes).fill(value).join(',')},${end}`;
export const file = (...records: string[]) => [head, ...records, '900', ''].join('\n');
