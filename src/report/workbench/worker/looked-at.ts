import { describeSheet } from '../../../scenarios/data-sheet.ts';
import type { Issue } from '../../../scenarios/issue.ts';
import { readAny } from '../../../scenarios/read-any.ts';
import type { ReadResult } from '../../../scenarios/series.ts';
import { parseSite } from '../../../scenarios/site-document.ts';
import { baseName } from '../given-files.ts';
import type { LookedAtFile } from '../messages.ts';

/** Looks at a file that somebody has dropped: a site file, or data of any kind, with every doubt. */
export function lookAt(name: string, bytes: Uint8Array): LookedAtFile {
  const file = baseName(name);
  if (isSite(file, bytes)) return { file, kind: 'site', lines: [], issues: [], entry: null };
  const result = readAny(bytes, file);
  const entry = result.series.length > 0 ? entryOf(file, bytes, result) : null;
  return {
    file,
    kind: entry?.kind ?? 'none',
    lines: result.sheet ? describeSheet(result.sheet) : [],
    issues: [...result.issues].sort(errorsFirst),
    entry: entry?.entry ?? null,
  };
}

function errorsFirst(a: Issue, b: Issue): number {
  return Number(a.severity === 'doubt') - Number(b.severity === 'doubt');
}

/** By its name, or because it is a list of groups of which one is the site. */
function isSite(file: string, bytes: Uint8Array): boolean {
  if (/\.ya?ml$/i.test(file)) return true;
  if (bytes.length > 2_000_000) return false;
  const text = new TextDecoder().decode(bytes);
  if (/\.json$/i.test(file)) return /"site"\s*:/.test(text);
  if (!/^\s*site\s*:/m.test(text)) return false;
  return parseSite(text, file).document !== null;
}

/** How the site file would name it. */
function entryOf(
  file: string,
  bytes: Uint8Array,
  { series, sheet }: ReadResult,
): Pick<LookedAtFile, 'entry'> & { kind: 'load' | 'weather' } {
  const reader = sheet?.reader ?? 'csv';
  if (reader === 'tmy3' || reader === 'epw' || reader === 'pvgis')
    return { kind: 'weather', entry: { format: reader, file } };
  if (reader === 'nem12' || reader === 'greenbutton') return { kind: 'load', entry: { file } };
  const columnOf = (quantity: string) => series.find((one) => one.quantity === quantity)?.name;
  const common = { file, stamp: 'start' };
  if (columnOf('airC'))
    return {
      kind: 'weather',
      entry: withoutEmpty({
        ...{
          format: 'csv',
          ...common,
          typicalYear: series[0].axis.count * series[0].axis.stepMin === 525_600,
        },
        ...{ global: columnOf('ghiWPerM2'), direct: columnOf('dniWPerM2'), diffuse: columnOf('dhiWPerM2') },
        ...{ air: columnOf('airC'), wind: columnOf('windMPerS') },
      }),
    };
  const loads = series.filter(({ quantity }) => quantity === 'loadKw');
  const phases = loads.length === 3 ? [1, 2, 3] : loads.map(() => 'all');
  const columns = Object.fromEntries(loads.map(({ name }, i) => [name, phases[i]]));
  return { kind: 'load', entry: { ...common, unit: unitOf(bytes, loads[0]?.name ?? ''), columns } };
}

/** The unit in a header cell, as the site file calls it. */
function unitOf(bytes: Uint8Array, header: string): string {
  const cell = header || new TextDecoder('latin1').decode(bytes.subarray(0, 300));
  if (/kwh/i.test(cell)) return 'kWh';
  if (/(?<![a-z])wh\b/i.test(cell)) return 'Wh';
  return /kw\b/i.test(cell) ? 'kW' : 'W';
}

function withoutEmpty(entry: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined));
}
