import type { Cause, Visit } from '../../scenarios/visit/visit.ts';
import type { CauseRow } from '../charts/cause-steps.ts';
import { figure } from '../numbers.ts';
import { capital, numberWord } from '../words.ts';
import { shows, stepWords } from './answer.ts';
import { causeWords } from './cause-words.ts';
import { type Measure, monthly } from './measure.ts';

/** Causes that have a row of their own, beside what is not explained; the others share one. */
const MOST_ROWS = 6;

interface Step {
  kind: Cause['kind'];
  size: number;
}

interface Chosen {
  /** in the order in which they were put in, what is not explained last */
  own: Step[];
  /** told together; none or at least two */
  together: Step[];
  /** nothing, as it would be written */
  left: number;
}

function chosenSteps({ comparison: { causes } }: Visit, measure: Measure): Chosen {
  const steps = causes.map(({ kind }, i): Step => ({ kind, size: measure.steps[i] }));
  const shown = steps.filter(({ size }) => shows(measure, size));
  const named = shown.filter(({ kind }) => kind !== 'unexplained');
  const bySize = [...named].sort((a, b) => Math.abs(b.size) - Math.abs(a.size));
  const small = bySize.length > MOST_ROWS ? bySize.slice(MOST_ROWS - 1) : [];
  return {
    own: shown.filter((step) => !small.includes(step)),
    together: small,
    left: steps.length - shown.length,
  };
}

/** From what was promised to what was used: a whole, a step for each cause that shows, a whole. */
export function causeRows(visit: Visit, measure: Measure): CauseRow[] {
  const { kind, designed, ran, decimals } = measure;
  const { own, together } = chosenSteps(visit, measure);
  const isOpen = (step: Step) => step.kind === 'unexplained';
  let at = designed;
  const row = (text: string, size: number): CauseRow => {
    const from = at;
    at += size;
    return { text: capital(text), value: stepWords(measure, size), from, to: at, whole: false };
  };
  const ownRow = (step: Step) => row(causeWords(step.kind, step.size, visit), step.size);
  const whole = (text: string, value: number): CauseRow => ({
    ...{ text, value: figure(kind, value, decimals), from: 0, to: value, whole: true },
  });
  const sum = together.reduce((total, { size }) => total + size, 0);
  return [
    whole('Promised by the design', designed),
    ...own.filter((step) => !isOpen(step)).map(ownRow),
    ...(together.length > 0 ? [row(`${numberWord(together.length)} smaller causes together`, sum)] : []),
    ...own.filter(isOpen).map(ownRow),
    whole('Used, by the log', ran),
  ];
}

/** "from 121 L a month promised to 168 L a month used, cause by cause" */
export function causesTitle(measure: Measure): string {
  const { designed, ran } = measure;
  return `from ${monthly(measure, designed)} promised to ${monthly(measure, ran)} used, cause by cause`;
}

/** How the steps are to be read, and which are not drawn. */
export function notDrawnWords(visit: Visit, measure: Measure): string {
  const { left } = chosenSteps(visit, measure);
  const order = 'Causes are put in one after another: what two do together counts for the later.';
  if (left === 0) return order;
  return `${order} ${left === 1 ? 'One changes' : `${capital(numberWord(left))} change`} nearly nothing and ${left === 1 ? 'is' : 'are'} not drawn.`;
}
