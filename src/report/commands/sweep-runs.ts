import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { SiteChanges } from '../../scenarios/apply-changes.ts';
import type { Attempt, TryEach } from '../../scenarios/many/evaluate.ts';
import { type KeptFor, KeptOutcomes } from '../../scenarios/many/kept-outcomes.ts';
import { runCells } from '../../scenarios/many/sweep.ts';
import type { SweepPlan } from '../../scenarios/many/sweep-plan.ts';
import { missingParts, shareOfPart } from '../../scenarios/many/work-part.ts';
import { WrongVariants } from '../../scenarios/many/wrong-variants.ts';
import { writeInPlace } from './files.ts';
import { keptPath, partFiles, partSentence } from './parts.ts';
import { makeProgressLine } from './progress-line.ts';
import type { SpreadOptions } from './spread-options.ts';
import type { Terminal } from './work.ts';

/**
 * What each variant gave: run and kept, or taken from parts that were run before.
 * @returns null where only a part was asked for: it is kept, and it is said so
 * Errors: rejects with `WrongVariants` where parts that are to be put together are missing.
 */
export async function runSweep(
  plan: SweepPlan,
  tryEach: TryEach,
  belongsTo: KeptFor,
  { out, shard: part, merge }: SpreadOptions & { out: string },
  { showsProgress }: Terminal,
): Promise<Attempt[] | null> {
  const name = `sweep-${belongsTo.inputsHash}.jsonl`;
  if (merge) return mergedParts(plan.variants, name, belongsTo, merge);
  const path = keptPath(out, name, part);
  const kept = keptIn(path, belongsTo);
  const line = makeProgressLine('variants', kept.before, showsProgress);
  const variants = part ? shareOfPart(plan.variants, part) : plan.variants;
  const attempts = await runCells({ ...plan, variants }, tryEach, kept, line.at).finally(line.clear);
  if (!part) return attempts;
  process.stdout.write(partSentence(part, `${variants.length} of ${plan.variants.length} variants`, path));
  return null;
}

function keptIn(path: string, belongsTo: KeptFor): KeptOutcomes {
  const text = existsSync(path) ? readFileSync(path, 'utf8') : null;
  const write = (more: string, how: 'append' | 'replace') => {
    mkdirSync(join(path, '..'), { recursive: true });
    if (how === 'append') appendFileSync(path, more);
    else writeInPlace(path, more);
  };
  return new KeptOutcomes(text, belongsTo, write, () => performance.now());
}

function mergedParts(
  variants: readonly SiteChanges[],
  name: string,
  belongsTo: KeptFor,
  folders: readonly string[],
): Attempt[] {
  const found = partFiles(name, folders);
  const parts = found.map(({ text }) => new KeptOutcomes(text, belongsTo, leaveAsItIs, () => 0));
  const of = (changes: SiteChanges) => {
    for (const part of parts) {
      const attempt = part.of(changes);
      if (attempt !== undefined) return attempt;
    }
  };
  const attempts = variants.map(of);
  const there = found.map(({ part }) => part);
  const missing = missingParts(attempts, (attempt) => attempt !== undefined, there, 'variants', folders);
  if (missing.length > 0) throw new WrongVariants(missing);
  return attempts as Attempt[];
}

/** Parts are only read. */
function leaveAsItIs(): void {}
