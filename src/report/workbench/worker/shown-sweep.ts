import type { Issue } from '../../../scenarios/issue.ts';
import { radicalInverse } from '../../../scenarios/many/cells.ts';
import type { Attempt } from '../../../scenarios/many/evaluate.ts';
import { CAPITAL, Filed } from '../../../scenarios/many/ground.ts';
import type { Outcome } from '../../../scenarios/many/outcome.ts';
import { type Sweep, servesEnough, sweepOf } from '../../../scenarios/many/sweep.ts';
import { planSweep, type SweepPlan } from '../../../scenarios/many/sweep-plan.ts';
import { siteHeading } from '../../../scenarios/run-study.ts';
import { makePaper } from '../../charts/paper.ts';
import type { Html } from '../../html.ts';
import { bareFigure, decimalsFor, digits, unitOf } from '../../numbers.ts';
import { scrollable } from '../../page/figure-box.ts';
import { type AxisView, axisView, cellWords } from '../../sweep/axis-view.ts';
import { bestTable } from '../../sweep/best-table.ts';
import { type MapOf, mainMapFigures, shownCells } from '../../sweep/maps.ts';
import { MAIN_MEASURES } from '../../sweep/measures.ts';
import { curveFigures, pairFigure, pairsOf } from '../../sweep/pictures.ts';
import { priceSentences, sweepSentences } from '../../sweep/sentences.ts';
import type { Choice, ShownPart, ShownStudy, SweepAsked } from '../study-messages.ts';
import { overThreads, type StudyGround } from './study-ground.ts';

/** Beyond this a page is no longer the place for it. */
const MOST_VARIANTS = 5000;

type Shown = Omit<ShownStudy, 'key'>;

/** A sweep of the site as filed: maps and a table in which every variant can be taken. */
export async function shownSweep(
  asked: SweepAsked,
  ground: StudyGround,
): Promise<{ shown: Shown } | { issues: Issue[] }> {
  const filed = new Filed(ground.text, ground.file);
  const plan = planSweep({ ...asked, seed: 'sweep' }, filed);
  if (Array.isArray(plan)) return { issues: plan };
  if (plan.variants.length > MOST_VARIANTS) return { issues: [tooMany(plan.variants.length, ground.file)] };
  const stepMin = asked.stepMin ?? filed.site.period.stepMin;
  const order = spreadOrder(plan.variants.length);
  const { many } = await overThreads(ground, stepMin, async ({ tryEach }, doing) => {
    doing('the site as filed');
    await tryEach([{}]);
    doing('variants');
    return tryEach(order.map((i) => plan.variants[i]));
  });
  const of = (changes: Record<string, unknown>) => ground.memory.of(stepMin, changes);
  const own = of({}) as Outcome | undefined;
  const attempts = plan.variants.map(of);
  if (many.finished.length === 0 || own === undefined || attempts.every((one) => one === undefined))
    return { shown: nothing(stepMin) };
  const sweep = sweepOf(plan, attempts, {
    site: siteHeading(filed.site),
    ...{ stepMin, days: filed.site.period.days, filed: own },
    mostUnservedKwh: asked.unserved ?? own.unservedKwh,
    made: { version: '', inputsHash: '' },
  });
  return { shown: show(sweep, plan, attempts) };
}

/** Not row by row: what is there when it is stopped lies all over the map. */
function spreadOrder(count: number): number[] {
  const keys = Array.from({ length: count }, (_, i) => radicalInverse(i + 1, 2));
  return [...keys.keys()].sort((a, b) => keys[a] - keys[b]);
}

function show(sweep: Sweep, plan: SweepPlan, attempts: readonly (Attempt | undefined)[]): Shown {
  const views = sweep.axes.map(axisView);
  const run = attempts.flatMap((attempt, i) => (attempt === undefined ? [] : [i]));
  const missing = attempts.length - run.length;
  const columns = MAIN_MEASURES.map(({ key, kind }) => {
    const decimals = decimalsFor(
      kind,
      sweep.cells.map(({ outcome }) => outcome?.[key] ?? null),
    );
    return (outcome: Outcome | null) => (outcome ? bareFigure(kind, outcome[key], decimals) : '');
  });
  const choices = sweep.cells.map(({ at, outcome, problems }, i): Choice => {
    const { [CAPITAL]: capital, ...changes } = plan.variants[run[i]];
    return {
      ...{ name: cellWords(views, at), changes, capital: Number(capital ?? 0) },
      figures: columns.map((text) => text(outcome)),
      marks: marksOf(sweep, views, i, problems),
    };
  });
  const { currency } = sweep.site;
  return {
    kind: 'sweep',
    of: `The site as filed, in steps of ${sweep.stepMin} min.`,
    care: priceSentences(sweep),
    sentences: sweepSentences(sweep).filter((sentence) => !priceSentences(sweep).includes(sentence)),
    parts: [...drawings(sweep, views), { html: tableOf(sweep, views), cells: [] }],
    heads: MAIN_MEASURES.map(({ label, kind }) => {
      const unit = unitOf(kind, currency);
      return unit ? `${label}, ${unit}` : label;
    }),
    ...{ choices, listed: byCost(sweep), basis: BASIS },
    stopped:
      missing > 0
        ? `Stopped: ${digits(run.length)} of ${digits(attempts.length)} variants are there, spread over the range. The same question goes on from here.`
        : '',
  };
}

function tableOf(sweep: Sweep, views: readonly AxisView[]): string {
  return scrollable('The site as filed and the best variant', bestTable(sweep, views)).html;
}

function drawings(sweep: Sweep, views: readonly AxisView[]): ShownPart[] {
  const paper = makePaper();
  const place = new Map(sweep.cells.map((cell, i) => [cell, i]));
  const part = ({ html }: Html, of: MapOf): ShownPart => ({
    html,
    cells: shownCells(of, sweep.mostUnservedKwh).map((cell) => place.get(cell) as number),
  });
  if (views.length === 1) {
    const cells = sweep.cells.flatMap(({ outcome }, i) => (outcome === null ? [] : [i]));
    return curveFigures(sweep, views[0], paper).map(({ html }) => ({ html, cells }));
  }
  if (views.length > 2) return pairsOf(sweep, views).map((of) => part(pairFigure(sweep, of, paper), of));
  const of = { views, across: 0, up: 1, cells: sweep.cells };
  return mainMapFigures(sweep, of, paper).map((figure) => part(figure, of));
}

/** The cheapest that serves enough first; what contradicts itself is not listed. */
function byCost({ cells, mostUnservedKwh }: Sweep): number[] {
  const short = (outcome: Outcome) => Number(!servesEnough(outcome, mostUnservedKwh));
  return cells
    .flatMap(({ outcome }, i) => (outcome ? [{ i, outcome }] : []))
    .sort((a, b) => short(a.outcome) - short(b.outcome) || a.outcome.lifeCycleCost - b.outcome.lifeCycleCost)
    .map(({ i }) => i);
}

function marksOf(sweep: Sweep, views: readonly AxisView[], i: number, problems: readonly string[]): string {
  const { at, outcome } = sweep.cells[i];
  return [
    views.every(({ filedAt }, axis) => filedAt === at[axis]) ? 'as filed' : '',
    sweep.best === i ? 'cheapest that serves enough' : '',
    outcome && !servesEnough(outcome, sweep.mostUnservedKwh) ? 'leaves more unserved than the limit' : '',
    problems.length > 0 ? `contradicts itself: ${problems[0]}` : '',
  ]
    .filter((mark) => mark !== '')
    .join(', ');
}

function nothing(stepMin: number): Shown {
  return {
    ...{
      kind: 'sweep',
      of: `The site as filed, in steps of ${stepMin} min.`,
      sentences: [],
      care: [],
      parts: [],
    },
    ...{ heads: [], choices: [], listed: [], basis: '', stopped: 'Stopped before a variant was finished.' },
  };
}

const BASIS = `<p>Every variant is the site as filed with the values changed that are named, and nothing else: what goes with a size (fuel curve, cabinet, controller, threshold) stays as it is. “Choose sizes” takes it along. One year is repeated over the years of the study.</p>`;

function tooMany(count: number, file: string): Issue {
  return {
    severity: 'error',
    code: 'sweep',
    path: 'sweep',
    got: `${digits(count)} variants`,
    want: `at most ${digits(MOST_VARIANTS)} here: fewer values, or a number of runs, which are spread over all; the command line takes more`,
    at: { file },
  };
}
