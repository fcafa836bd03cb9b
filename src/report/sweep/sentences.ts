import type { Outcome } from '../../scenarios/many/outcome.ts';
import { type Sweep, type SweepCell, servesEnough } from '../../scenarios/many/sweep.ts';
import { alone, digits } from '../numbers.ts';
import { capital, counted, listed } from '../words.ts';
import { type AxisView, axisView, cellWords, spanWords } from './axis-view.ts';

/** Beside the best, this much more counts as equally good. */
const FLAT = 0.01;

/** What a sweep says, in sentences: how much was run, the best, how flat it is, and what to be careful about. */
export function sweepSentences(sweep: Sweep): string[] {
  const views = sweep.axes.map(axisView);
  const sentences = [
    ...extent(sweep, views),
    ...bestWords(sweep, views),
    ...flatWords(sweep, views),
    ...cheaperButShort(sweep, views),
    ...atTheEdge(sweep, views),
  ];
  return [...sentences.map((sentence) => `${capital(sentence)}.`), ...priceSentences(sweep)];
}

/** What is to be known before the cheapest is believed: sizes that cost nothing more. Also among `sweepSentences`. */
export function priceSentences(sweep: Sweep): string[] {
  return withoutPrice(sweep, sweep.axes.map(axisView)).map((sentence) => `${capital(sentence)}.`);
}

function extent({ cells, gridSize }: Sweep, views: readonly AxisView[]): string[] {
  const wrong = cells.filter(({ outcome }) => outcome === null).length;
  const of = cells.length < gridSize ? ` of the ${digits(gridSize)} of the grid` : '';
  const over = listed(
    views.map((view) =>
      spanWords(
        view,
        view.axis.values.map((_, i) => i),
      ),
    ),
  );
  const variants = `${counted(digits(cells.length), 'variant')}${of} ${cells.length === 1 ? 'was' : 'were'} run: ${over}`;
  if (wrong === 0) return [variants];
  return [
    variants,
    `${digits(wrong)} of them contradict${wrong === 1 ? 's itself' : ' themselves'} and ${wrong === 1 ? 'has' : 'have'} no figures`,
  ];
}

function bestWords(sweep: Sweep, views: readonly AxisView[]): string[] {
  const { cells, best, filed, mostUnservedKwh, site } = sweep;
  const limit =
    mostUnservedKwh < 0.001
      ? 'nothing goes unserved'
      : `no more than ${alone('kwh', mostUnservedKwh)} go unserved`;
  const outcome = best === null ? null : cells[best].outcome;
  if (best === null || outcome === null) return [`there is no variant in which ${limit}`];
  const money = (value: number) => alone('money', value, site.currency);
  const saved = filed.lifeCycleCost - outcome.lifeCycleCost;
  const least = `of those in which ${limit}, ${cellWords(views, cells[best].at)} costs least over the years of the study: ${money(outcome.lifeCycleCost)}`;
  if (Math.abs(saved) < 0.5) return [`${least}, as much as the site as filed`];
  const percent = alone('share', Math.abs(saved) / Math.abs(filed.lifeCycleCost));
  return [
    `${least}, ${money(Math.abs(saved))} (${percent}) ${saved > 0 ? 'less' : 'more'} than the site as filed`,
    ...insteadOf(outcome, filed),
  ];
}

function insteadOf(best: Outcome, filed: Outcome): string[] {
  if (best.fuelL === 0 && filed.fuelL === 0) return [];
  const fuel = `${alone('litres', best.fuelL)} instead of ${alone('litres', filed.fuelL)}`;
  const hours = `${alone('hours', best.runH)} instead of ${alone('hours', filed.runH)}`;
  return [
    `it burns ${fuel}, and its generator runs ${hours} with ${counted(digits(best.starts), 'start')} instead of ${digits(filed.starts)}`,
  ];
}

/** The range of settings that cost nearly the same is worth more than one point. */
function flatWords(sweep: Sweep, views: readonly AxisView[]): string[] {
  const { cells, best, mostUnservedKwh } = sweep;
  const least = best === null ? null : cells[best].outcome;
  if (!least) return [];
  const near = cells.filter(
    ({ outcome }) =>
      outcome &&
      servesEnough(outcome, mostUnservedKwh) &&
      outcome.lifeCycleCost <= least.lifeCycleCost + FLAT * Math.abs(least.lifeCycleCost),
  );
  if (near.length <= 1) return ['no other variant comes within 1 % of it'];
  const spans = views.map((view, i) =>
    spanWords(
      view,
      near.map(({ at }) => at[i]),
    ),
  );
  return [
    `${counted(digits(near.length - 1), 'other variant')} ${near.length === 2 ? 'costs' : 'cost'} at most 1 % more, with ${listed(spans)}`,
  ];
}

function cheaperButShort(sweep: Sweep, views: readonly AxisView[]): string[] {
  const { cells, best, site } = sweep;
  const limit = best === null ? null : cells[best].outcome?.lifeCycleCost;
  if (limit === null || limit === undefined) return [];
  const cheapest = cells.reduce<SweepCell | null>(
    (least, cell) =>
      cell.outcome && cell.outcome.lifeCycleCost < (least?.outcome?.lifeCycleCost ?? limit) ? cell : least,
    null,
  );
  if (!cheapest?.outcome) return [];
  const { lifeCycleCost, unservedKwh } = cheapest.outcome;
  return [
    `${cellWords(views, cheapest.at)} would cost less, ${alone('money', lifeCycleCost, site.currency)}, but leaves ${alone('kwh', unservedKwh)} unserved`,
  ];
}

/** A best at the end of a range is seldom the best there is. */
function atTheEdge({ cells, best }: Sweep, views: readonly AxisView[]): string[] {
  if (best === null) return [];
  const { at } = cells[best];
  const edges = views.filter(
    ({ isNumber, axis }, i) =>
      isNumber && axis.values.length > 2 && (at[i] === 0 || at[i] === axis.values.length - 1),
  );
  if (edges.length === 0) return [];
  return [
    `it lies at the end of what was tried for ${listed(edges.map(({ name }) => name))}: a wider range may hold a better one`,
  ];
}

/** Sizes that cost nothing more are favoured; rules and prices have no price. */
function withoutPrice({ prices }: Sweep, views: readonly AxisView[]): string[] {
  const free = views.filter(
    ({ axis, isNumber }, i) =>
      isNumber &&
      prices[i] === 0 &&
      /^(arrays|battery|inverter|generator|secondGenerator|tank|cabinet)\b/.test(axis.path),
  );
  if (free.length === 0) return [];
  return [
    `no price of one more was stated for ${listed(free.map(({ name }) => name))} (a price in the question, or prices in the site file): the capital is that of the site as filed, whatever the size`,
  ];
}
