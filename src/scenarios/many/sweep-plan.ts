import type { SiteChanges } from '../apply-changes.ts';
import type { Issue } from '../issue.ts';
import type { Site } from '../site-schema.ts';
import { ALTERNATIVE, type Axis, changesFor, readAxes } from './axes.ts';
import { allCells, gridSize, MOST_AXES, spreadCells } from './cells.ts';
import { CAPITAL, type Filed } from './ground.ts';

/** What is asked of a sweep. */
export interface SweepRequest {
  /** as in `readAxes` */
  vary: readonly string[];
  /** so many cells, spread over the grid; left out: all */
  sample?: number;
  seed: string;
  /** 'battery.modules=1600': what one more of a varied number costs at the start */
  prices: readonly string[];
}

/** Which variants are run. */
export interface SweepPlan {
  axes: Axis[];
  /** cells of the grid of all axes */
  gridSize: number;
  /** places on the axes, in the order of the grid */
  cells: number[][];
  /** the changes of each cell */
  variants: SiteChanges[];
  /** by the axis: what one more costs; 0 where nothing was said */
  prices: number[];
}

/** More cells are a sample's work. */
const MOST_CELLS = 200_000;

/** Which variants of a site a sweep runs; or everything that is wrong with what was asked. */
export function planSweep(request: SweepRequest, filed: Filed): SweepPlan | Issue[] {
  const axes = readAxes(request.vary, filed);
  if (!areAxes(axes)) return axes;
  const issues: Issue[] = [];
  const prices = readPrices(request.prices, axes, filed, issues);
  issues.push(...pricedTwice(axes, prices, filed));
  const sizes = axes.map(({ values }) => values.length);
  const size = gridSize(sizes);
  if (axes.length > MOST_AXES) issues.push(wrong('--vary', `${axes.length} values`, `at most ${MOST_AXES}`));
  const wanted = Math.min(request.sample ?? size, size);
  if (wanted > MOST_CELLS)
    issues.push(wrong('--vary', `${wanted} variants`, `at most ${MOST_CELLS}, or a sample: --sample 500`));
  if (issues.length > 0) return issues;
  const cells =
    request.sample === undefined ? allCells(sizes) : spreadCells(sizes, request.sample, request.seed);
  const variants = cells.map((cell) => variantOf(cell, axes, prices, filed));
  return { axes, gridSize: size, cells, variants, prices };
}

function areAxes(read: Axis[] | Issue[]): read is Axis[] {
  return read.every((one) => 'values' in one);
}

/** All changes of a cell; what its numbers cost is added to the capital. */
function variantOf(cell: readonly number[], axes: readonly Axis[], prices: readonly number[], filed: Filed) {
  const changes: SiteChanges = {};
  let extra = 0;
  for (const [i, axis] of axes.entries()) {
    const value = axis.values[cell[i]];
    Object.assign(changes, changesFor(axis, value, filed));
    if (prices[i] !== 0) extra += prices[i] * (Number(value) - Number(axis.filed));
  }
  if (extra !== 0) changes[CAPITAL] = Number(changes[CAPITAL] ?? 0) + extra;
  return changes;
}

/** Stated prices; what they leave out is priced by the site file's own list, where that has it. */
function readPrices(
  texts: readonly string[],
  axes: readonly Axis[],
  { site }: Filed,
  issues: Issue[],
): number[] {
  const prices = axes.map(({ path }) => listPrice(path, site));
  for (const text of texts) {
    const [path, price] = text.split('=').map((part) => part.trim());
    const at = axes.findIndex((axis) => axis.path === path);
    const { values = [], filed } = axes[at] ?? {};
    if (at < 0 || ![...values, filed].every((value) => typeof value === 'number'))
      issues.push(
        wrong(`--price '${text}'`, `'${path}'`, 'a number that is varied, and that the site as filed has'),
      );
    else if (!price || !Number.isFinite(Number(price)))
      issues.push(
        wrong(`--price '${text}'`, `'${price ?? ''}'`, "a price of one more: 'battery.modules=1600'"),
      );
    else prices[at] = Number(price);
  }
  return prices;
}

/** What one more of a size costs by the site file; 0 where it does not say. */
function listPrice(path: string, { prices, inverter }: Site): number {
  if (path === 'battery.modules') return prices.perModule ?? 0;
  if (path === 'generator.ratedKw') return prices.perGeneratorKw ?? 0;
  if (path === 'inverter.ratedKva')
    return (prices.perInverterKva ?? 0) * inverter.phases * inverter.unitsPerPhase;
  return /^arrays\.[^.]+\.kWp$/.test(path) ? (prices.perKwp ?? 0) : 0;
}

/** An alternative's capital would hold the price of a number that is varied and priced too. */
function pricedTwice(axes: readonly Axis[], prices: readonly number[], { site }: Filed): Issue[] {
  const chosen = axes.find(({ path }) => path === ALTERNATIVE)?.values ?? [];
  return site.alternatives
    .filter(({ name }) => chosen.includes(name))
    .flatMap(({ name, changes }) => {
      const both = axes.filter(({ path }, i) => prices[i] !== 0 && Object.hasOwn(changes, path));
      return both.map(({ path }) =>
        wrong(
          `--vary '${ALTERNATIVE}'`,
          `'${name}', which changes ${path} at a price of its own`,
          `either it or ${path}`,
        ),
      );
    });
}

function wrong(file: string, got: string, want: string): Issue {
  return { severity: 'error', code: 'sweep', path: 'sweep', got, want, at: { file } };
}
