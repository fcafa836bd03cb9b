import { tableFromArrays, tableToIPC } from '@uwdata/flechette';
import { OUTCOME_KEYS } from '../../scenarios/many/outcome.ts';
import type { Sweep } from '../../scenarios/many/sweep.ts';

/** A row each variant: its values by their paths, its figures by their names, why it has none. */
interface Column {
  name: string;
  values: (number | string | null)[];
}

function columnsOf({ axes, cells }: Sweep): Column[] {
  return [
    ...axes.map(({ path, values }, i) => ({
      name: path,
      values: cells.map(({ at }) => plain(values[at[i]])),
    })),
    ...OUTCOME_KEYS.map((name) => ({
      name,
      values: cells.map(({ outcome }) => (outcome === null ? null : withoutSign(outcome[name]))),
    })),
    {
      name: 'problem',
      values: cells.map(({ problems }) => (problems.length > 0 ? problems.join('; ') : null)),
    },
  ];
}

/** As CSV: figures as they are, nothing where there is none. */
export function sweepCsv(sweep: Sweep): string {
  const columns = columnsOf(sweep);
  const rows = sweep.cells.map((_, i) => columns.map(({ values }) => csvField(values[i])).join(','));
  return `${columns.map(({ name }) => csvField(name)).join(',')}\n${rows.join('\n')}\n`;
}

/** As an Arrow file; numbers as 64-bit floats, everything else as text. */
export function sweepArrow(sweep: Sweep): Uint8Array {
  const arrays = Object.fromEntries(
    columnsOf(sweep).map(({ name, values }) => [
      name,
      values.some((value) => typeof value === 'string') ? texts(values) : values,
    ]),
  );
  const bytes = tableToIPC(tableFromArrays(arrays), { format: 'file' });
  if (bytes === null) throw new Error('no Arrow bytes');
  return bytes;
}

/** As JSON: the axes, the site as filed, the best, and every variant. */
export function sweepJson(sweep: Sweep): string {
  const { site, days, stepMin, axes, prices, filed, best, mostUnservedKwh, gridSize, cells, made } = sweep;
  const variants = cells.map(({ at, outcome, problems }) => ({
    values: Object.fromEntries(axes.map(({ path, values }, i) => [path, values[at[i]]])),
    ...(outcome === null ? { problems } : { outcome }),
  }));
  const axesOut = axes.map((axis, i) => ({ ...axis, ...(prices[i] !== 0 && { priceOfOneMore: prices[i] }) }));
  const all = { site, days, stepMin, made, axes: axesOut, gridSize, mostUnservedKwh, filed, best, variants };
  return `${JSON.stringify(all, null, 1)}\n`;
}

function plain(value: unknown): number | string | null {
  if (typeof value === 'number' || typeof value === 'string' || value === null) return value;
  return JSON.stringify(value);
}

/** −0 is 0: files of outcomes that were kept have lost the sign. */
function withoutSign(value: number | null): number | null {
  return value === 0 ? 0 : value;
}

function texts(values: readonly (number | string | null)[]): (string | null)[] {
  return values.map((value) => (value === null ? null : String(value)));
}

function csvField(value: number | string | null): string {
  if (value === null) return '';
  const text = String(value);
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
