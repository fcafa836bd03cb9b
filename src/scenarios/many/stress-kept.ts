import type { StressRun, StressStudy } from './stress-result.ts';

/** The first line of a file of finished runs: what they are runs of. */
export function runsHead({ made, terms }: StressStudy): string {
  const { version, inputsHash } = made;
  return `${JSON.stringify({ version, inputs: inputsHash, seed: terms.seed })}\n`;
}

/** A finished run as a line of that file; numbers come back to the last bit. */
export function runLine(name: string, run: StressRun): string {
  return `${JSON.stringify({ name, run })}\n`;
}

/**
 * The finished runs of a file, where it was written for the same inputs, version and seed. A last line that was not
 * finished is passed over. How many runs were asked for then does not matter: each is drawn by itself.
 */
export function keptRuns(
  text: string,
  study: StressStudy,
): { count: number; find: (name: string, run: number) => StressRun | null } {
  const [head, ...lines] = text.split('\n');
  const kept = new Map<string, StressRun>();
  if (`${head}\n` === runsHead(study))
    for (const line of lines) {
      const one = parsed(line);
      if (one) kept.set(`${one.name} ${one.run.run}`, one.run);
    }
  return { count: kept.size, find: (name, run) => kept.get(`${name} ${run}`) ?? null };
}

function parsed(line: string): { name: string; run: StressRun } | null {
  try {
    return line === '' ? null : JSON.parse(line);
  } catch {
    return null;
  }
}
