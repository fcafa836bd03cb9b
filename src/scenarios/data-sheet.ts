import type { DataSheet, Gap, Series, TimeAxis } from './series.ts';

/** What a reader knows of its file. */
export interface SheetFacts {
  file: string;
  reader: string;
  chosenBecause: string;
  timeZone: string;
  axis: TimeAxis;
  series: readonly Series[];
  gaps: Gap[];
  duplicates?: number;
  estimated?: number;
}

/** A data sheet, with total, peak and load factor of each series, of the values that are there; NaN where none is. */
export function makeSheet(facts: SheetFacts): DataSheet {
  const { series, duplicates = 0, estimated = 0, ...rest } = facts;
  return {
    ...rest,
    series: series.map(summarise),
    duplicates,
    estimated,
    filled: facts.gaps.reduce((sum, gap) => sum + (gap.filledBy === null ? 0 : gap.steps), 0),
  };
}

function summarise({ name, quantity, axis, values }: Series): DataSheet['series'][number] {
  let sum = 0;
  let known = 0;
  let peak = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    sum += value;
    known++;
    if (value > peak) peak = value;
  }
  if (known === 0) return { name, quantity, total: Number.NaN, peak: Number.NaN, loadFactor: Number.NaN };
  const mean = sum / known;
  const isLevel = quantity === 'airC' || quantity === 'windMPerS' || quantity === 'snowDepthCm';
  const perUnit = quantity.endsWith('WPerM2') ? 1000 : 1;
  const total = isLevel ? mean : (sum * axis.stepMin) / 60 / perUnit;
  return { name, quantity, total, peak, loadFactor: peak > 0 ? mean / peak : 0 };
}

const UNITS: Record<string, string> = {
  loadKw: 'kWh',
  generationKw: 'kWh',
  airC: '°C mean',
  windMPerS: 'm/s mean',
  precipMmPerH: 'mm',
  snowCmPerH: 'cm of fresh snow',
  snowDepthCm: 'cm mean',
};

/** The sheet as lines of text. */
export function describeSheet(sheet: DataSheet): string[] {
  const { axis } = sheet;
  const from = new Date(axis.startS * 1000).toISOString().slice(0, 16);
  const to = new Date((axis.startS + axis.count * axis.stepMin * 60) * 1000).toISOString().slice(0, 16);
  return [
    `${sheet.file}: ${sheet.reader} (${sheet.chosenBecause})`,
    `  ${axis.count} steps of ${axis.stepMin} min, ${from} to ${to} UTC; times read as ${sheet.timeZone}`,
    ...sheet.series.map(({ name, quantity, total, peak, loadFactor }) =>
      Number.isNaN(total)
        ? `  ${name}: no values`
        : `  ${name}: ${total.toFixed(2)} ${UNITS[quantity] ?? 'kWh/m²'}, peak ${peak.toFixed(3)}, load factor ${loadFactor.toFixed(2)}`,
    ),
    `  ${sheet.gaps.length} gaps, ${sheet.filled} values filled, ${sheet.duplicates} duplicate rows, ${sheet.estimated} values marked as estimated`,
  ];
}
