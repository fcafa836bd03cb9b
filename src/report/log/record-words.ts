import { isPower } from '../../scenarios/log/read-units.ts';
import type {
  ClockFinding,
  RecordedColumn,
  RecordSheet,
  SiteRecord,
} from '../../scenarios/log/site-record.ts';
import { digits } from '../numbers.ts';
import { counted } from '../words.ts';

/** What a quantity of a log is called, and its unit. */
const QUANTITIES: Record<string, { name: string; unit: string }> = {
  socFrac: { name: 'charge', unit: '%' },
  loadKw: { name: 'load', unit: 'kW' },
  load1Kw: { name: 'load, phase 1', unit: 'kW' },
  load2Kw: { name: 'load, phase 2', unit: 'kW' },
  load3Kw: { name: 'load, phase 3', unit: 'kW' },
  arrayKw: { name: 'all arrays', unit: 'kW' },
  batteryKw: { name: 'battery, charging above 0', unit: 'kW' },
  generatorKw: { name: 'generator', unit: 'kW' },
  generatorOn: { name: 'generator running', unit: '% of the time' },
  fuelL: { name: 'fuel in the tank', unit: 'L' },
  cabinetC: { name: 'air in the cabinet', unit: '°C' },
  cellC: { name: 'battery cells', unit: '°C' },
  outsideC: { name: 'outside air', unit: '°C' },
  sunWPerM2: { name: 'irradiance', unit: 'W/m²' },
  'battery voltage': { name: 'battery voltage', unit: 'V' },
};

/** Name, unit and factor from the record's unit to the one that is shown. */
export function quantityWords(is: string): { name: string; unit: string; factor: number } {
  if (is.startsWith('array:')) return { name: `array ${is.slice(6)}`, unit: 'kW', factor: 1 };
  const { name, unit } = QUANTITIES[is];
  return { name, unit, factor: unit.startsWith('%') ? 100 : 1 };
}

/** A value with as many digits as tell something. */
export function shown(value: number): string {
  const size = Math.abs(value);
  return Number.isFinite(value) ? digits(value, size >= 100 ? 0 : size >= 10 ? 1 : 2) : 'none';
}

/** Sum of a power or mean of anything else, in words. */
export function totalWords({ is, total, lowest }: RecordedColumn): string {
  if (Number.isNaN(lowest)) return 'none';
  const { unit, factor } = quantityWords(is);
  return isPower(is) ? `${shown(total)} kWh` : `mean ${shown(total * factor)} ${unit}`;
}

export function quantumWords({ is, quantum }: RecordedColumn): string {
  if (is === 'generatorOn') return 'on or off';
  const { unit, factor } = quantityWords(is);
  return quantum > 0
    ? `in steps of ${Number((quantum * factor).toPrecision(3))} ${unit}`
    : 'steps not to be seen';
}

export const TURNED_WORDS: Record<RecordedColumn['turned'], string> = {
  no: 'as written',
  declared: 'turned round, as declared',
  found: 'turned round, as the data say',
};

/** What was done about the recorder's clock. */
export function clockWords({ addedH, driftHPerDay, by }: ClockFinding): string {
  if (by === 'unknown') return 'clock: nothing tells whether it is right; times are as written';
  if (by === 'right') return 'clock: agrees with first and last light; times are as written';
  const minutes = Math.round(addedH * 60);
  const drift = driftHPerDay * 60 * 7;
  const more =
    drift === 0 ? '' : `, and ${drift > 0 ? '' : '−'}${Math.abs(drift).toFixed(1)} min more every week`;
  return `clock: put right by the sun; ${minutes < 0 ? '−' : '+'}${Math.abs(minutes)} min added at the start of the log${more}`;
}

/** Rows, gaps and what was left out. */
export function rowWords({ rows, gaps, duplicates, resets }: RecordSheet, stepMin: number): string {
  const missing = (gaps.reduce((sum, gap) => sum + gap.steps, 0) * stepMin) / 60;
  const longest = gaps[0]
    ? `, the longest ${shown((gaps[0].steps * stepMin) / 60)} h from ${instant(gaps[0].startS)}Z`
    : '';
  return `${digits(rows)} rows; ${counted(digits(gaps.length), 'gap')} of ${shown(missing)} h${gaps.length === 1 ? '' : ' together'}${longest}; ${counted(digits(duplicates), 'duplicate row')}; time goes back ${counted(digits(resets), 'time')}`;
}

export function instant(atS: number): string {
  return new Date(atS * 1000).toISOString().slice(0, 16);
}

/** The data sheet of a log, as lines of text. */
export function describeRecord({ axis, sheet }: SiteRecord): string[] {
  const end = axis.startS + axis.count * axis.stepMin * 60;
  return [
    `${sheet.file}: the site's own log`,
    `  ${digits(axis.count)} steps of ${axis.stepMin} min, ${instant(axis.startS)} to ${instant(end)} UTC; times read as ${sheet.timeZone}`,
    ...sheet.columns.map((column) => {
      const { unit, name, factor } = quantityWords(column.is);
      const range = `${shown(column.lowest * factor)} to ${shown(column.highest * factor)} ${unit}`;
      if (column.missing === axis.count)
        return `  ${column.header} [${column.unit}]: ${name}; no value that can be used`;
      const missing = `${digits((100 * column.missing) / axis.count, 1)} % missing`;
      return `  ${column.header} [${column.unit}]: ${name}; ${totalWords(column)}, ${range}, ${missing}, ${quantumWords(column)}, ${TURNED_WORDS[column.turned]}`;
    }),
    `  ${rowWords(sheet, axis.stepMin)}`,
    `  ${clockWords(sheet.clock)}`,
  ];
}
