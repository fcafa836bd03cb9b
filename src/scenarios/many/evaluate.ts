import type { SiteChanges } from '../apply-changes.ts';
import type { Issue } from '../issue.ts';
import { Filed, type ManyRequest, makeSeries } from './ground.ts';
import type { Outcome } from './outcome.ts';
import { Runner } from './runner.ts';
import { WrongVariants } from './wrong-variants.ts';

/**
 * Outcomes of variants, in their order; a variant is a set of changes to the site as filed, with `CAPITAL` where it
 * costs more or less at the start.
 * @param stepMin another step than that of the request [min]
 * Errors: throws `WrongVariants`, with every problem of every variant that contradicts itself.
 */
export type Evaluate = (variants: readonly SiteChanges[], stepMin?: number) => Promise<Outcome[]>;

/** An outcome, or why there is none. */
export type Attempt = Outcome | Issue[];

/** As `Evaluate`, but each variant that contradicts itself gives its problems; told of each as it is done. */
export type TryEach = (
  variants: readonly SiteChanges[],
  stepMin?: number,
  onDone?: (index: number, attempt: Attempt) => void,
) => Promise<Attempt[]>;

/**
 * Evaluates variants one after another in this thread.
 * Errors: throws `WrongVariants` with every problem of the site file.
 */
export function makeEvaluator(request: ManyRequest): { evaluate: Evaluate; tryEach: TryEach } {
  const filed = new Filed(request.text, request.file);
  const runners = new Map<number | undefined, Runner>();
  const runnerAt = (stepMin: number | undefined) => {
    const known = runners.get(stepMin);
    if (known) return known;
    const made = new Runner(
      filed,
      makeSeries({ ...request, stepMin }).series,
      request.readFile,
      stepMin ?? null,
    );
    runners.set(stepMin, made);
    return made;
  };
  runnerAt(request.stepMin);
  const tryEach: TryEach = async (variants, stepMin = request.stepMin, onDone) => {
    const runner = runnerAt(stepMin);
    return variants.map((changes, index) => {
      const attempt = runner.run(changes);
      onDone?.(index, attempt);
      return attempt;
    });
  };
  return { evaluate: evaluateBy(tryEach), tryEach };
}

/** Outcomes alone, or all problems thrown. */
export function evaluateBy(tryEach: TryEach): Evaluate {
  return async (variants, stepMin) => {
    const attempts = await tryEach(variants, stepMin);
    const issues = attempts.flatMap((attempt) => (Array.isArray(attempt) ? attempt : []));
    if (issues.length > 0) throw new WrongVariants(issues);
    return attempts as Outcome[];
  };
}
